"""Rates counted case by case, in memory that grows with the rulebook and not with the archive."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from sootsayer.belief.network import Kind
from sootsayer.learning.archive.counted import Counted, once_each
from sootsayer.learning.archive.rows import Row
from sootsayer.learning.rates.found import Observed
from sootsayer.learning.reliability import Reliability
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.reads import family_of

OTHERWISE = ""


@dataclass(frozen=True, slots=True)
class Linked:
    """What has evidence, with the faults that its numbers are of: linked ones, and hiders."""

    seen_with: frozenset[str]
    hidden_by: frozenset[str]


@dataclass(slots=True)
class LinkTally:
    """Of one number of the rulebook. `levels`: how often each level was seen in the cases that
    the number is about; `left_out`: seen too, but another listed fault was there as well, so that
    the case says nothing of this number alone."""

    levels: Counter[str] = field(default_factory=Counter)
    left_out: int = 0


@dataclass(slots=True)
class RatesTally:
    """`links`: what has evidence, and a fault (OTHERWISE: none of those listed), to its counts.
    `all_with`: the same pairs to every case with the fault, whatever else it had; `known`: in how
    many cases a level was seen at all; `faults`: in how many each fault was confirmed."""

    linked: dict[str, Linked]
    archive: Counted = field(default_factory=Counted)
    cases: int = 0
    links: dict[tuple[str, str], LinkTally] = field(default_factory=dict)
    all_with: dict[tuple[str, str], Counter[str]] = field(default_factory=dict)
    known: dict[str, Counter[str]] = field(default_factory=dict)
    faults: Counter[str] = field(default_factory=Counter)
    leading: Reliability = field(default_factory=Reliability)
    by_kind: dict[Kind, Reliability] = field(
        default_factory=lambda: {k: Reliability() for k in Kind}
    )
    every: Reliability = field(default_factory=Reliability)

    def take(self, found: Observed) -> None:
        """One more case."""
        self.cases += 1
        present = frozenset(found.faults)
        self.faults.update(sorted(present))
        for name, p in found.confidences:
            self.every.add(p, name in present)
        for lead in found.leads:
            self.leading.add(lead.confidence, lead.right)
            self.by_kind[lead.kind].add(lead.confidence, lead.right)
        for name, level in found.levels:
            self._level(name, level, present)

    def _level(self, name: str, level: str, present: frozenset[str]) -> None:
        linked = self.linked.get(name)
        if linked is None:
            return
        self.known.setdefault(name, Counter())[level] += 1
        for fault in sorted(present):
            self.all_with.setdefault((name, fault), Counter())[level] += 1
        for fault, alone in _pairs(linked, present):
            link = self.links.setdefault((name, fault), LinkTally())
            if alone:
                link.levels[level] += 1
            else:
                link.left_out += 1


def _pairs(linked: Linked, present: frozenset[str]) -> Iterator[tuple[str, bool]]:
    """The faults whose numbers a case may speak of, and whether it speaks of that number alone.

    With a hider there, its spread replaces all others: only a lone hider's number is seen.
    """
    hiders, seen = sorted(present & linked.hidden_by), sorted(present & linked.seen_with)
    if hiders:
        yield from ((fault, len(hiders) == 1) for fault in hiders)
        yield from ((fault, False) for fault in seen)
    elif seen:
        yield from ((fault, len(seen) == 1) for fault in seen)
    else:
        yield OTHERWISE, True


def linked_in(model: Model) -> dict[str, Linked]:
    """Everything that has evidence in the rulebook."""
    found = {}
    for name, block in model.evidence.items():
        family = family_of(model, name)
        hiders = {fault.id for fault in model.faults.values() if family in fault.hides}
        found[name] = Linked(frozenset(block.seen_with), frozenset(hiders))
    return found


def tallied(model: Model, rows: Iterable[Row[Observed]]) -> RatesTally:
    """All of them."""
    tally = RatesTally(linked_in(model))
    for _, found in once_each(rows, tally.archive):
        tally.take(found)
    return tally
