"""Quantities: signals of their own, through the channels of what they take, fitting a formula."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from sootsayer.rulebook.compiled import load_rulebook
from sootsayer.rulebook.formulas import Formula
from sootsayer.rulebook.model import SignalKind
from sootsayer.rulebook.reads import channels_behind, readings_behind, slot_channels, sole_reading
from tests.rulebook.bad_packs import FIRST_LINE, GOLDEN, HEAD, problems_of

MODEL = load_rulebook([GOLDEN]).model
FLOW = {"exhaust-flow": Formula({"air": "g/s", "heat": "C"}, "kg/h", frozenset({"heat"}))}


def test_a_quantity_is_a_signal_too() -> None:
    """It stands among the signals as a number at its points, and through no channel by itself."""
    signal = MODEL.signals["resistance"]
    assert (signal.kind, signal.unit, signal.points) == (
        SignalKind.NUMBER,
        "mbar per m3/h",
        ("idle", "2500"),
    )
    assert signal.possible == (0.0, 5.0)
    assert signal.channels == {}


def test_what_is_behind_a_quantity() -> None:
    """A quantity is read at its own point, else where it names one, else without a point."""
    assert readings_behind(MODEL, "resistance@2500") == ("air@2500", "attempts", "dp@2500")
    assert readings_behind(MODEL, "pressure-left") == ("dp@2500", "dp@rest")
    assert readings_behind(MODEL, "dp@idle") == ("dp@idle",)


def test_a_quantity_comes_through_all_channels_of_its_inputs() -> None:
    """The channels behind a finding on a quantity are those of all that it is computed from."""
    assert set(slot_channels(MODEL, "resistance@idle")) == {"air-meter", "dp-sensor", "dp-gauge"}
    assert "dp-sensor" in channels_behind(MODEL, "resistance-was-high")


def test_one_reading_can_decide_a_quantity(tmp_path: Path) -> None:
    """Where all other inputs last the visit, a quantity and its one reading count once."""
    assert sole_reading(MODEL, "resistance@idle") == "resistance@idle"
    proofs = "[{given: {}, then: true}, {given: {}, then: false}, {given: {}, then: unknown}]"
    body = (
        "quantities:\n  share: {label: Share, formula: f, takes: {a: air, b: attempts}, at: [idle],"
        " unit: none, possible: [0, 9]}\nfindings:\n"
        f"  one: {{says: One, when: {{share@idle: {{above: 2}}}}, proofs: {proofs}}}\n"
        f"  two: {{says: Two, when: {{air@idle: {{above: 2}}}}, proofs: {proofs}}}\nevidence:\n"
        "  - {finding: one, seen with: {soot-overload: often}, otherwise: rarely}\n"
        "  - {finding: two, seen with: {soot-overload: often}, otherwise: rarely}\n"
    )
    (found,) = problems_of(tmp_path, {"bad": HEAD + body})
    assert 'one reading, air@idle, can decide both "one" and "two"' in found.what


def flow(**other: str) -> str:
    keys = {"formula": "exhaust-flow", "takes": "{air: air}", "unit": "kg/h"} | other
    body = ", ".join(f"{key}: {value}" for key, value in keys.items())
    return f"{HEAD}quantities:\n  flow: {{label: Flow, at: [idle], possible: [0, 9], {body}}}\n"


@pytest.mark.parametrize(
    ("other", "what", "instead"),
    [
        ({}, "", ""),
        ({"unit": "lb/min"}, "", ""),
        (
            {"formula": "exhaust-flwo"},
            'there is no formula "exhaust-flwo"',
            'did you mean "exhaust-flow"?',
        ),
        (
            {"takes": "{iar: air}"},
            '"exhaust-flow" also takes air',
            "name the fact for each of them under `takes`",
        ),
        (
            {"takes": "{air: air, haet: air}"},
            '"exhaust-flow" takes no "haet"',
            'did you mean "heat"?',
        ),
        (
            {"takes": "{air: dp}"},
            '"dp" is in mbar, and "exhaust-flow" takes air in g/s',
            "name a fact that can be turned into g/s",
        ),
        ({"unit": "mbar"}, '"exhaust-flow" gives kg/h, not mbar', "write `unit: kg/h`"),
    ],
)
def test_a_quantity_fits_its_formula(
    other: dict[str, str],
    what: str,
    instead: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Formula, inputs and units are held against what physics has."""

    def formulas() -> Mapping[str, Formula]:
        return FLOW | {
            "filter-resistance": Formula(
                {"dp": "mbar", "air": "kg/h", "backlog": ""}, "mbar per m3/h"
            ),
            "difference": Formula({"high": "mbar", "low": "mbar"}, "mbar"),
        }

    monkeypatch.setattr("sootsayer.rulebook.formulas.known_formulas", formulas)
    found = problems_of(tmp_path, {"bad": flow(**other)})
    said = {(each.what, each.instead) for each in found}
    assert ((what, instead) in said) if what else not said
    assert all(each.place.line == FIRST_LINE + 1 for each in found)
