"""Long texts of help, laid into the width of a screen."""

from __future__ import annotations


def filled(text: str, width: int) -> str:
    """The text with no line longer than `width`, where its words allow it.

    Lines that begin at the margin are prose, and run on; what is indented is a command to be
    typed, which stays whole, or what it does.
    """
    laid: list[str] = []
    prose: list[str] = []
    for line in [*text.splitlines(), ""]:
        if line and not line.startswith(" "):
            prose.append(line)
            continue
        laid += _wrapped(" ".join(prose), width)
        prose = []
        laid += _wrapped(line, width) if line.startswith("   ") else [line]
    return "\n".join(laid[:-1]) + "\n"


def _wrapped(line: str, width: int) -> list[str]:
    import textwrap  # here, since only who asks for help needs it

    indent = " " * (len(line) - len(line.lstrip()))
    return textwrap.wrap(
        line.strip(), width, initial_indent=indent, subsequent_indent=indent,
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip
