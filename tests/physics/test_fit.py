"""The fit of several readings: which terms, and what the parts say."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.physics.fit import LINEAR, SQUARE, ZERO, Point, Term, carried, fit, parts
from sootsayer.physics.gas import air_viscosity
from sootsayer.physics.least_squares import left_over, solve

ALL: tuple[Term, ...] = (LINEAR, ZERO, SQUARE)
A = 0.2 * 360_000 / air_viscosity(473.15)
STATES = [(0.0, 300.0), (0.016, 423.0), (0.045, 470.0), (0.06, 485.0), (0.12, 650.0)]


def points(zero: float, a: float, b: float, states: list[tuple[float, float]]) -> list[Point]:
    """Noiseless readings of 100 Pa standard deviation."""
    bare = [Point(0.0, 100.0, flow, kelvin, 103_000) for flow, kelvin in states]
    return [
        Point(
            zero + a * p.column(LINEAR) + b * p.column(SQUARE),
            p.sd,
            p.flow,
            p.temperature,
            p.pressure,
        )
        for p in bare
    ]


@pytest.mark.parametrize(
    ("states", "terms"),
    [
        (STATES[:1], (ZERO,)),
        (STATES[1:2], (LINEAR,)),
        (STATES[1:2] * 4, (LINEAR,)),
        ([(0.045, 470.0), (0.046, 471.0)], (LINEAR,)),
        (STATES[:2], (LINEAR, ZERO)),
        (STATES[2:4], (LINEAR, ZERO)),
        (STATES[:3], (LINEAR, ZERO, SQUARE)),
        (STATES, (LINEAR, ZERO, SQUARE)),
    ],
)
def test_terms_that_points_can_carry(
    states: list[tuple[float, float]], terms: tuple[Term, ...]
) -> None:
    """One flow carries one term, two flows two, three the square part as well."""
    assert carried(points(0, A, 0, states)) == terms


@given(st.floats(-3000, 3000), st.floats(0, 5), st.floats(0, 1e6))
@settings(deadline=None)
def test_finds_what_was_put_in(zero: float, times: float, b: float) -> None:
    """Noiseless readings give back zero, linear and square part, and chi2 of nothing."""
    found = fit(points(zero, times * A, b, STATES))
    parameter = {t: found.parameter(t) for t in ALL}
    assert all(value is not None for value in parameter.values())
    got = {t: value.value for t, value in parameter.items() if value is not None}
    assert got[ZERO] == pytest.approx(zero, abs=1e-3)
    assert got[LINEAR] == pytest.approx(times * A, rel=1e-6, abs=1)
    assert got[SQUARE] == pytest.approx(b, rel=1e-6, abs=1)
    assert found.solution.chi2 == pytest.approx(0, abs=1e-6)
    assert found.solution.freedom == 2


def answers(zero: float, a: float, b: float) -> tuple[bool | None, bool | None, bool | None]:
    """offset, orifice, loaded at 150 m3/h; limits 10 mbar, 0.3, R = 0.3."""
    read = points(zero, a, b, STATES)
    said = parts(fit(read), read[2], 1000, 0.3, 1.5 * A)
    return said.offset, said.orifice, said.loaded


def test_parts_tell_faults_apart() -> None:
    """A false zero, an orifice and a load each answer for themselves and for no other."""
    assert answers(0, A, 0) == (False, False, False)
    assert answers(3000, A, 0) == (True, False, False)
    assert answers(0, 3 * A, 0) == (False, False, True)
    assert answers(0, A, 3e6) == (False, True, False)


def test_parts_that_cannot_be_told() -> None:
    """Without a third flow the square part is unknown; near a limit an answer is none."""
    read = points(0, A, 0, STATES[1:3])
    said = parts(fit(read), read[1], 1000, 0.3, 1.5 * A)
    assert said.square is None
    assert said.orifice is None
    assert said.linear is not None
    assert said.linear.value == pytest.approx(1)
    assert parts(fit(read), read[1], 1000, 0.3, A).loaded is None


def test_shares_add_up() -> None:
    """Linear and square share are one, with one uncertainty."""
    read = points(0, A, 3e5, STATES)
    found = fit(read)
    linear, square = found.share_at(LINEAR, read[3]), found.share_at(SQUARE, read[3])
    assert linear is not None
    assert square is not None
    assert linear.value + square.value == pytest.approx(1)
    assert linear.sd == pytest.approx(square.sd)
    assert found.share_at(ZERO, read[3]) is None
    assert found.part_at(SQUARE, read[3]).value == pytest.approx(3e5 * read[3].column(SQUARE))


def test_better_instrument_weighs_more() -> None:
    """Of two readings that disagree the one with the smaller error pulls harder."""
    flow = [1.0, 1.0]
    assert solve([flow], [10.0, 20.0], [1.0, 3.0]).values[0] == pytest.approx(11.0)


def test_left_over() -> None:
    """A mixture leaves nothing over, a right angle everything."""
    assert left_over([[1, 0], [0, 1]], [3, 4]) == pytest.approx(0, abs=1e-12)
    assert left_over([[1, 0, 0]], [0, 2, 0]) == pytest.approx(1)
    assert left_over([[1, 1]], [0, 0]) == 0


@pytest.mark.parametrize(
    ("call", "what"),
    [
        (lambda: fit([]), "at least one point"),
        (lambda: fit(points(0, A, 0, STATES[:2]), (LINEAR, ZERO, SQUARE)), "cannot carry"),
        (lambda: fit(points(0, A, 0, STATES[2:3] * 2), (LINEAR, ZERO)), "tell the terms"),
        (lambda: Point(1.0, 0.0, 0.1, 400, 1e5), "standard deviation"),
        (lambda: Point(math.nan, 1.0, 0.1, 400, 1e5), "pressure drop is nan"),
        (lambda: Point(1.0, 1.0, -0.1, 400, 1e5), "exhaust flow"),
        (lambda: Point(1.0, 1.0, 0.1, 4000, 1e5), "gas temperature"),
        (lambda: solve([[1.0]], [1.0], [0.0]), "above 0"),
        (lambda: solve([[1.0]], [math.inf], [1.0]), "finite"),
        (lambda: solve([[1.0, 2.0]], [1.0], [1.0]), "cannot carry"),
    ],
)
def test_refused(call: object, what: str) -> None:
    """What cannot be fitted is refused by name."""
    assert callable(call)
    with pytest.raises(ValueError, match=what):
        call()
