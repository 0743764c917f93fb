"""Comparison and its uncertainty, from outside: drawn at random, and by statsmodels."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from sootsayer.advice.like_for_like import Taken, Tolerances, Warmth
from sootsayer.advice.like_for_like_change import (
    chance_of_noise,
    changed,
    holm,
    with_what_is_real,
)
from sootsayer.physics.measured import Measured

np = pytest.importorskip("numpy")
sm = pytest.importorskip("statsmodels.api")
multitest = pytest.importorskip("statsmodels.stats.multitest")

MAY_BE = Tolerances()
DRAWS = 4000


def reading(dp: float, air: float | None, heat: float, zero: float | None) -> Taken:
    return Taken(
        "dp@2500", "2500", "r", 1, Measured(dp, 1.04), "dp-sensor", Warmth.HOT,
        zero=None if zero is None else Measured(zero, 1.04),
        air=None if air is None else Measured(air, 4.01),
        exhaust=Measured(heat, 10.0),
        barometer=Measured(998.0, 5.0),
    )  # fmt: skip


PAIRS = [
    (reading(70, 150, 205, 1), reading(24, 146, 198, 2)),
    (reading(112, 156, 214, 18), reading(60, 190, 290, 3)),
    (reading(31, 150, 200, 0), reading(28, 120, 185, 0)),
    (reading(26, 48, 150, None), reading(11, 46, 140, None)),
]


def drawn(taken: Taken, rng: Any) -> dict[str, Any]:
    """Every number of one reading, drawn within its error."""

    def draw(of: Measured | None) -> Any:
        return None if of is None else rng.normal(of.value, of.sd, DRAWS)

    return {
        "dp": draw(taken.shown),
        "zero": draw(taken.zero),
        "air": draw(taken.air),
        "heat": draw(taken.exhaust),
        "barometer": draw(taken.barometer),
    }


def viscosity(kelvin: Any) -> Any:
    """Sutherland 1893, written anew."""
    return 1.716e-5 * (kelvin / 273.15) ** 1.5 * 383.55 / (kelvin + 110.4)


def carried_over(
    one: dict[str, Any], other: dict[str, Any], fuel: Any, scale: Any, square: Any
) -> Any:
    """mbar of one reading in the conditions of the other: the law dP = A mu Q + B rho Q^2 with the
    ideal gas, written anew and solved by repetition, not by the program's closed form."""
    t1, t2 = one["heat"] + 273.15, other["heat"] + 273.15

    def outlet(of: dict[str, Any], t: Any) -> Any:
        return of["barometer"] * 100 + scale * 1500 * (of["air"] / 150) ** 2 * t / 473.15

    def flow_density(of: dict[str, Any], t: Any, drop: Any) -> tuple[Any, Any]:
        density = (outlet(of, t) + drop / 2) / (287.05 * t)
        return of["air"] * (1 + fuel) / 3600 / density, density

    drop = (one["dp"] - one["zero"]) * 100
    q1, rho1 = flow_density(one, t1, drop)
    a = (1 - square) * drop / (viscosity(t1) * q1)
    b = square * drop / (rho1 * q1**2)
    found = drop
    for _ in range(60):
        q2, rho2 = flow_density(other, t2, found)
        found = a * viscosity(t2) * q2 + b * rho2 * q2**2
    return found / 100


