"""Whether asking on is worth it: what a check could still change about what leads.

The choice among checks goes by uncertainty; the end of asking goes by this. On a plateau no
single answer changes what leads although several together would, so both are looked at.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from operator import mul

from sootsayer.belief.network import Kind
from sootsayer.interview.bundles import Bundle
from sootsayer.interview.choosing import Scored
from sootsayer.interview.information import NOTHING
from sootsayer.interview.scoring import Prospect, Scorer

# A minute of checking is worth its minute from here on.
LEAST_CERTAINTY = 0.001  # of what leads, added up over the kinds
LEAST_BITS = 0.004  # of what is told, as long as some kind is not clear


@dataclass(frozen=True, slots=True)
class Worth:
    """What is still to be gained.

    `check`: the most useful one, "" where none tells anything; `certainty`: by how much it
    raises the probability of what leads, on average, added up over the kinds; `bits`: what it
    tells; `minutes`: of all checks that are worth theirs, each taken by itself; `go_on`:
    whether there is such a check.
    """

    check: str
    certainty: float
    bits: float
    minutes: float
    go_on: bool


def worth(scorer: Scorer, order: Sequence[Scored]) -> Worth:
    """What the checks, the most useful first, could still gain."""
    telling = [each for each in order if each.gain_bits > 0.0]
    if not telling:
        return Worth("", 0.0, 0.0, 0.0, go_on=False)
    going = [each for each in telling if _is_worth(scorer, each)]
    best = going[0] if going else telling[0]
    return Worth(
        check=best.bundle.first,
        certainty=certainty_gain(scorer, best),
        bits=best.gain_bits,
        minutes=math.fsum(each.bundle.minutes for each in going),
        go_on=bool(going),
    )


def _is_worth(scorer: Scorer, each: Scored) -> bool:
    minutes = each.bundle.minutes
    if not scorer.all_clear and each.gain_bits >= LEAST_BITS * minutes:
        return True
    return certainty_gain(scorer, each) >= LEAST_CERTAINTY * minutes


def certainty_gain(scorer: Scorer, each: Scored) -> float:
    """The expected rise of the probability of what leads, added up over the kinds.

    "The leading fault" of a kind is the more probable of `none` and its first fault.
    """
    now = _leads(scorer)
    return math.fsum(
        max(0.0, math.fsum(leads[1] for leads in after) - now[kind][1])
        for prospect in scorer.prospects(each.bundle)
        for kind, after in _after(scorer, prospect).items()
    )


def kinds_that_may_change(scorer: Scorer, bundle: Bundle) -> frozenset[Kind]:
    """The kinds of which something else could lead after what the bundle tells."""
    now = _leads(scorer)
    return frozenset(
        kind
        for prospect in scorer.prospects(bundle)
        for kind, after in _after(scorer, prospect).items()
        if any(leads[0] != now[kind][0] and leads[1] > NOTHING for leads in after)
    )


# Which of a kind's leaders leads (0 is `none`), and its weight.
Leads = tuple[int, float]


def _leads(scorer: Scorer) -> dict[Kind, Leads]:
    """What leads of each kind now."""
    return {kind: _first([w for (w,) in scorer.leaders(kind, scorer.table, 0)]) for kind in Kind}


def _after(scorer: Scorer, prospect: Prospect) -> dict[Kind, list[Leads]]:
    """For each kind what leads after each outcome, with the probability of both."""
    likelihoods = prospect.likelihoods
    found = {}
    for kind in Kind:
        leaders = scorer.leaders(kind, prospect.table, prospect.mask)
        found[kind] = [
            _first([math.fsum(map(mul, weights, likelihood)) for weights in leaders])
            for likelihood in likelihoods
        ]
    return found


def _first(weights: Sequence[float]) -> Leads:
    """The greatest; of those that rounding cannot tell apart the first."""
    most = max(weights)
    return next((i, w) for i, w in enumerate(weights) if w >= most - NOTHING)
