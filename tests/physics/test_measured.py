"""Uncertainty: first order by hand, and against seeded Monte Carlo."""

from __future__ import annotations

import math
import random
import statistics
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.physics.measured import Measured, interval, propagate, reading
from sootsayer.physics.quantities import QUANTITIES, named

NORMAL = (
    Measured(59, 2),
    Measured(150, 6),
    Measured(200, 8),
    Measured(1000, 5),
    Measured(0.02, 0.005),
    Measured(1.0, 0.2),
    Measured(0.05, 0.01),
)
CASES: dict[str, tuple[Measured, ...]] = {
    "barometer-at-altitude": (Measured(800, 50),),
    "boost-absolute": (Measured(900, 20), Measured(1000, 5)),
    "air-from-stroke": (Measured(450, 10), Measured(4), Measured(2500, 20)),
    "air-by-rule": (Measured(2.0), Measured(2500, 20), Measured(1010, 10)),
    "air-by-filling": (Measured(2.0), Measured(2500, 20), Measured(1010, 10)),
    "air-ratio-to-rule": (Measured(140, 5), Measured(2.0), Measured(2500, 20), Measured(1010, 10)),
    "exhaust-mass-flow": (Measured(150, 5), Measured(0.03, 0.005), Measured(0.2, 0.02)),
    "silencer-pressure": (Measured(150, 5), Measured(200, 10)),
    "exhaust-flow": NORMAL,
    "filter-resistance": NORMAL,
    "resistance-for-size": (Measured(0.3, 0.02), Measured(2.4, 0.1)),
    "resistance-rise": (Measured(0.3, 0.02), Measured(0.2, 0.01)),
    "pressure-at-reference": (*NORMAL, Measured(150), Measured(200), Measured(0.2, 0.03)),
    "implied-zero": (
        Measured(20, 1.5),
        Measured(55, 3),
        Measured(150, 8),
        Measured(59, 2),
        Measured(200, 8),
        Measured(200, 8),
    ),
    "square-share": (
        Measured(12, 0.4),
        Measured(55, 1),
        Measured(150, 4),
        Measured(75, 2),
        Measured(200, 4),
        Measured(200, 4),
    ),
    "implied-soot": (
        Measured(0.30, 0.02),
        Measured(2.8, 0.05),
        Measured(0.075, 0.008),
        Measured(200, 12),
        Measured(14, 0.4),
    ),
    "soot-per-litre": (Measured(22, 2), Measured(2.8, 0.1)),
    "ash-per-litre": (Measured(60, 5), Measured(2.8, 0.1)),
    "burn-off-bound": (Measured(6, 0.5), Measured(0.6, 0.03)),
    "soot-left-active": (Measured(20, 1), Measured(560, 8), Measured(10), Measured(0.5, 0.1)),
    "soot-left-passive": (
        Measured(20, 1),
        Measured(320, 8),
        Measured(0.03, 0.002),
        Measured(30),
        Measured(0.5, 0.1),
    ),
    "catalyst-rise": (Measured(520, 8), Measured(310, 8)),
    "pressure-besides-filter": (Measured(131, 4), Measured(25, 1)),
    "ash-by-distance": (Measured(120_000, 5000), Measured(0.6, 0.05)),
    "ash-by-oil": (
        Measured(120_000, 5000),
        Measured(0.2, 0.02),
        Measured(0.7, 0.05),
        Measured(0.5, 0.03),
    ),
    "light-absorption": (Measured(40, 2), Measured(0.43, 0.005)),
    "oil-dilution": (Measured(75, 1), Measured(66, 1), Measured(3.0, 0.2)),
}
OWN = {
    "barometer-at-altitude": 0.01,
    "air-by-rule": 0.075,
    "air-ratio-to-rule": 0.075,
    "silencer-pressure": 0.5,
    "implied-soot": 0.25,
    "soot-left-active": 0.15,
    "soot-left-passive": 0.1,
}


def drawn(function: Callable[[tuple[Measured, ...]], float], given_: tuple[Measured, ...]) -> float:
    """Standard deviation of the function over 1,000 seeded draws of its inputs."""
    chance = random.Random(20_310_314)
    return statistics.stdev(
        function(tuple(Measured(chance.gauss(m.value, m.sd)) for m in given_)) for _ in range(1000)
    )


