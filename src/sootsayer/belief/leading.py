"""The joint table of the leading faults, all others summed out."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping
from typing import cast

from sootsayer.belief.elimination import pieces
from sootsayer.belief.given import narrow
from sootsayer.belief.joint import joint_of
from sootsayer.belief.problem import Problem
from sootsayer.belief.settling import TooWide, leaves
from sootsayer.belief.tables import Table, bits, rescale, sum_out

LEADING = 12  # faults a candidate is made of


def leading_joint(
    problem: Problem, found: Mapping[str, float], count: int = LEADING
) -> tuple[list[int], Table]:
    """The numbers of the `count` leading faults, lowest first, and the probability of each set of
    them (the first of them bit 0), given all posteriors `found`. Fewer where the table would be
    too large."""
    ranked = sorted(range(len(problem.ids)), key=lambda i: (-round(found[problem.ids[i]], 12), i))
    known = cast("tuple[list[int], Table] | None", problem.memory.get("leading"))
    if known is not None and set(ranked[:count]) <= set(known[0]):
        return _without(known, ranked[:count])
    leading = sorted(ranked[:count])
    while True:
        try:
            joint = _joint(problem, leading)
            break
        except TooWide:
            leading = sorted(ranked[: len(leading) - 1])
    whole = math.fsum(joint)
    problem.memory["leading"] = found_here = leading, [value / whole for value in joint]
    return found_here


def _without(known: tuple[list[int], Table], kept: Collection[int]) -> tuple[list[int], Table]:
    """A table of more faults with all but those `kept` summed out."""
    faults, table = known
    for position in range(len(faults) - 1, -1, -1):
        if faults[position] not in kept:
            table = sum_out(table, position)
    return sorted(kept), table


def _joint(problem: Problem, leading: list[int]) -> Table:
    """The joint table of the leading faults (first one bit 0), up to a constant factor."""
    place = {fault: j for j, fault in enumerate(leading)}
    kept = sum(1 << fault for fault in leading)
    tables: list[tuple[list[int], Table, int]] = []
    for settled in leaves(problem):
        leaf = narrow(problem, settled, kept)
        (mantissa, power), spread = leaf.scale, []
        for piece in pieces(leaf):
            values, shift = joint_of(problem, piece, kept)
            power += shift
            if len(values) > 1:
                spread.append((bits(piece.members & kept), values))
            else:
                mantissa, more = math.frexp(mantissa * values[0])
                power += more
        index = [sum(1 << place[fault] for fault in bits(settled.present & kept))]
        table = [mantissa]
        for members, values in spread:
            for fault in members:
                bit = 1 << place[fault]
                index += [i + bit for i in index]
            table, more = rescale([x * y for y in values for x in table])
            power += more
        tables.append((index, table, power))
    top = max(power for _, _, power in tables)
    joint = [0.0] * (1 << len(leading))
    for index, table, power in tables:
        factor = math.ldexp(1.0, max(power - top, -1074))
        for i, value in zip(index, table, strict=True):
            joint[i] += value * factor
    return joint
