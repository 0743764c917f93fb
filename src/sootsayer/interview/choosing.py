"""The order in which open checks are proposed: the most useful per minute first.

First all are scored by the information that they yield about the leading faults, taken
together; then the best six are put in order by how far they bring down the uncertainty of
each fault by itself, which is what a verdict shows.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sootsayer.interview.bundles import Bundle
from sootsayer.interview.scoring import Scorer

DECIDED_AMONG = 6

# A check of a later stage comes first only where it is worth so many times as much a minute.
FAR_MORE = 1.5


@dataclass(frozen=True, slots=True)
class Scored:
    """A bundle with what it is worth: `gain_bits`, mutual information with the leading faults;
    `drop_bits`, the expected fall of the faults' own entropies, None where not worked out."""

    bundle: Bundle
    gain_bits: float
    drop_bits: float | None = None


def ranked(scorer: Scorer, offered: Sequence[Bundle]) -> tuple[Scored, ...]:
    """The bundles, one for each first check, the most useful first; ties by the checks' ids.

    Those that tell nothing come last, by minutes.
    """
    best: dict[str, Scored] = {}
    for bundle in offered:
        scored = Scored(bundle, scorer.gain(bundle))
        before = best.get(bundle.first)
        if before is None or _order(scored) < _order(before):
            best[bundle.first] = scored
    by_gain = sorted(best.values(), key=_order)
    leading = [each for each in by_gain[:DECIDED_AMONG] if each.gain_bits > 0.0]
    decided = [Scored(s.bundle, s.gain_bits, scorer.drop(s.bundle)) for s in leading]
    decided.sort(key=lambda s: (-round((s.drop_bits or 0.0) / _minutes(s.bundle), 12), _order(s)))
    return (*decided, *by_gain[len(leading) :])


def _order(scored: Scored) -> tuple[float, float, tuple[str, ...]]:
    return (
        -round(scored.gain_bits / _minutes(scored.bundle), 12),
        scored.bundle.minutes,
        scored.bundle.checks,
    )


def _minutes(bundle: Bundle) -> float:
    return bundle.minutes * (FAR_MORE if bundle.ahead else 1.0)
