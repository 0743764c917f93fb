"""Soot over time, heat, ash, opacity, oil and bytes: edges, refusals and properties."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.physics import ash, heat, obd, oil, opacity, soot
from sootsayer.physics.ranges import above, within


@given(st.floats(0, 0.1), st.floats(0, 1e-5), st.floats(1e-7, 0.1), st.floats(0, 1e5))
@settings(deadline=None)
def test_soot_goes_towards_balance(start: float, feed: float, rate: float, time: float) -> None:
    """Soot lies between where it began and the balance point, at any time."""
    left = soot.soot_left(start, feed, rate, time)
    ends = sorted((start, soot.balance_soot(feed, rate)))
    assert ends[0] - 1e-9 <= left <= ends[1] * (1 + 1e-9) + 1e-12


def test_soot_without_burning() -> None:
    """At rate 0 soot only adds up, and a very small rate does the same."""
    assert soot.soot_left(0.01, 1e-6, 0.0, 1000) == pytest.approx(0.011)
    assert soot.soot_left(0.01, 1e-6, 1e-12, 1000) == pytest.approx(0.011)


@given(st.floats(1, 900), st.floats(1, 900))
@settings(deadline=None)
def test_two_spells_are_one(first: float, second: float) -> None:
    """Two spells in one state leave what one spell of both lengths leaves."""
    rate = soot.active_rate(830.0)
    halfway = soot.soot_left(0.03, 5e-7, rate, first)
    both = soot.soot_left(halfway, 5e-7, rate, second)
    assert both == pytest.approx(soot.soot_left(0.03, 5e-7, rate, first + second))


@given(st.floats(0, 99.9), st.floats(0.1, 1))
@settings(deadline=None)
def test_opacity_and_back(n: float, length: float) -> None:
    """Opacity to absorption and back is the opacity."""
    k = opacity.absorption_of(n, length)
    if k <= 20:
        assert opacity.opacity_of(k, length) == pytest.approx(n, abs=1e-9)


@given(st.floats(20, 300), st.floats(0, 0.15))
@settings(deadline=None)
def test_dilution_and_back(new: float, share: float) -> None:
    """Oil thinned by the log-linear law is found to be thinned by as much."""
    used = math.exp((1 - share) * math.log(new) + share * math.log(3.0))
    assert oil.dilution_log_linear(new, used) == pytest.approx(share, abs=1e-9)
    assert oil.dilution_double_log(new, used) <= share + 1e-9


def test_thickened_oil() -> None:
    """Oil that has thickened gives less than no fuel: soot or oxidation hides it."""
    assert oil.dilution_log_linear(100, 120) < 0


def test_heat_of_part_burning() -> None:
    """Half to CO gives the mean of both heats; 10 mg/s burnt in 36 kg/h of gas heat it by 30 K."""
    half = (heat.heat_of_soot(1) + heat.heat_of_soot(0)) / 2
    assert heat.heat_of_soot(0.5) == pytest.approx(half)
    assert heat.steady_rise(1e-5, 0.01) == pytest.approx(29.8, abs=0.05)


def test_offset_binary_and_complement_differ() -> None:
    """The two readings of one word are 327.68 kPa apart: the wrong one is unmistakable."""
    for value in (0x0000, 0x00C8, 0x8000, 0xFF38):
        gap = obd.differential_pressure_offset_binary(value)
        gap -= obd.differential_pressure_twos_complement(value)
        assert abs(gap) == pytest.approx(327.68)


@pytest.mark.parametrize(
    ("call", "what"),
    [
        (lambda: soot.passive_rate(900, 1e-4), "passive oxidation is 900 K, outside 470 to 720 K"),
        (lambda: soot.passive_rate(600, 0.1), "NO2"),
        (lambda: soot.active_rate(500), "active burning"),
        (lambda: soot.soot_left(-1, 0, 0, 0), "soot at the start"),
        (lambda: soot.soot_left(0, 1, 0, 0), "soot feed"),
        (lambda: soot.soot_left(0, 0, -1, 0), "rate"),
        (lambda: soot.soot_left(0, 0, 0, -1), "time"),
        (lambda: soot.balance_soot(1e-6, 0), "rate is 0 1/s, not above 0"),
        (lambda: soot.per_litre(0.02, 0), "filter volume"),
        (lambda: heat.heat_of_soot(1.5), "share burnt"),
        (lambda: heat.adiabatic_rise(50), "soot load is 50 g/L, outside 0 to 30 g/L"),
        (lambda: heat.adiabatic_rise(5, 10), "heat capacity"),
        (lambda: heat.steady_rise(1e-5, 0), "mass flow"),
        (lambda: ash.ash_by_distance(-1, 1), "distance"),
        (lambda: ash.ash_by_oil(1000, 9, 0.008, 0.5), "oil use"),
        (lambda: ash.ash_by_oil(1000, 0.1, 0.8, 0.5), "sulphated ash"),
        (lambda: ash.ash_share(0, 0), "no deposit"),
        (lambda: opacity.absorption_of(100), "opacity"),
        (lambda: opacity.opacity_of(-1), "light absorption"),
        (lambda: oil.dilution_log_linear(3, 2), "viscosity of new oil"),
        (lambda: oil.dilution_log_linear(100, 2), "viscosity of used oil"),
        (lambda: oil.dilution_log_linear(6, 10_000), "share of fuel"),
        (lambda: obd.engine_speed(70_000), "no 16-bit word"),
        (lambda: obd.word(256, 0), "256 is no byte"),
        (lambda: within("x", math.inf, 0, 1), "x is inf, outside 0 to 1"),
        (lambda: above("x", 0.0, 0, 1), "x is 0, not above 0 up to 1"),
    ],
)
def test_refused(call: object, what: str) -> None:
    """What a formula does not hold for is refused by name and range."""
    assert callable(call)
    with pytest.raises(ValueError, match=what):
        call()
