"""The filter's shape, ash in it, and its pressure drop."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from sootsayer.physics.filter import Filter, from_cells, soot_layer, soot_of_layer, with_ash
from sootsayer.physics.pressure_drop import (
    Permeability,
    pressure_drop,
    soot_of_drop,
    wall_permeability_of,
)

FILTER = from_cells(200, 14, 2.8, 0.144)
WALLS = Permeability(wall=1.9e-13)
MU = 2.58e-5
FLOW = 150 / 3600

grams = st.floats(0, 120)
flows = st.floats(1e-3, 0.2)
filters = st.builds(
    from_cells,
    cells=st.floats(90, 320),
    wall_mil=st.floats(8, 18),
    volume=st.floats(1.5, 5),
    diameter=st.floats(0.1, 0.2),
)


def total(filter_: Filter, mass: float, flow: float = FLOW) -> float:
    """Pa with `mass` g of soot."""
    layer = soot_layer(filter_, mass / 1000, 97)
    return pressure_drop(filter_, WALLS, MU, flow, layer).total


def most(filter_: Filter) -> float:
    """g of soot that fill the channels."""
    return 1000 * 97 * filter_.inlet_opening**2 * filter_.length * filter_.inlet_channels


def test_from_cells() -> None:
    """200 cells per square inch and 14 mil: a pitch of 1.796 mm, of which 1.440 open."""
    assert FILTER.pitch == pytest.approx(0.0254 / math.sqrt(200))
    assert FILTER.opening == pytest.approx(1.4404e-3, abs=1e-7)
    assert FILTER.volume == pytest.approx(2.8e-3)


@given(filters, grams, grams, flows)
@settings(deadline=None)
def test_more_soot_never_lowers_the_drop(
    filter_: Filter, one: float, other: float, flow: float
) -> None:
    """More soot never lowers the pressure drop at the same flow."""
    less, more = sorted((one, other))
    assume(more < 0.98 * most(filter_))
    assert total(filter_, more, flow) >= total(filter_, less, flow)


@given(filters, grams, st.floats(0, 100), st.floats(0, 100))
@settings(deadline=None)
def test_more_ash_on_the_walls_never_lowers_the_drop(
    filter_: Filter, mass: float, one: float, other: float
) -> None:
    """More ash on the walls never lowers the pressure drop, whatever soot is on it."""
    less, more = sorted((one, other))
    light = with_ash(filter_, less / 1000, 0.0, 500)
    heavy = with_ash(filter_, more / 1000, 0.0, 500)
    assume(mass < 0.9 * most(heavy))
    assert total(heavy, mass) >= total(light, mass) * (1 - 1e-12)


@given(grams, st.floats(0, 100), st.floats(0, 100), st.floats(0, 1))
@settings(deadline=None)
def test_more_ash_never_lowers_the_drop(mass: float, one: float, other: float, plug: float) -> None:
    """The same wherever it lies, for a filter as cars have it. (A very long and narrow one gains
    by being shorter: its channels cost more than its walls.)"""
    less, more = sorted((one, other))
    light, heavy = (with_ash(FILTER, ash / 1000, plug, 500) for ash in (less, more))
    assume(mass < 0.9 * most(heavy))
    assert total(heavy, mass) >= total(light, mass) * (1 - 1e-12)


@given(filters, grams)
@settings(deadline=None)
def test_layer_and_back(filter_: Filter, mass: float) -> None:
    """The layer of a mass has that mass."""
    assume(mass < 0.98 * most(filter_))
    layer = soot_layer(filter_, mass / 1000, 97)
    assert soot_of_layer(filter_, layer, 97) * 1000 == pytest.approx(mass, abs=1e-6)


@given(filters, grams, flows)
@settings(deadline=None, max_examples=50)
def test_drop_and_back(filter_: Filter, mass: float, flow: float) -> None:
    """The soot that a drop implies is the soot that caused it."""
    assume(mass < 0.9 * most(filter_))
    drop = total(filter_, mass, flow)
    assume(drop < 200_000)
    assert soot_of_drop(filter_, WALLS, MU, flow, drop, 97) * 1000 == pytest.approx(mass, abs=1e-4)


@given(filters, flows, st.floats(1e-13, 1e-11))
@settings(deadline=None)
def test_wall_and_back(filter_: Filter, flow: float, wall: float) -> None:
    """The wall permeability of a clean drop is the one that gave it."""
    drop = pressure_drop(filter_, Permeability(wall), MU, flow).total
    assert wall_permeability_of(filter_, MU, flow, drop) == pytest.approx(wall, rel=1e-9)


def test_ash_is_length_or_width() -> None:
    """Ash at the end shortens, ash on the walls narrows, each keeping its volume."""
    plug, walls = with_ash(FILTER, 0.06, 1.0, 400), with_ash(FILTER, 0.06, 0.0, 400)
    assert plug.length < FILTER.length
    assert plug.ash_layer == 0
    assert walls.length == FILTER.length
    assert walls.ash_layer > 0
    lost = (FILTER.length - plug.length) * FILTER.opening**2 * FILTER.inlet_channels
    ring = (FILTER.opening**2 - walls.inlet_opening**2) * FILTER.length * FILTER.inlet_channels
    assert lost * 400 == pytest.approx(0.06)
    assert ring * 400 == pytest.approx(0.06)


def test_ash_twice() -> None:
    """Ash on the walls in two helpings is ash in one."""
    once = with_ash(FILTER, 0.06, 0.0, 400)
    twice = with_ash(with_ash(FILTER, 0.03, 0.0, 400), 0.03, 0.0, 400)
    assert twice.ash_layer == pytest.approx(once.ash_layer)


def test_ash_with_half_a_plug_leaves_room_for_the_rest() -> None:
    """Both shares together hold the whole mass."""
    both = with_ash(FILTER, 0.06, 0.5, 400)
    area = FILTER.opening**2 * FILTER.inlet_channels
    plug = (FILTER.length - both.length) * area
    ring = both.length * FILTER.inlet_channels * (FILTER.opening**2 - both.inlet_opening**2)
    assert (plug + ring) * 400 == pytest.approx(0.06)


def test_clean_drop_below_needs_no_soot() -> None:
    """A drop under that of the clean filter is no soot, not negative soot."""
    assert soot_of_drop(FILTER, WALLS, MU, FLOW, 100.0, 97) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(
    ("call", "what"),
    [
        (lambda: from_cells(20, 14, 2.8, 0.144), "cells per square inch"),
        (lambda: from_cells(200, 14, 0.0, 0.144), "filter volume"),
        (lambda: from_cells(400, 40, 2.8, 0.144), "channel opening"),
        (lambda: soot_layer(FILTER, 1.0, 97), "soot is 1 kg, outside 0 to"),
        (lambda: soot_layer(FILTER, math.nan, 97), "soot is nan"),
        (lambda: soot_of_layer(FILTER, 1e-3, 97), "soot layer"),
        (lambda: with_ash(FILTER, 2.0, 1.0, 300), "length lost to ash"),
        (lambda: with_ash(FILTER, 0.9, 0.0, 300), "channel left open by ash"),
        (lambda: with_ash(FILTER, 0.1, 2.0, 300), "plug share"),
        (lambda: Permeability(1e-20), "permeability of wall"),
        (lambda: pressure_drop(FILTER, WALLS, 1.0, FLOW), "viscosity"),
        (lambda: pressure_drop(FILTER, WALLS, MU, -1.0), "exhaust flow"),
        (lambda: soot_of_drop(FILTER, WALLS, MU, 1e-3, 150_000, 97), "more than soot alone"),
        (lambda: wall_permeability_of(FILTER, MU, FLOW, 1.0), "channels alone"),
    ],
)
def test_refused(call: object, what: str) -> None:
    """What a formula does not hold for is refused by name and range."""
    assert callable(call)
    with pytest.raises(ValueError, match=what):
        call()
