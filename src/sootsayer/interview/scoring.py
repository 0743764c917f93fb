"""What bundles of checks are worth, against the table of the leading faults."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from sootsayer.belief.network import Kind, Observable
from sootsayer.belief.tables import Table
from sootsayer.interview.bundles import Bundle, Yield
from sootsayer.interview.information import expected_drop, mutual_information
from sootsayer.interview.leading_table import LeadingTable
from sootsayer.interview.outcomes import faults_behind, joint_outcomes, level_tables

MOST_OUTCOMES = 48  # joint outcomes of one group of findings that are told apart
MOST_WEIGHED = 1 << 12  # outcomes times cells
LEAST = 1e-9  # a likelihood below it is not divided out any further
CLEAR = 0.9  # a kind of which something leads by as much is clear
CLEAR_COUNTS = 0.1  # what a fault of such a kind counts when the best checks are put in order

Entered = tuple[Observable, tuple[float, ...]]
Group = Sequence[Yield]
Key = tuple[tuple[str, str], ...]


class Prospect(NamedTuple):
    """What may be said: against which table, over the cells of which faults (a bitmask), and for
    each finding a table a level with the level's probability in each cell."""

    table: LeadingTable
    mask: int
    findings: list[list[Table]]

    @property
    def likelihoods(self) -> list[Table]:
        """Each joint outcome's probability in each cell."""
        return joint_outcomes([1.0] * (1 << self.mask.bit_count()), self.findings)


