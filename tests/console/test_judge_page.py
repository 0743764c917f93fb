"""The short page of a verdict."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from sootsayer.console.judge_page import judge_page
from sootsayer.console.screen import drawn
from sootsayer.judgement.verdict import DriveOn, FilterWell, Verdict
from tests.console import verdicts as v

BANDS = ["May it be driven?", "What we know", "Why", "What next"]
FORBIDDEN = re.compile(r"\b(safe|approved|certified|guaranteed?)\b", re.IGNORECASE)


def short(verdict: Verdict, width: int = 80) -> str:
    return drawn(judge_page(verdict, v.NAMES), width=width)


@pytest.mark.parametrize("name", sorted(v.ALL))
def test_page_fits_the_screen(name: str) -> None:
    """The default view is at most 24 lines of 80 columns."""
    make, names = v.ALL[name]
    lines = drawn(judge_page(make(), names)).splitlines()
    assert len(lines) <= 24
    assert max(map(len, lines)) <= 80
    assert len(lines) > 10


@pytest.mark.parametrize("name", sorted(v.ALL))
@pytest.mark.parametrize("width", [40, 50, 120])
def test_page_holds_the_same_at_any_width(name: str, width: int) -> None:
    """Width changes where lines break, never what is told."""
    make, names = v.ALL[name]
    page = judge_page(make(), names)
    narrow = drawn(page, width=width)
    assert max(map(len, narrow.splitlines())) <= width
    assert words_of(narrow) == words_of(drawn(page))


def words_of(text: str) -> list[str]:
    """All words, the right-hand column apart; folded words put together again."""
    return sorted("".join(re.sub(r"[>< ]*\d* % [█·]{10}", "", text).split()))


@pytest.mark.parametrize("name", sorted(v.ALL))
def test_page_has_its_bands_in_order(name: str) -> None:
    """First whether it may be driven, then what we know, why, what next."""
    make, _ = v.ALL[name]
    text = short(make())
    places = [text.index(f"\n{band}") for band in BANDS]
    assert places == sorted(places)


@pytest.mark.parametrize("state", list(DriveOn))
def test_caution_of_driving_stands_under_every_answer(state: DriveOn) -> None:
    """Whatever the answer, the caution of the action is shown with it, whole."""
    verdict = v.blocked_filter()
    long = "Beware of this. " * 40
    permissions = tuple(replace(item, caution=long) for item in verdict.permissions)
    drive = replace(verdict.drive_on, state=state)
    text = short(replace(verdict, drive_on=drive, permissions=permissions))
    assert " ".join(text.split()).count("Beware of this.") >= 40
    assert not FORBIDDEN.search(text)


def test_blocked_action_is_shown_with_its_caution() -> None:
    """What forbids running the engine, and its caution, are on the first screen."""
    text = short(v.hidden_by_hose())
    assert "Run the engine: blocked. Not so: The oil level" in text
    assert f"Caution: {v.RUN_CAUTION}" in text


def test_caution_of_a_check_is_shown_with_it() -> None:
    """A check that is proposed never appears without its caution."""
    text = short(v.empty_case())
    assert "Look and smell underneath" in text
    assert "Do not lie under a running engine." in text


def test_filter_is_well_only_where_the_verdict_says_so() -> None:
    """The sentence of a healthy filter depends on the verdict alone, never on low confidence."""
    sentence = "a filter that is well"
    assert sentence in short(v.healthy_filter())
    barred = replace(v.healthy_filter(), filter_well=FilterWell(False, ("dp-sensor",)))
    assert sentence not in short(barred)
    text = " ".join(short(barred).split())
    assert (
        "Not to be said that the filter is well: instrument proven (Differential pressure" in text
    )


def test_none_of_a_kind_is_said_where_it_leads() -> None:
    """`no fault of this kind` stands where that is more probable than the first fault."""
    text = short(v.sensor_offset())
    assert "Measurement: Sensor reads with an offset, likely." in text
    assert "Condition: no fault of this kind, very likely." in text


def test_set_aside_names_instrument_and_what_it_would_have_said() -> None:
    """What a distrusted instrument says is told as not counted."""
    text = " ".join(short(v.sensor_offset()).split())
    assert "distrusted (Differential pressure is not zero with no exhaust flow)" in text
    assert "so this is not counted: How restricted the filter is" in text
    assert "(would be: raised)" in text


def test_what_is_left_out_is_counted() -> None:
    """A list that is cut says how much more there is."""
    verdict = v.blocked_filter()
    fault = verdict.faults[0]
    many = replace(fault, for_=fault.for_[:1] * 30)
    text = short(replace(verdict, faults=(many, *verdict.faults[1:])))
    shown = text.count("+ strong: How restricted")
    assert 0 < shown < 30
    assert f"Filter overloaded with soot (+ {shown} of 30)" in text
    assert "all: --more" in text


def test_what_cannot_be_had_is_not_asked_again() -> None:
    """A slot answered with `cannot` is said to stay open, with its entry."""
    verdict = v.blocked_filter()
    few = replace(verdict, faults=verdict.faults[:1])
    text = drawn(judge_page(few, v.NAMES_REFUSED))
    assert "Soot measured against soot reckoned: cannot (entry 4), so this stays open." in text
    assert "(soot-shown" not in text


def test_torn_line_and_inexact_reckoning_are_said() -> None:
    """The reader learns what the verdict itself lacks."""
    text = short(replace(v.empty_case(), torn=True, exact=False))
    assert "The last line of the case file is not whole and was left out." in text
    assert "each confidence is approximate" in text
