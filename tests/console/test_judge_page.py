"""The short page of a verdict."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from sootsayer.console.judge_more import judge_more_page
from sootsayer.console.judge_page import judge_page
from sootsayer.console.screen import drawn
from sootsayer.judgement.verdict import (
    ContradictionSaid,
    DriveOn,
    FilterWell,
    Permitted,
    Reason,
    Verdict,
)
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


def test_reason_has_the_value_seen_and_the_limit_it_was_held_to() -> None:
    """What decided about driving names its reading, the limit and whose own that limit is."""
    soot = v.ground("soot-shown", "44 g", 3, "Soot shown")
    full = v.lock(
        "soot-below-ceiling",
        "The soot is below its ceiling",
        Permitted.BLOCKED,
        Reason.DOES_NOT_HOLD,
        replace(soot, value=44.0),
        when_not="There is too much soot",
    )
    verdict = v.blocked_filter()
    verdict = replace(verdict, drive_on=replace(verdict.drive_on, reasons=(full,)))
    names = replace(v.NAMES, held_to={full.id: {"soot-shown": "soot-in-place-max"}})
    text = " ".join(drawn(judge_page(verdict, names)).split())
    assert "There is too much soot (44 g, entry 3; limit 40 g, this vehicle's own)." in text
    whole = " ".join(drawn(judge_more_page(verdict, names)).split())
    assert "(Soot shown: 44 g, entry 3; limit 40 g, this vehicle's own)" in whole


def test_sources_that_differ_are_told_in_a_line_without_blame() -> None:
    """Both values, and which of them counts."""
    scan = replace(v.DP_IDLE, typed="24 mbar")
    gauge = replace(v.DP_IDLE, typed="30 mbar", source="gauge")
    differ = ContradictionSaid("dp@idle", "Differential pressure, at idle", gauge, scan)
    verdict = replace(v.blocked_filter(), contradictions=(differ,))
    said = "Differential pressure, at idle: gauge 30 mbar, scan tool 24 mbar; the gauge counts."
    for page in (judge_page(verdict, v.NAMES), judge_more_page(verdict, v.NAMES)):
        assert said in " ".join(drawn(page).split())


@pytest.mark.parametrize("name", sorted(v.ALL))
def test_no_part_is_left_at_nothing(name: str) -> None:
    """However full the page, every leading fault has its weightiest reason, and an open check
    is shown where there is one."""
    make, names = v.ALL[name]
    text = drawn(judge_page(make(), names))
    assert "…" not in text
    assert "+ 0 of" not in text
    assert "What next: 0 of" not in text


def test_blocked_action_is_shown_with_its_caution() -> None:
    """What is blocked is told with its reason and caution, or named with where a long one is."""
    verdict = v.hidden_by_hose()
    text = " ".join(short(verdict).split())
    assert "Run the engine: blocked. The oil is above the mark (oil-level: above max" in text
    assert f"Caution: {v.RUN_CAUTION}" in text
    long = tuple(replace(item, caution=v.RUN_CAUTION * 9) for item in verdict.permissions)
    text = " ".join(short(replace(verdict, permissions=long)).split())
    assert "Blocked: run-engine. Reason and caution: why run-engine." in text


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
        "Nothing here says that the filter is well: instrument proven (Differential pressure"
        in text
    )


def test_none_of_a_kind_is_said_where_it_leads() -> None:
    """`no fault of this kind` stands where that is more probable than the first fault."""
    text = short(v.sensor_offset())
    assert "Measurement: Sensor reads with an offset, likely." in text
    assert "Condition: none shows yet, but unproven: very likely." in text


def test_set_aside_names_instrument_and_what_it_would_have_said() -> None:
    """What a distrusted instrument says is told as not counted."""
    text = " ".join(short(v.sensor_offset()).split())
    assert (
        "Set aside while Differential pressure sensor and its hoses is distrusted (Differential "
        "pressure is not zero with no exhaust flow): How restricted the filter is, at 2,500 rpm "
        "(would say raised)" in text
    )


def test_what_is_left_out_is_counted() -> None:
    """A list that is cut says how much more there is."""
    verdict = v.blocked_filter()
    fault = verdict.faults[0]
    many = replace(fault, for_=fault.for_[:1] * 30)
    text = short(replace(verdict, faults=(many, *verdict.faults[1:])))
    shown = text.count("+ strong: Restriction of the filter")
    assert 0 < shown < 30
    assert f"Filter overloaded with soot (+ {shown} of 30, nothing against)" in text
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
