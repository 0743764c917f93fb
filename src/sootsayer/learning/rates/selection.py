"""Where selection bites: a check that is done where a fault is suspected tells too well of it."""

from __future__ import annotations

from dataclasses import dataclass

from sootsayer.learning.intervals import wilson
from sootsayer.learning.rates.tally import RatesTally

FEWEST = 5  # cases with the fault, and as many without


@dataclass(frozen=True, slots=True)
class Selected:
    """A finding that is known much more often, or less, with the fault than without: known in
    `with_known` of `with_all` cases with it, and in `other_known` of `other_all` others."""

    of: str
    fault: str
    with_known: int
    with_all: int
    other_known: int
    other_all: int

    @property
    def apart(self) -> float:
        """How far the two shares are apart, 0 to 1."""
        return abs(self.with_known / self.with_all - self.other_known / self.other_all)


def selected(tally: RatesTally) -> tuple[Selected, ...]:
    """Those whose two 95 % intervals (Wilson) do not meet, the furthest apart first."""
    found = []
    for name, linked in sorted(tally.linked.items()):
        known = sum(tally.known.get(name, {}).values())
        for fault in sorted(linked.seen_with | linked.hidden_by):
            with_all = tally.faults[fault]
            other_all = tally.cases - with_all
            if min(with_all, other_all) < FEWEST:
                continue
            with_known = sum(tally.all_with.get((name, fault), {}).values())
            each = Selected(name, fault, with_known, with_all, known - with_known, other_all)
            one = wilson(with_known, with_all)
            other = wilson(each.other_known, other_all)
            if one.low > other.high or other.low > one.high:
                found.append(each)
    return tuple(sorted(found, key=lambda each: (-each.apart, each.of, each.fault)))
