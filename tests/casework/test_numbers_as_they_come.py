"""Every row of docs/reference/numbers.md is typed and comes out as the page says."""

from __future__ import annotations

import math
import re
from datetime import datetime
from pathlib import Path

import pytest

from sootsayer.casework.collector import Collector
from sootsayer.casework.facts import fact_in_force, fact_sheet
from sootsayer.casework.model import Said, Vehicle
from sootsayer.casework.values import read_said
from sootsayer.catalogue import speaking
from sootsayer.catalogue_numbers import moment_said, number, whole
from sootsayer.documents.nodes import Document, Mapping, Place, Scalar
from sootsayer.physics.typed_numbers import read_typed
from sootsayer.physics.units import TwoWays
from sootsayer.rulebook.model import Lasts, Signal, SignalKind
from tests.casework.small_model import ARRIVAL
from tests.casework.support import MODEL, case_with

PAGE = (Path(__file__).parents[2] / "docs/reference/numbers.md").read_text(encoding="utf-8")
PLACE = Place("a.yaml", 1, 1)
VEHICLE = Vehicle("2.0 L panel van", engine_litres=2.0, cylinders=4, filter_litres=2.8)
SIGNALS = {
    "sensor-volts": Signal(
        "sensor-volts", "Volts", SignalKind.NUMBER, Lasts.ROUND, "small", PLACE, unit="V"
    ),
    "town-share": Signal(
        "town-share", "Town", SignalKind.NUMBER, Lasts.VISIT, "small", PLACE, unit="%"
    ),
    "soot-percent": Signal(
        "soot-percent", "Soot", SignalKind.NUMBER, Lasts.ROUND, "small", PLACE, unit="%"
    ),
}


def rows(third: str) -> list[list[str]]:
    """The rows of the table whose third heading is this, without their backquotes."""
    table = PAGE[PAGE.index(f"| typed | {third} |") :].split("\n\n")[0]
    cells = (re.split(r"\s*\|\s*", row.strip("| ")) for row in table.splitlines()[2:])
    return [[kind, typed.strip("`"), result] for kind, typed, result in cells]


def typed(
    kind: str, text: str, name: str = "reading", vehicle: Vehicle = VEHICLE
) -> Said | tuple[str, str]:
    """A fact of a signal in the unit that a row names, or what is said instead."""
    unit, _, point = kind.partition(" at ")
    signal = Signal(
        name, "The reading", SignalKind.NUMBER, Lasts.ROUND, "small", PLACE,
        unit="" if unit == "none" else unit, possible=(-100.0, 1000.0), step=0.1, error=0.0,
    )  # fmt: skip
    collector = Collector(Document("a.yaml", Mapping({}, {}, PLACE), ()))
    node = Scalar(text, text, PLACE)
    slot = f"{name}@{point}" if point else name
    said = read_said(slot, node, signal, vehicle, collector, SIGNALS)
    if said is not None:
        assert not collector.problems
        return said
    (problem,) = collector.problems
    return problem.what, problem.instead


@pytest.mark.parametrize(("kind", "text", "becomes"), rows("becomes"))
def test_what_is_understood(kind: str, text: str, becomes: str) -> None:
    """What the page says is understood becomes the number that it names."""
    said = typed(kind, text)
    assert isinstance(said, Said)
    assert said.typed == text
    assert said.value == pytest.approx(float(becomes), abs=6e-4)


@pytest.mark.parametrize(("kind", "text", "answer"), rows("answer"))
def test_what_is_refused(kind: str, text: str, answer: str) -> None:
    """What the page says is refused is refused with these words, and a next action."""
    said = typed(kind, text)
    assert isinstance(said, tuple)
    what, instead = said
    assert answer in f"{what} → {instead}"
    assert instead


@pytest.mark.parametrize(("kind", "text", "step"), rows("step"))
def test_steps(kind: str, text: str, step: str) -> None:
    """The last digit typed counts as a step in the signal's unit."""
    said = typed(kind, text)
    assert isinstance(said, Said)
    assert said.step == pytest.approx(float(step), abs=6e-4)


def pairs(second: str) -> list[list[str]]:
    """The rows of the table of what is typed at a prompt, without their backquotes."""
    table = PAGE[PAGE.index(f"| at a prompt | {second} |") :].split("\n\n")[0]
    cells = (re.split(r"\s*\|\s*", row.strip("| ")) for row in table.splitlines()[2:])
    return [[text.strip("`"), result] for text, result in cells]


@pytest.mark.parametrize(("text", "becomes"), pairs("becomes"))
def test_what_is_understood_at_a_prompt(text: str, becomes: str) -> None:
    """What the page says of prompts is what they make of it."""
    assert read_typed(text).value == float(becomes)


@pytest.mark.parametrize(("text", "either"), pairs("is asked"))
def test_what_is_asked_at_a_prompt(text: str, either: str) -> None:
    """What can be read in two ways is told with both."""
    with pytest.raises(TwoWays) as asked:
        read_typed(text)
    assert asked.value.instead == f"write {either}"


def test_how_the_page_shows_numbers() -> None:
    """The page's numbers and days are those of the screen, in both languages."""
    when = datetime(2031, 6, 2, 9, 5)
    for language in ("en", "fr"):
        with speaking(language):
            shown = (number(1500.25), whole(1500), moment_said(when))
        assert all(f"`{each}`".replace("\u00a0", " ") in PAGE for each in shown)


def test_the_page_has_every_unit_of_the_trade() -> None:
    """The tables hold each unit that people at a workshop read."""
    shown = {re.sub(r"^[\d.,−-]+\s*", "", row[1]) for row in rows("becomes")}
    wanted = "mbar hPa kPa bar psi inH2O V kg/h g/s lb/min mg/stroke C F g g/L % km mi"
    assert [unit for unit in wanted.split() if unit not in shown] == []


def test_volts_and_per_cents_name_the_signal_they_may_belong_to() -> None:
    """The refusal names the signals in volts, and the per cent of the same thing."""
    assert "(in that unit: sensor-volts)" in typed("mbar", "0.5 V", "dp")[1]  # type: ignore[index]
    assert "(in that unit: soot-percent)" in typed("g", "55 %", "soot-shown")[1]  # type: ignore[index]


def test_per_litre_needs_the_filter() -> None:
    """Grams per litre without the size of the filter are refused, and say what is missing."""
    unsized = Vehicle("2.0 L panel van")
    assert "filter litres" in typed("g", "6 g/L", vehicle=unsized)[1]  # type: ignore[index]


@pytest.mark.parametrize(("text", "step"), [("2 kPa", 10.0), ("20 mbar", 1.0), ("20.0", 1.0)])
def test_a_coarse_step_is_error(text: str, step: float) -> None:
    """A reading in whole kilopascals is less sure by its step, one in mbar by the signal's own."""
    fact = fact_in_force(
        fact_sheet(case_with(ARRIVAL + f"facts: {{dp@idle: {text}}}}}"), MODEL), "dp@idle"
    )
    assert fact is not None
    assert fact.value == pytest.approx(20.0)
    assert fact.sd == pytest.approx(math.sqrt(2.0**2 + step**2 / 12))
