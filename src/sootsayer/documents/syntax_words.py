"""The Python parser's complaints in plain words of ours. libyaml's texts are never used."""

from __future__ import annotations

import re

from yaml import MarkedYAMLError
from yaml.error import Mark

from sootsayer.catalogue import Said, say
from sootsayer.documents.faults import AFTER_BLOCK_SIGN, IS_A_TAG
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem

_QUOTE_IT = "quote the whole text"
_DOUBLED = "quote the whole text (an apostrophe in single quotes is doubled)"
_CANNOT_BEGIN = 'a text cannot begin with "{sign}"'
_ESCAPE = r"write \\ for one backslash, or use single quotes"

# By the start of the parser's own problem text: what, instead.
_WORDS = {
    "mapping values are not allowed here": (
        'a colon followed by a space stands where no "key: value" can',
        'quote the whole text (key: "text: more text"), or set the line level with its neighbours',
    ),
    "sequence entries are not allowed here": (
        'a "- " stands where no list item can',
        "put each item on a line of its own, level with the others",
    ),
    "mapping keys are not allowed here": ('a "? " stands where no key can', _QUOTE_IT),
    "found unknown escape character": (
        "this escape means nothing between double quotes",
        _ESCAPE,
    ),
    "expected escape sequence": ("this escape is no code of a character", _ESCAPE),
    "expected indentation indicator": (
        'the indentation after "|" or ">" cannot be 0',
        "remove the digit",
    ),
    "expected chomping or indentation": AFTER_BLOCK_SIGN,
    "expected a comment or a line break": AFTER_BLOCK_SIGN,
    "expected <block end>": (
        "this line begins neither level with a line above nor inside one",
        "set it level with its neighbours; quote a text that ends too early",
    ),
    "expected '<document start>'": (
        "more follows after the end of the content",
        "remove it, or quote the whole text",
    ),
    "found unexpected ':'": (
        "a colon stands directly before a bracket or comma",
        "write a space after the colon, or quote the text",
    ),
    "found undefined tag handle": (IS_A_TAG, _QUOTE_IT),
}
# By a part of what the parser was at: the sign that a text cannot begin with.
_SIGNS = {
    "while scanning an anchor": "&",
    "while scanning an alias": "*",
    "tag": "!",
    "directive": "%",
}
_ENDS = ("<stream end>", "<document start>", "<document end>")  # not said
_CANNOT_START = re.compile(r"found character '(.)' that cannot start any token", re.DOTALL)
_UNREADABLE = (
    "this cannot be read as YAML",
    "check brackets, quotes and indentation of this line and the one above",
)
_MISSING_CLOSE = (
    'a comma or the closing "{closing}" is missing before this '
    '(the "{opening}" stands in line {line}, column {column})'
)


def syntax_problem(
    error: Exception, file: str, lines: list[str], bracket: Place | None = None
) -> Problem:
    """The one problem that stopped the parser, at its line and column.

    `bracket` is where the innermost bracket still open stands, if any.
    """
    if not isinstance(error, MarkedYAMLError):
        what, instead = _UNREADABLE
        return Problem(Place(file, 1, 1), say(what), say(instead))
    mark = error.problem_mark or error.context_mark
    context = error.context or ""
    text = error.problem or ""
    opened = error.context_mark
    if "quoted scalar" in context and "found unexpected" in text and opened:
        return _problem(
            opened,
            file,
            lines,
            say("the quote opened here is never closed"),
            say("write the closing quote (an apostrophe in single quotes is doubled)"),
        )
    if "simple key" in context and opened:
        return _problem(
            opened,
            file,
            lines,
            say('this is neither "key: value" nor part of the text above'),
            say(
                "write a colon and a space after the key (a key fits on one line), "
                "or indent the text under its key"
            ),
        )
    if "expected ',' or" in text and opened:
        return _unclosed(text, mark or opened, opened, file, lines)
    if "expected the node content" in text:
        return _no_content(text, mark, bracket, file, lines)
    for start, sign in _SIGNS.items():
        if start in context:
            return _cannot_begin(opened or mark, file, lines, sign)
    found = _CANNOT_START.match(text)
    if found:
        return _cannot_begin(mark, file, lines, found.group(1))
    if text.startswith("expected <block end>") and mark and not _begins_line(mark, lines):
        return _problem(
            mark,
            file,
            lines,
            say("more follows after the end of the value"),
            say(_DOUBLED),
        )
    what, instead = next(
        (told for start, told in _WORDS.items() if text.startswith(start)), _UNREADABLE
    )
    return _problem(mark, file, lines, say(what), say(instead))


def unreadable(error: Exception, file: str, lines: list[str]) -> Problem:
    """A problem without detail at the error's place (for files too long to read twice)."""
    mark = error.problem_mark if isinstance(error, MarkedYAMLError) else None
    what, instead = _UNREADABLE
    return _problem(mark, file, lines, say(what), say(instead))


def _begins_line(mark: Mark, lines: list[str]) -> bool:
    return mark.line >= len(lines) or not lines[mark.line][: mark.column].strip(" ")


def _unclosed(text: str, mark: Mark, opened: Mark, file: str, lines: list[str]) -> Problem:
    closing = "]" if text.startswith("expected ',' or ']'") else "}"
    opening = "[" if closing == "]" else "{"
    if any(end in text for end in _ENDS):
        return _problem(opened, file, lines, *_never_closed(opening))
    return _problem(
        mark,
        file,
        lines,
        say(
            _MISSING_CLOSE,
            closing=closing,
            opening=opening,
            line=opened.line + 1,
            column=opened.column + 1,
        ),
        say("add it, or quote the whole text"),
    )


def _cannot_begin(mark: Mark | None, file: str, lines: list[str], sign: str) -> Problem:
    return _problem(mark, file, lines, say(_CANNOT_BEGIN, sign=sign), say(_QUOTE_IT))


def _never_closed(opening: str) -> tuple[Said, Said]:
    closing = {"[": "]", "{": "}"}.get(opening, opening)
    what = say('the "{opening}" opened here is never closed', opening=opening)
    return what, say('write the closing "{closing}"', closing=closing)


def _no_content(
    text: str, mark: Mark | None, bracket: Place | None, file: str, lines: list[str]
) -> Problem:
    found = re.search(r"found '(.*)'$", text)
    sign = found.group(1) if found else ""
    if sign in _ENDS and bracket:
        line = lines[bracket.line - 1]
        return Problem(bracket, *_never_closed(line[bracket.column - 1]), line)
    if sign == ":":
        return _problem(
            mark,
            file,
            lines,
            say("a key is missing before this colon"),
            say("write the key, or quote the whole text"),
        )
    if sign.startswith("<"):
        return _problem(mark, file, lines, say("a value is missing here"), say("write the value"))
    return _problem(
        mark,
        file,
        lines,
        say('"{sign}" stands where a value should', sign=sign),
        say('write a value before it, or quote a text that begins with "{sign}"', sign=sign),
    )


def _problem(mark: Mark | None, file: str, lines: list[str], what: Said, instead: Said) -> Problem:
    line, column = (mark.line, mark.column) if mark else (0, 0)
    # An error behind the last newline is shown at the end of the last line.
    if line >= len(lines):
        line = max(0, len(lines) - 1)
        column = len(lines[line]) if lines else 0
    quoted = lines[line] if lines else ""
    return Problem(Place(file, line + 1, column + 1), what, instead, quoted)
