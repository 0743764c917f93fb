"""Quantities: signals of their own, through the channels of what they take, fitting a formula."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.rulebook.compiled import load_rulebook
from sootsayer.rulebook.model import SignalKind
from sootsayer.rulebook.reads import channels_behind, readings_behind, slot_channels, sole_reading
from tests.rulebook.bad_packs import FIRST_LINE, GOLDEN, HEAD, problems_of

MODEL = load_rulebook([GOLDEN]).model


def test_a_quantity_is_a_signal_too() -> None:
    """It stands among the signals as a number at its points, and through no channel by itself."""
    signal = MODEL.signals["resistance"]
    assert (signal.kind, signal.unit, signal.points) == (
        SignalKind.NUMBER,
        "mbar/(m3/h)",
        ("idle", "2500"),
    )
    assert signal.possible == (0.0, 5.0)
    assert signal.channels == {}


def test_what_is_behind_a_quantity() -> None:
    """A quantity is read at its own point, else where it names one, else without a point."""
    at_2500 = ("air@2500", "dp@2500", "exhaust-heat@2500", "outside")
    assert readings_behind(MODEL, "resistance@2500") == at_2500
    assert set(readings_behind(MODEL, "rise")) == {
        *at_2500,
        *(slot.replace("2500", "idle") for slot in at_2500),
    }
    assert readings_behind(MODEL, "dp@idle") == ("dp@idle",)


def test_a_quantity_comes_through_all_channels_of_its_inputs() -> None:
    """The channels behind a finding on a quantity are those of all that it is computed from."""
    assert set(slot_channels(MODEL, "resistance@idle")) == {"air-meter", "dp-sensor", "dp-gauge"}
    assert "dp-sensor" in channels_behind(MODEL, "resistance-was-high")


def test_one_reading_can_decide_a_quantity(tmp_path: Path) -> None:
    """Where all other inputs last the visit, a quantity and its one reading count once."""
    assert sole_reading(MODEL, "resistance@idle") == "resistance@idle"
    assert sole_reading(MODEL, "ash-share") == "ash"
    proofs = "[{given: {}, then: true}, {given: {}, then: false}, {given: {}, then: unknown}]"
    body = (
        "findings:\n"
        f"  one: {{says: One, when: {{ash-share: {{above: 2}}}}, proofs: {proofs}}}\n"
        f"  two: {{says: Two, when: {{ash: {{above: 2}}}}, proofs: {proofs}}}\nevidence:\n"
        "  - {finding: one, seen with: {soot-overload: often}, otherwise: rarely}\n"
        "  - {finding: two, seen with: {soot-overload: often}, otherwise: rarely}\n"
    )
    (found,) = problems_of(tmp_path, {"bad": HEAD + body})
    assert 'one reading, ash, can decide both "one" and "two"' in found.what


def flow(**other: str) -> str:
    keys = {"formula": "exhaust-mass-flow", "takes": "{air: air}", "unit": "kg/h"} | other
    body = ", ".join(f"{key}: {value}" for key, value in keys.items())
    return f"{HEAD}quantities:\n  flow: {{label: Flow, at: [idle], possible: [0, 9], {body}}}\n"


RISE = {
    "formula": "catalyst-rise",
    "takes": "{temperature-after: exhaust-heat, temperature-before: exhaust-heat@2500}",
}
BAD: list[tuple[dict[str, str], str, str]] = [
    (
        {"formula": "exhaust-mass-flwo"},
        'there is no formula "exhaust-mass-flwo"',
        'did you mean "exhaust-mass-flow"?',
    ),
    (
        {"takes": "{fuel-ratio: attempts}"},
        '"exhaust-mass-flow" also takes air',
        "name the fact for each of them under `takes`",
    ),
    (
        {"takes": "{air: air, fuelratio: attempts}"},
        '"exhaust-mass-flow" takes no "fuelratio"',
        'did you mean "fuel-ratio"?',
    ),
    (
        {"takes": "{air: dp}"},
        '"dp" is in mbar, and "exhaust-mass-flow" takes air in kg/h',
        "name a fact that can be turned into kg/h",
    ),
    ({"unit": "mbar"}, '"exhaust-mass-flow" gives kg/h, not mbar', "write `unit: kg/h`"),
    ({**RISE, "unit": "C"}, '"catalyst-rise" gives K, not C', "write `unit: K`"),
]


@pytest.mark.parametrize(("other", "what", "instead"), BAD)
def test_a_quantity_fits_its_formula(
    other: dict[str, str], what: str, instead: str, tmp_path: Path
) -> None:
    """Formula, inputs and units are held against what physics has."""
    (found,) = problems_of(tmp_path, {"bad": flow(**other)})
    assert (found.what, found.instead) == (what, instead)
    assert found.place.line == FIRST_LINE + 1


@pytest.mark.parametrize("other", [{}, {"unit": "lb/min"}, {**RISE, "unit": "K"}])
def test_a_quantity_that_fits_is_taken(other: dict[str, str], tmp_path: Path) -> None:
    """Units that can be turned into one another fit; what can be assumed may be left out."""
    assert problems_of(tmp_path, {"bad": flow(**other)}) == []
