"""2,000 vehicles drawn from the shipped rulebook's own network: does confidence come true, and how
much hangs on the digits?

Necessary, not sufficient: this tries the calculus and the numbers' freedom from one another, not
whether the numbers are those of real vehicles. `test_simulated_vehicles.py` comes nearer.
"""

from __future__ import annotations

from functools import cache
from random import Random

from sootsayer.belief.network import Evidence, Kind, Network
from sootsayer.learning.draw import Drawn, draw
from sootsayer.learning.jitter import jittered
from sootsayer.learning.leading import Leading, calibration_error, lead, leading_of
from sootsayer.rulebook.network import whole_network
from tests.laws.making_cases import rulebook

DRAWS = 2000
SEEN = (0.15, 0.6)  # least and greatest share of the findings that somebody looked at
MOST_OFF, JITTER, STILL_RIGHT = 0.03, 0.3, 0.9


@cache
def network() -> Network:
    return whole_network(rulebook().model)


@cache
def vehicles() -> tuple[tuple[Drawn, Evidence], ...]:
    """What is looked at never depends on what it shows: that would be evidence itself."""
    random, made = Random(2000), []
    levels = {one.id: len(one.otherwise) for one in network().observables}
    for _ in range(DRAWS):
        drawn = draw(network(), random)
        looked_at = random.sample(sorted(levels), int(random.uniform(*SEEN) * len(levels)))
        seen = {n: tuple(float(k == drawn.levels[n]) for k in range(levels[n])) for n in looked_at}
        made.append((drawn, seen))
    return tuple(made)


def led_by(net: Network) -> list[tuple[Leading, ...]]:
    return [leading_of(net, seen, drawn.faults) for drawn, seen in vehicles()]


@cache
def as_written() -> list[tuple[Leading, ...]]:
    return led_by(network())


def test_confidence_of_leading_faults_comes_true() -> None:
    """Over ten equal parts of confidence the expected calibration error is at most 0.03."""
    leads = [one for each in as_written() for one in each]
    assert len(leads) == DRAWS * len(Kind)
    assert len({int(one.confidence * 10) for one in leads}) > 6
    assert calibration_error(leads) <= MOST_OFF


def test_no_digit_decides() -> None:
    """With every number moved by up to 30 per cent, the leading fault is still right in at least
    nine tenths of those right before, in each kind."""
    moved = led_by(jittered(network(), JITTER, Random(30)))
    for kind in Kind:
        both = [
            (before, after)
            for one, other in zip(as_written(), moved, strict=True)
            for before, after in zip(one, other, strict=True)
            if before.kind is kind and before.right
        ]
        assert len(both) > DRAWS / 2
        assert sum(after.right for _, after in both) >= STILL_RIGHT * len(both)
        assert any(before.confidence != after.confidence for before, after in both)


def test_overconfidence_is_found_out() -> None:
    """The measure can fail: one who says 0.95 and is right as often as before is found out."""
    bold = [
        Leading(one.kind, one.fault, 0.5 + one.confidence / 2, one.right)
        for each in as_written()
        for one in each
    ]
    assert calibration_error(bold) > MOST_OFF


def test_leading_is_the_more_probable_of_none_and_first() -> None:
    """`none` leads unless a fault is more probable; equals are told by id."""
    assert lead(Kind.CAUSE, {"b": 0.4, "a": 0.4}, 0.3, {"a"}) == Leading(Kind.CAUSE, "a", 0.4, True)
    assert lead(Kind.CAUSE, {"a": 0.4}, 0.4, {"a"}) == Leading(Kind.CAUSE, "none", 0.4, False)
    assert lead(Kind.CAUSE, {"a": 0.2}, 0.7, set()).right