class Scorer:
    """Scores bundles against one table; what they share is worked out once.

    What a bundle yields is weighed in groups of findings that share faults, all outcomes of a
    group together, and the groups are added up, which is exact where their faults have nothing
    to do with each other. Of a group with more outcomes than can be told apart, the findings
    that tell most by themselves count. `entered`: how each family that spoke already sees, and
    the likelihood of each of its levels. `kinds`: the kind of every fault.
    """

    def __init__(
        self, table: LeadingTable, entered: Mapping[str, Entered], kinds: Mapping[str, Kind]
    ) -> None:
        self.table = table
        self.entered = entered
        self.kinds = kinds
        self._gains: dict[Key, float] = {}
        self._alone: dict[tuple[str, str], float] = {}
        self._masks: dict[tuple[str, str], int] = {}
        self._drops: dict[Key, float] = {}
        self._told: dict[Key, Prospect] = {}
        self._without: dict[str, LeadingTable] = {}
        clear = {kind: _is_clear(self.leaders(kind, table, 0)) for kind in Kind}
        self.all_clear = all(clear.values())
        self._weights = [CLEAR_COUNTS if clear[kinds[f]] else 1.0 for f in table.faults]

    def gain(self, bundle: Bundle) -> float:
        """Bits that all that the bundle yields tells of the leading faults, taken together.

        A better member of a family that spoke already is worth what it tells more than the
        one before, both reckoned without what that one said.
        """
        better = (
            max(0.0, _gain(self._prospect(table, each.seen)) - _gain(self._prospect(table, before)))
            for each, table, before in self._better(bundle)
        )
        gains = (
            self._gain_alone(group[0]) if len(group) == 1 else self._gain_of(group)
            for group in self._groups(bundle)
        )
        return math.fsum(gains) + math.fsum(better)

    def drop(self, bundle: Bundle) -> float:
        """The expected fall of each leading fault's own entropy, added up, in bits; faults of a
        kind that is clear count a tenth."""
        better = (
            max(
                0.0,
                self._drop(self._prospect(table, each.seen))
                - self._drop(self._prospect(table, before)),
            )
            for each, table, before in self._better(bundle)
        )
        return math.fsum(map(self._drop_of, self._groups(bundle))) + math.fsum(better)

    def prospects(self, bundle: Bundle) -> list[Prospect]:
        """What the bundle's voices may say, group by group; each better voice by itself, against
        the table as it is without the worse one."""
        new = [self._prospect_of(group) for group in self._groups(bundle)]
        return new + [self._prospect(table, each.seen) for each, table, _ in self._better(bundle)]

    def leaders(self, kind: Kind, table: LeadingTable, mask: int) -> list[Table]:
        """The weights over the cells of no fault of the kind, and of each of its faults."""
        mine = [i for i, fault in enumerate(table.faults) if self.kinds[fault] is kind]
        others = (p for fault, p in table.outside.items() if self.kinds[fault] is kind)
        spared = math.prod(1.0 - p for p in others)
        nobody = table.without_all(sum(1 << i for i in mine), mask)
        return [[w * spared for w in nobody], *(table.with_fault(i, mask) for i in mine)]

    def _gain_of(self, group: Group) -> float:
        key = _key(group)
        if key not in self._gains:
            self._gains[key] = _gain(self._prospect_of(group))
        return self._gains[key]

    def _gain_alone(self, each: Yield) -> float:
        """As `_gain_of` for one voice, which is asked again and again."""
        key = each.family, each.finding
        found = self._alone.get(key)
        if found is None:
            found = self._alone[key] = self._gain_of([each])
        return found

    def _drop_of(self, group: Group) -> float:
        key = _key(group)
        if key not in self._drops:
            self._drops[key] = self._drop(self._prospect_of(group))
        return self._drops[key]

    def _prospect_of(self, group: Group) -> Prospect:
        key = _key(group)
        if key not in self._told:
            self._told[key] = self._prospect(self.table, *(each.seen for each in group))
        return self._told[key]

    def _prospect(self, table: LeadingTable, *seen: Observable) -> Prospect:
        mask = table.mask(frozenset().union(*map(faults_behind, seen)))
        findings = [level_tables(each, table, mask) for each in seen]
        return Prospect(table, mask, findings)

    def _drop(self, prospect: Prospect) -> float:
        table, mask = prospect.table, prospect.mask
        with_each = [table.with_fault(i, mask) for i in range(len(table.faults))]
        return expected_drop(with_each, table.over(mask), prospect.likelihoods, self._weights)

    def _groups(self, bundle: Bundle) -> list[list[Yield]]:
        """The new voices that tell something, in groups that share faults."""
        new = [each for each in bundle.yields if each.instead_of is None]
        new = [each for each in new if self._gain_alone(each) > 0.0]
        if len(new) < 2:
            return [new] if new else []
        new.sort(key=lambda each: (-round(self._gain_alone(each), 12), each.family))
        groups: list[list[Yield]] = []
        for each in new:
            mask = self._mask([each])
            sharing = [group for group in groups if self._mask(group) & mask]
            merged = [one for group in sharing for one in group] + [each]
            if not sharing or self._can_be_told_apart(merged):
                groups = [group for group in groups if group not in sharing] + [merged]
            else:
                fits = [group for group in sharing if self._can_be_told_apart([*group, each])]
                if len(sharing) == 1 and fits:
                    fits[0].append(each)
        return groups

    def _mask(self, group: Sequence[Yield]) -> int:
        mask = 0
        for each in group:
            key = each.family, each.finding
            mine = self._masks.get(key)
            if mine is None:
                mine = self._masks[key] = self.table.mask(faults_behind(each.seen))
            mask |= mine
        return mask

    def _can_be_told_apart(self, group: Sequence[Yield]) -> bool:
        outcomes = math.prod(len(each.seen.otherwise) for each in group)
        cells = 1 << self._mask(group).bit_count()
        return outcomes <= MOST_OUTCOMES and outcomes * cells <= MOST_WEIGHED

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


def _key(group: Group) -> Key:
    return tuple((each.family, each.finding) for each in group)


def _is_clear(leaders: Sequence[Table]) -> bool:
    return max(math.fsum(weights) for weights in leaders) >= CLEAR


def _gain(prospect: Prospect) -> float:
    cells = prospect.table.over(prospect.mask)
    outcomes = joint_outcomes(cells, prospect.findings)
    return mutual_information(cells, prospect.findings, outcomes)
