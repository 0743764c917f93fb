"""Problems as lines of text."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem
from sootsayer.documents.report_problems import problem_lines


def lines_for(line: str, column: int) -> list[str]:
    """The lines for one problem at `column` of `line`."""
    return problem_lines([Problem(Place("f.yaml", 3, column), "what", "instead", line)])


def test_short_line() -> None:
    """Place and what, the line with a pointer under the column, then what would be right."""
    assert lines_for("  a: 0,05", 6) == [
        "f.yaml:3:6: what", "    a: 0,05", "       ^", "  → instead"]  # fmt: skip


def test_no_line() -> None:
    """Without a line nothing is quoted."""
    assert lines_for("", 1) == ["f.yaml:3:1: what", "  → instead"]


def test_escapes_are_written_out() -> None:
    """Name, texts and line pass through `visible`, and the pointer still stands right."""
    problem = Problem(Place("\x1bf", 1, 3), "\u202ewhat", "in\x07stead", "a\x1bb")
    assert problem_lines([problem]) == [
        "\\x1bf:1:3: \\u202ewhat", "    a\\x1bb", "         ^", "  → in\\x07stead"]  # fmt: skip


@pytest.mark.parametrize("column", [1, 46, 500, 955, 1000, 1001])
def test_long_line_is_shortened_around_the_column(column: int) -> None:
    """Of a long line a window with the column in it is shown."""
    line = "".join(chr(ord("a") + n % 26) for n in range(1000))
    shown = lines_for(line, column)
    assert len(shown[1]) <= 4 + 92
    pointer = shown[2].index("^")
    expected = line[column - 1] if column <= 1000 else ""
    assert shown[1][pointer : pointer + 1] == expected
    assert shown[1].strip().strip("…") in line


@given(text=st.text(st.characters(exclude_categories=())), column=st.integers(1, 400))
@settings(deadline=None)
def test_any_line(text: str, column: int) -> None:
    """No line or column breaks it, and nothing it gives holds a newline."""
    shown = lines_for(text * 20, column)
    assert shown[0] == f"f.yaml:3:{column}: what"
    assert shown[-1] == "  → instead"
    assert not any("\n" in line or "\x1b" in line for line in shown)


def test_order_is_kept() -> None:
    """Several problems follow one another as given."""
    problems = [Problem(Place("f", n, 1), f"w{n}", "") for n in (2, 1)]
    assert problem_lines(problems) == ["f:2:1: w2", "f:1:1: w1"]