@pytest.mark.parametrize("pair", range(len(PAIRS)))
def test_uncertainty_as_drawn_at_random(pair: int) -> None:
    """Difference and ratio, and their standard deviations, as 4,000 draws give them (7 per cent:
    the error of a standard deviation from so many draws is 1.1, the rest is first order)."""
    before, after = PAIRS[pair]
    found = changed(before, after, MAY_BE)
    random = np.random.default_rng(20_320_119 + pair)
    one, other = drawn(before, random), drawn(after, random)
    if one["zero"] is None:
        one["zero"] = other["zero"] = random.normal(0.0, MAY_BE.zero, DRAWS)
    fuel = random.uniform(0.01, 0.06, DRAWS)
    scale = random.normal(1.0, 0.5, DRAWS)
    square = random.uniform(0.0, 0.2, DRAWS)
    brought = carried_over(one, other, fuel, scale, square)
    now = other["dp"] - other["zero"]
    apart = now - brought
    assert found.difference.value == pytest.approx(apart.mean(), abs=0.1 * apart.std() + 0.15)
    assert found.difference.sd == pytest.approx(apart.std(), rel=0.07)
    assert found.brought.sd == pytest.approx(brought.std(), rel=0.07)
    assert found.ratio is not None
    share = now / brought
    assert found.ratio.value == pytest.approx(np.median(share), rel=0.05)
    middle = np.quantile(share, [0.1587, 0.8413])
    assert found.ratio.sd == pytest.approx((middle[1] - middle[0]) / 2, rel=0.12)


def test_a_plain_difference_as_weighted_least_squares_has_it() -> None:
    """Raw readings with zeros: the effect of the round, its error and its chance, are those of
    statsmodels' WLS with known variances on four readings and three unknowns."""
    before = replace(PAIRS[0][0], air=None, exhaust=None)
    after = replace(PAIRS[0][1], air=None, exhaust=None)
    found = changed(before, after, Tolerances(scatter=0.0))
    assert before.zero is not None
    assert after.zero is not None
    seen = [before.zero, before.shown, after.zero, after.shown]
    # unknowns: zero of the one round, zero of the other, drop before, change of the drop
    design = np.array([[1, 0, 0, 0], [1, 0, 1, 0], [0, 1, 0, 0], [0, 1, 1, 1]], dtype=float)
    fitted = sm.WLS([m.value for m in seen], design, weights=[1 / m.sd**2 for m in seen]).fit()
    error = float(np.sqrt(fitted.normalized_cov_params[3, 3]))
    assert found.difference.value == pytest.approx(fitted.params[3])
    assert found.difference.sd == pytest.approx(error)


def test_chance_is_the_normal_one() -> None:
    """The chance of noise is the two-sided one of statsmodels' z-test."""
    ztest = pytest.importorskip("statsmodels.stats.weightstats")
    for value, sd in ((3.0, 1.5), (-4.9, 2.1), (0.2, 1.0)):
        _, chance = ztest._zstat_generic(value, 0.0, sd, "two-sided")
        assert chance_of_noise(Measured(value, sd)) == pytest.approx(float(chance))


def test_holm_is_holm() -> None:
    """Which of several changes count is what statsmodels' Holm correction says, 60 times."""
    random = np.random.default_rng(7)
    for _ in range(60):
        chances = list(random.uniform(0, 0.12, random.integers(1, 7)))
        theirs = multitest.multipletests(chances, alpha=0.05, method="holm")[0]
        assert list(holm(chances, 0.05)) == [bool(yes) for yes in theirs]


def test_noise_is_called_real_at_most_once_in_twenty() -> None:
    """Of 500 unchanged filters read at three points, at most one in twenty (and four standard
    errors) shows any change; of ones cleaned to a half, nearly all do."""
    random = np.random.default_rng(11)

    def pair(share: float) -> tuple[Taken, Taken]:
        """What two rounds show of one filter whose drop falls to `share`."""

        def shown(drop: float) -> Taken:
            read = reading(drop, 150, 205, 0)
            zero = float(random.normal(0, 1.04))
            return replace(
                read, shown=Measured(float(random.normal(drop, 1.04)), 1.04),
                zero=Measured(zero, 1.04),
                air=Measured(float(random.normal(150, 4.01)), 4.01),
                exhaust=Measured(float(random.normal(205, 10)), 10.0),
            )  # fmt: skip

        return shown(40.0), shown(40.0 * share)

    def called_real(share: float, times: int) -> float:
        told = 0
        for _ in range(times):
            three = [changed(*pair(share), MAY_BE) for _ in range(3)]
            told += any(one.real for one in with_what_is_real(three))
        return told / times

    assert called_real(1.0, 500) < 0.05 + 4 * (0.05 * 0.95 / 500) ** 0.5
    assert called_real(0.5, 60) > 0.95
