"""The script that a shell reads: its own template, with the table and two folders put in."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from sootsayer.commands.completing.table import Word
from sootsayer.documents.escaping import visible

HERE = Path(__file__).parent


def _posix(text: str) -> str:
    return "'" + text.replace("'", "'\\''") + "'"


def _fish(text: str) -> str:
    return "'" + text.replace("\\", "\\\\").replace("'", "\\'") + "'"


def _powershell(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"


# How each shell writes a text in which nothing is expanded.
QUOTED: dict[str, Callable[[str], str]] = {
    "bash": _posix,
    "zsh": _posix,
    "fish": _fish,
    "powershell": _powershell,
}


def script(shell: str, words: Sequence[Word], rules: Path, cases: Path) -> str:
    """The script for one of `QUOTED`; `rules` and `cases`: the shipped folders."""
    quoted = QUOTED[shell]
    lines = "\n".join(visible(word.line()) for word in words)
    text = (HERE / f"template.{shell}").read_text(encoding="utf-8")
    for name, value in (("TABLE", lines), ("RULES", str(rules)), ("CASES", str(cases))):
        text = text.replace(f"@{name}@", quoted(value))
    return text