def test_every_quantity_is_tried() -> None:
    """No quantity goes without a Monte Carlo."""
    assert set(CASES) == set(QUANTITIES)


@pytest.mark.parametrize("name", CASES)
def test_monte_carlo(name: str) -> None:
    """The uncertainty of each quantity is that of 1,000 draws, within what 1,000 draws know."""
    quantity, inputs = named(name), CASES[name]
    rest = tuple(at.assumed for at in quantity.inputs[len(inputs) :])
    inputs = (*inputs, *(at for at in rest if at is not None))
    found = quantity(*inputs)
    exact = quantity(*(Measured(m.value) for m in inputs))
    assert found.value == exact.value
    from_inputs = math.sqrt(found.sd**2 - exact.sd**2)
    assert from_inputs == pytest.approx(drawn(lambda m: quantity(*m).value, inputs), rel=0.08)
    if name in OWN:
        assert exact.sd == pytest.approx(OWN[name] * abs(found.value))
    elif name != "oil-dilution":
        assert exact.sd == 0.0


def test_linear_is_exact() -> None:
    """A sum of independent numbers: deviations in quadrature (GUM 5.1.2)."""
    found = propagate(lambda a, b: 2 * a - 3 * b, Measured(10, 0.3), Measured(1, 0.4))
    assert found.value == 17
    assert found.sd == pytest.approx(math.hypot(0.6, 1.2))


def test_exact_inputs_stay_exact() -> None:
    """Inputs without uncertainty give a result without one."""
    assert propagate(lambda a: a**3, Measured(2.0)) == Measured(8.0, 0.0)


def test_step_and_interval() -> None:
    """A coarse step counts as error; an interval is its width over sqrt(12) (GUM 4.3.7)."""
    assert reading(30, 2, 10).sd == pytest.approx(math.hypot(2, 10 / math.sqrt(12)))
    assert interval(2, 8) == Measured(5, 6 / math.sqrt(12))
    assert Measured(10, 2).band == (6, 14)


def test_at_the_edge_of_validity() -> None:
    """Where a formula refuses one side, the other side speaks; the value itself is never moved."""
    found = propagate(math.sqrt, Measured(0.01, 0.02))
    assert found.value == pytest.approx(0.1)
    assert found.sd == pytest.approx(math.sqrt(0.03) - 0.1)


def test_beyond_validity() -> None:
    """A value that the formula refuses is refused with the formula's own words."""
    with pytest.raises(ValueError, match=r"math domain error|nonnegative"):
        propagate(math.sqrt, Measured(-1.0, 0.5))
    only_here = Measured(2.0, 0.1)

    def narrow(x: float) -> float:
        if x != only_here.value:
            raise ValueError("elsewhere")
        return x

    with pytest.raises(ValueError, match="this point only"):
        propagate(narrow, only_here)


@pytest.mark.parametrize(("value", "sd"), [(math.nan, 0), (math.inf, 0), (1, -1), (1, math.nan)])
def test_no_measured_value(value: float, sd: float) -> None:
    """What is no number or has no uncertainty is no measured value."""
    with pytest.raises(ValueError, match="no measured value"):
        Measured(value, sd)


def test_bad_readings() -> None:
    """Negative errors, negative steps and empty intervals are refused."""
    with pytest.raises(ValueError, match="negative"):
        reading(1, -1)
    with pytest.raises(ValueError, match="negative"):
        reading(1, 0, -1)
    with pytest.raises(ValueError, match="empty"):
        interval(2, 1)


@given(st.floats(-100, 100), st.floats(0, 10), st.floats(0, 10))
@settings(deadline=None)
def test_more_doubt_in_more_doubt_out(value: float, sd: float, more: float) -> None:
    """A wider input never narrows the result of a monotone formula."""
    narrow = propagate(math.atan, Measured(value, sd))
    wide = propagate(math.atan, Measured(value, sd + more))
    assert wide.sd >= narrow.sd
