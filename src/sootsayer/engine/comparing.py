"""Comparisons and grades compiled to closures over cells."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable

from sootsayer.engine.conditions import Compare, Const, Grade, Limit, Op, Truth
from sootsayer.engine.layout import Cells, Layout, Level, Resolver, Test, cell_of, resolver
from sootsayer.engine.numbers import HALVES, half, joined, number

OPPOSITE = {
    Op.BELOW: Op.AT_LEAST,
    Op.AT_LEAST: Op.BELOW,
    Op.AT_MOST: Op.ABOVE,
    Op.ABOVE: Op.AT_MOST,
    Op.BETWEEN: Op.OUTSIDE,
    Op.OUTSIDE: Op.BETWEEN,
}


def compile_compare(condition: Compare, layout: Layout, absent: Truth, denied: bool) -> Test:
    """The closure of a comparison, or of its negation if it is `denied`.

    `absent` is its truth, before negation, where something is not fitted. Raises ValueError
    for a wrong number of operands or a constant that is NaN.
    """
    op, i = condition.op, layout.slot[condition.slot]
    if len(condition.operands) != len(HALVES[op]):
        raise ValueError(f"{condition.slot}: wrong number of operands for {op.value}")
    if denied:
        op, absent = OPPOSITE[op], None if absent is None else not absent
    ends = tuple(zip(HALVES[op], (resolver(o, layout) for o in condition.operands), strict=True))

    def slow(cells: Cells) -> Truth:
        left = number(cells[i])
        return joined(op, [half(test, left, end(cells), absent) for test, end in ends])

    bounds = [cell_of(o, layout) for o in condition.operands if isinstance(o, Const | Limit)]
    if len(bounds) == len(ends):
        return _fast(op, i, bounds[0], bounds[-1], slow)
    if len(ends) == 1:
        return _moving(i, *ends[0], slow)
    return slow


def _moving(i: int, test: Callable[[float, float], bool], end: Resolver, slow: Test) -> Test:
    """The road for a float against another number that is one."""

    def moving(cells: Cells) -> Truth:
        x, y = cells[i], end(cells)
        if x.__class__ is float and y.__class__ is float:
            return test(x, y)
        return slow(cells)

    return moving


def _fast(op: Op, i: int, j: int, k: int, slow: Test) -> Test:
    """The road for floats against floats, spelt out per operator: it is most of the time.

    `j` and `k` are cells of constants or limits, which always hold a float.
    """
    roads = (_below, _at_most, _above, _at_least, _between, _outside)
    return roads[tuple(HALVES).index(op)](i, j, k, slow)


def _below(i: int, j: int, _k: int, slow: Test) -> Test:
    def test(cells: Cells) -> Truth:
        x = cells[i]
        if x.__class__ is float:
            return x < cells[j]  # type: ignore[operator]
        return None if x is None else slow(cells)

    return test


def _at_most(i: int, j: int, _k: int, slow: Test) -> Test:
    def test(cells: Cells) -> Truth:
        x = cells[i]
        if x.__class__ is float:
            return x <= cells[j]  # type: ignore[operator]
        return None if x is None else slow(cells)

    return test


def _above(i: int, j: int, _k: int, slow: Test) -> Test:
    def test(cells: Cells) -> Truth:
        x = cells[i]
        if x.__class__ is float:
            return x > cells[j]  # type: ignore[operator]
        return None if x is None else slow(cells)

    return test


def _at_least(i: int, j: int, _k: int, slow: Test) -> Test:
    def test(cells: Cells) -> Truth:
        x = cells[i]
        if x.__class__ is float:
            return x >= cells[j]  # type: ignore[operator]
        return None if x is None else slow(cells)

    return test


def _between(i: int, j: int, k: int, slow: Test) -> Test:
    def test(cells: Cells) -> Truth:
        x = cells[i]
        if x.__class__ is float:
            return cells[j] <= x <= cells[k]  # type: ignore[operator]
        return None if x is None else slow(cells)

    return test


def _outside(i: int, j: int, k: int, slow: Test) -> Test:
    def test(cells: Cells) -> Truth:
        x = cells[i]
        if x.__class__ is float:
            return x < cells[j] or x > cells[k]  # type: ignore[operator]
        return None if x is None else slow(cells)

    return test


def compile_grade(grade: Grade, layout: Layout) -> Level:
    """The closure that gives the level: the one below the first cut that the number is below.

    So an unknown cut matters only to numbers that reach it. Raises ValueError when the cuts
    are not one fewer than the levels.
    """
    if len(grade.cuts) != len(grade.levels) - 1:
        raise ValueError(f"{grade.name}: {len(grade.levels)} levels need one cut fewer")
    i, levels = layout.slot[grade.of], grade.levels
    cuts = [resolver(cut, layout) for cut in grade.cuts]

    def walk(cells: Cells) -> str | None:
        x = number(cells[i])
        if not isinstance(x, float):
            return None
        for level, cut in zip(levels, cuts, strict=False):
            end = cut(cells)
            if not isinstance(end, float):
                return None
            if x < end:
                return level
        return levels[-1]

    fixed = [cut.value for cut in grade.cuts if isinstance(cut, Const)]
    if len(fixed) < len(cuts) or fixed != sorted(fixed):
        return walk

    def search(cells: Cells) -> str | None:
        x = cells[i]
        if x.__class__ is float:
            return levels[bisect_right(fixed, x)]
        return None if x is None else walk(cells)

    return search
