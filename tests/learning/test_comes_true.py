"""Vehicles drawn from the shipped rulebook's own network: does confidence come true, and how much
hangs on the digits? 2,000 of them where slow tests are run, else the first 500.

Necessary, not sufficient: this tries the calculus and the numbers' freedom from one another, not
whether the numbers are those of real vehicles. `test_simulated_vehicles.py` comes nearer.
"""

from __future__ import annotations

from functools import cache
from random import Random

import pytest

from sootsayer.belief.network import Evidence, Kind, Network
from sootsayer.learning.draw import Drawn, draw
from sootsayer.learning.jitter import jittered
from sootsayer.learning.leading import Leading, calibration_error, lead, leading_of
from sootsayer.rulebook.network import whole_network
from tests.laws.making_cases import rulebook

DRAWS, FEWER = 2000, 500
SEEN = (0.15, 0.6)  # least and greatest share of the findings that somebody looked at
MOST_OFF, JITTER, STILL_RIGHT = 0.03, 0.3, 0.9
CHANCE = 0.03  # what so few as 500 may be off besides, by chance alone

EACH = pytest.mark.parametrize("count", [FEWER, pytest.param(DRAWS, marks=pytest.mark.slow)])


@cache
def network() -> Network:
    return whole_network(rulebook().model)


@cache
def vehicles(count: int) -> tuple[tuple[Drawn, Evidence], ...]:
    """What is looked at never depends on what it shows: that would be evidence itself."""
    random, made = Random(2000), []
    levels = {one.id: len(one.otherwise) for one in network().observables}
    for _ in range(count):
        drawn = draw(network(), random)
        looked_at = random.sample(sorted(levels), int(random.uniform(*SEEN) * len(levels)))
        seen = {n: tuple(float(k == drawn.levels[n]) for k in range(levels[n])) for n in looked_at}
        made.append((drawn, seen))
    return tuple(made)


def led_by(net: Network, count: int) -> list[tuple[Leading, ...]]:
    return [leading_of(net, seen, drawn.faults) for drawn, seen in vehicles(count)]


@cache
def as_written(count: int) -> list[tuple[Leading, ...]]:
    return led_by(network(), count)


@EACH
def test_confidence_of_leading_faults_comes_true(count: int) -> None:
    """Over ten equal parts of confidence the expected calibration error is at most 0.03."""
    leads = [one for each in as_written(count) for one in each]
    assert len(leads) == count * len(Kind)
    assert len({int(one.confidence * 10) for one in leads}) > 6
    assert calibration_error(leads) <= MOST_OFF + (CHANCE if count < DRAWS else 0.0)


@EACH
def test_no_digit_decides(count: int) -> None:
    """With every number moved by up to 30 per cent, the leading fault is still right in at least
    nine tenths of those right before, in each kind."""
    moved = led_by(jittered(network(), JITTER, Random(30)), count)
    for kind in Kind:
        both = [
            (before, after)
            for one, other in zip(as_written(count), moved, strict=True)
            for before, after in zip(one, other, strict=True)
            if before.kind is kind and before.right
        ]
        assert len(both) > count / 2
        assert sum(after.right for _, after in both) >= STILL_RIGHT * len(both)
        assert any(before.confidence != after.confidence for before, after in both)


@EACH
def test_overconfidence_is_found_out(count: int) -> None:
    """The measure can fail: one who says 0.95 and is right as often as before is found out."""
    bold = [
        Leading(one.kind, one.fault, 0.5 + one.confidence / 2, one.right)
        for each in as_written(count)
        for one in each
    ]
    assert calibration_error(bold) > MOST_OFF + (CHANCE if count < DRAWS else 0.0)


def test_leading_is_the_more_probable_of_none_and_first() -> None:
    """`none` leads unless a fault is more probable; equals are told by id."""
    assert lead(Kind.CAUSE, {"b": 0.4, "a": 0.4}, 0.3, {"a"}) == Leading(Kind.CAUSE, "a", 0.4, True)
    assert lead(Kind.CAUSE, {"a": 0.4}, 0.4, {"a"}) == Leading(Kind.CAUSE, "none", 0.4, False)
    assert lead(Kind.CAUSE, {"a": 0.2}, 0.7, set()).right
