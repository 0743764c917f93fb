"""Problems as lines of text, fit for any screen."""

from __future__ import annotations

from collections.abc import Iterable

from sootsayer.documents.escaping import visible
from sootsayer.documents.problems import Problem

QUOTED = 90  # characters of a line that are quoted, at most
QUOTED_AT = 6  # what stands before and behind a quoted line: four blanks and the marks of a cut
_GAP = "…"


def problem_lines(problems: Iterable[Problem], quoted: int = QUOTED) -> list[str]:
    """For each problem: `file:line:column: what`, the quoted line, a pointer, `→ instead`.

    Everything passes through `visible`; a line that is longer than `quoted` is
    shortened around the column.
    """
    shown: list[str] = []
    for problem in problems:
        shown.append(f"{visible(str(problem.place))}: {visible(problem.what)}")
        if problem.line.strip():
            part, offset = _around(problem.line, problem.place.column - 1, quoted)
            shown.append(f"    {part}")
            if offset is not None:
                shown.append(f"    {' ' * offset}^")
        if problem.instead:
            shown.append(f"  → {visible(problem.instead)}")
    return shown


def _around(line: str, column: int, most: int) -> tuple[str, int | None]:
    """The part of the line around `column` (from 0), and where the pointer stands in it.

    None for the pointer where the column does not lie in the line.
    """
    start = 0
    end = len(line)
    if len(line) > most:
        start = max(0, min(column - most // 2, len(line) - most))
        end = start + most
    before = (_GAP if start else "") + visible(line[start : max(start, min(column, end))])
    after = visible(line[max(start, min(column, end)) : end]) + (_GAP if end < len(line) else "")
    indent = len(before) - len(before.lstrip(" "))
    inside = start <= column <= len(line)
    return (before + after).strip(" "), len(before) - indent if inside else None
