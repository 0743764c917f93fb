"""What bundles of checks are worth, against the table of the leading faults."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from sootsayer.belief.network import Observable
from sootsayer.interview.bundles import Bundle, Yield
from sootsayer.interview.information import expected_drop, mutual_information
from sootsayer.interview.leading_table import LeadingTable
from sootsayer.interview.outcomes import faults_behind, joint_outcomes, level_tables

MOST_OUTCOMES = 48  # joint outcomes of one bundle that are told apart
MOST_WEIGHED = 1 << 14  # outcomes times cells


LEAST = 1e-9  # a likelihood below it is not divided out any further

Entered = tuple[Observable, tuple[float, ...]]


class Scorer:
    """Scores bundles against one table; what they share is worked out once.

    Where a bundle yields more joint outcomes than can be told apart, the findings that tell
    most by themselves count and the rest is left out: such a score is never too high.
    `entered`: how each family that spoke already sees, and the likelihood of each of its levels.
    """

    def __init__(self, table: LeadingTable, entered: Mapping[str, Entered]) -> None:
        self.table = table
        self.entered = entered
        self._alone: dict[tuple[str, str], float] = {}
        self._without: dict[str, LeadingTable] = {}

    def gain(self, bundle: Bundle) -> float:
        """Bits that all that the bundle yields tells of the leading faults, taken together.

        A better member of a family that spoke already is worth what it tells more than the
        one before, both reckoned without what that one said.
        """
        telling = self._telling(bundle)
        if len(telling) == 1:
            new = self._gain_alone(telling[0])
        else:
            new = _gain(self.table, [each.seen for each in telling])
        better = 0.0
        for each, table, before in self._better(bundle):
            better += max(0.0, _gain(table, [each.seen]) - _gain(table, [before]))
        return new + better

    def drop(self, bundle: Bundle) -> float:
        """The expected fall of each leading fault's own entropy, added up, in bits."""
        new = _drop(self.table, [each.seen for each in self._telling(bundle)])
        better = 0.0
        for each, table, before in self._better(bundle):
            better += max(0.0, _drop(table, [each.seen]) - _drop(table, [before]))
        return new + better

    def _telling(self, bundle: Bundle) -> list[Yield]:
        """The new voices that are told apart, those that tell most by themselves first."""
        new = [each for each in bundle.yields if each.instead_of is None]
        new.sort(key=lambda each: (-round(self._gain_alone(each), 12), each.family))
        telling: list[Yield] = []
        faults: frozenset[str] = frozenset()
        outcomes = 1
        for each in new:
            more = outcomes * len(each.seen.otherwise)
            wider = faults | faults_behind(each.seen)
            cells = 1 << self.table.mask(wider).bit_count()
            fits = more <= MOST_OUTCOMES and more * cells <= MOST_WEIGHED
            if self._gain_alone(each) > 0.0 and (fits or not telling):
                telling.append(each)
                faults, outcomes = wider, more
        return telling

    def _gain_alone(self, each: Yield) -> float:
        key = (each.family, each.finding)
        found = self._alone.get(key)
        if found is None:
            found = self._alone[key] = _gain(self.table, [each.seen])
        return found

    def _better(self, bundle: Bundle) -> list[tuple[Yield, LeadingTable, Observable]]:
        """The better voices, each with the table as it is without the worse one, and that one."""
        return [
            (each, self._without_family(each.family), self.entered[each.family][0])
            for each in bundle.yields
            if each.instead_of is not None and each.family in self.entered
        ]

    def _without_family(self, family: str) -> LeadingTable:
        found = self._without.get(family)
        if found is None:
            seen, likelihood = self.entered[family]
            everywhere = (1 << len(self.table.faults)) - 1
            levels = level_tables(seen, self.table, everywhere)
            stands = [0.0] * len(levels[0])
            for level, weight in zip(levels, likelihood, strict=True):
                stands = [sum_ + p * weight for sum_, p in zip(stands, level, strict=True)]
            inverse = [1.0 / max(LEAST, value) for value in stands]
            found = self._without[family] = self.table.times(inverse)
        return found


def _gain(table: LeadingTable, seen: Sequence[Observable]) -> float:
    mask = table.mask(frozenset().union(*map(faults_behind, seen)))
    cells = table.over(mask)
    findings = [level_tables(each, table, mask) for each in seen]
    return mutual_information(cells, findings, joint_outcomes(cells, findings))


def _drop(table: LeadingTable, seen: Sequence[Observable]) -> float:
    mask = table.mask(frozenset().union(*map(faults_behind, seen)))
    cells = table.over(mask)
    findings = [level_tables(each, table, mask) for each in seen]
    likelihoods = joint_outcomes([1.0] * len(cells), findings)
    with_each = [table.with_fault(i, mask) for i in range(len(table.faults))]
    before = [math.fsum(present) for present in with_each]
    return expected_drop(before, with_each, cells, likelihoods)
