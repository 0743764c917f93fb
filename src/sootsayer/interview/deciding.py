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
from sootsayer.belief.tables import Table
from sootsayer.interview.choosing import Scored
from sootsayer.interview.scoring import Scorer

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
    worthy = {each.bundle.checks: certainty_gain(scorer, each) for each in telling}
    least = math.inf if scorer.all_clear else LEAST_BITS
    going = [each for each in telling if _is_worth(each, worthy[each.bundle.checks], least)]
    best = going[0] if going else telling[0]
    return Worth(
        check=best.bundle.first,
        certainty=worthy[best.bundle.checks],
        bits=best.gain_bits,
        minutes=math.fsum(each.bundle.minutes for each in going),
        go_on=bool(going),
    )


def _is_worth(each: Scored, certainty: float, least_bits: float) -> bool:
    minutes = each.bundle.minutes
    return certainty >= LEAST_CERTAINTY * minutes or each.gain_bits >= least_bits * minutes


def certainty_gain(scorer: Scorer, each: Scored) -> float:
    """The expected rise of the probability of what leads, added up over the kinds.

    "The leading fault" of a kind is the more probable of `none` and its first fault.
    """
    return math.fsum(
        _certainty_of_group(scorer, mask, likelihoods)
        for mask, likelihoods in scorer.likelihoods(each.bundle)
    )


def _certainty_of_group(scorer: Scorer, mask: int, likelihoods: Sequence[Table]) -> float:
    kinds = [scorer.leaders(kind, mask) for kind in Kind]
    now = math.fsum(max(math.fsum(weights) for weights in kind) for kind in kinds)
    after = math.fsum(
        max(sum(map(mul, weights, likelihood)) for weights in kind)
        for likelihood in likelihoods
        for kind in kinds
    )
    return max(0.0, after - now)
