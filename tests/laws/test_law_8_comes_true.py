"""Law 8. Confidence comes true: drawn from the model, 70 % is right seven times in ten.

Vehicles are drawn from the shipped network, some of what is seen is told, and every posterior
is held against whether the fault is there. Given what was told, a fault present counts 1 with
its posterior as probability, if that is right; so in each tenth of confidence the faults
present, less the sum of their posteriors, is a sum over independent vehicles of terms with mean
zero. It stays within four of its standard deviations but about once in 16,000; there are some
dozens of tenths, and the vehicles are always the same, so a failure is no accident. The standard
deviation is the larger of the two that can be had, from the vehicles and from the posteriors: a
tenth near certainty in which by chance nothing failed has next to none of its own.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import cache
from random import Random

import pytest

from sootsayer.belief.inference import posteriors
from sootsayer.belief.network import Kind, Network
from sootsayer.learning.draw import Drawn, draw
from sootsayer.rulebook.network import whole_network
from tests.laws.making_cases import rulebook

DRAWS = 600
TENTHS = 10
FAR = 4.0  # standard deviations
ALL_WITHIN, LEADING_WITHIN = 0.01, 0.04  # expected calibration error


@dataclass(slots=True)
class Tenth:
    """Of one tenth of confidence: how many, and by vehicle the present less the expected."""

    count: int = 0
    surplus: list[float] = field(default_factory=list)
    variance: float = 0.0  # of the faults present, were they independent and the posteriors right

    @property
    def off(self) -> float:
        return math.fsum(self.surplus)

    @property
    def deviations(self) -> float:
        """How many standard deviations it is off."""
        spread = math.sqrt(max(math.fsum(x * x for x in self.surplus), self.variance))
        return abs(self.off) / spread if spread else 0.0


@dataclass(frozen=True, slots=True)
class Told:
    """A vehicle, and what somebody who does not see its faults has been told of it."""

    drawn: Drawn
    evidence: dict[str, tuple[float, ...]]


@cache
def network() -> Network:
    return whole_network(rulebook().model)


@cache
def vehicles() -> tuple[Told, ...]:
    """Which readings are told does not look at what they show: that would be evidence itself."""
    random, told = Random(8), []
    levels = {one.id: len(one.otherwise) for one in network().observables}
    for _ in range(DRAWS):
        drawn = draw(network(), random)
        some = random.sample(sorted(levels), random.randint(3, len(levels) // 2))
        told.append(Told(drawn, {n: _hard(drawn.levels[n], levels[n]) for n in some}))
    return tuple(told)


def _hard(level: int, levels: int) -> tuple[float, ...]:
    return tuple(float(k == level) for k in range(levels))


@cache
def believed(how: Callable[[Network], Network]) -> tuple[dict[str, float], ...]:
    """The posteriors of every vehicle, by the network as `how` makes it."""
    return tuple(posteriors(how(network()), each.evidence) for each in vehicles())


def as_it_is(whole: Network) -> Network:
    return whole


def priors_halved(whole: Network) -> Network:
    return replace(whole, faults=tuple(replace(f, prior=f.prior / 2) for f in whole.faults))


def all_faults(found: dict[str, float]) -> list[str]:
    return list(found)


def leading_faults(found: dict[str, float]) -> list[str]:
    """The first fault of each kind."""
    kinds = {kind: [f.id for f in network().faults if f.kind is kind] for kind in Kind}
    return [max(sorted(names), key=lambda name: found[name]) for names in kinds.values()]


def tenths(
    how: Callable[[Network], Network], which: Callable[[dict[str, float]], list[str]]
) -> list[Tenth]:
    """Ten equal tenths of confidence, with what came of them."""
    made = [Tenth() for _ in range(TENTHS)]
    for each, found in zip(vehicles(), believed(how), strict=True):
        surplus: dict[int, float] = {}
        for name in which(found):
            i = min(int(found[name] * TENTHS), TENTHS - 1)
            made[i].count += 1
            made[i].variance += found[name] * (1 - found[name])
            surplus[i] = surplus.get(i, 0.0) + (name in each.drawn.faults) - found[name]
        for i, x in surplus.items():
            made[i].surplus.append(x)
    return made


def calibration_error(made: list[Tenth]) -> float:
    """Mean distance between confidence and how often it came true, by tenths."""
    return math.fsum(abs(each.off) for each in made) / sum(each.count for each in made)


@pytest.mark.parametrize(
    ("which", "within"), [(all_faults, ALL_WITHIN), (leading_faults, LEADING_WITHIN)]
)
def test_confidence_comes_true(
    which: Callable[[dict[str, float]], list[str]], within: float
) -> None:
    """In 600 drawn vehicles each tenth of confidence comes true as often as it says."""
    made = tenths(as_it_is, which)
    assert sum(each.count for each in made) >= DRAWS * len(Kind)
    assert sum(each.count >= 20 for each in made) >= 8
    assert calibration_error(made) <= within
    assert max(each.deviations for each in made if each.count >= 20) <= FAR


@pytest.mark.parametrize(
    ("which", "within"), [(all_faults, ALL_WITHIN), (leading_faults, LEADING_WITHIN)]
)
def test_wrong_confidence_is_found_out(
    which: Callable[[dict[str, float]], list[str]], within: float
) -> None:
    """With all priors halved the same vehicles convict the model: the law can fail."""
    made = tenths(priors_halved, which)
    assert max(each.deviations for each in made if each.count >= 20) > FAR
    assert calibration_error(made) > within
