"""The facts in force."""

from __future__ import annotations

import math
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.casework.contradictions import contradictions
from sootsayer.casework.facts import fact_in_force, fact_sheet, rounds
from sootsayer.casework.model import Absence, Case, Fact, Source
from sootsayer.engine.conditions import NOT_FITTED
from tests.casework.small_model import ARRIVAL, START, case_text
from tests.casework.support import MODEL, case_from, case_with

AFTER = START + "round: after-clean, source: scan, "


def in_force(case: Case, slot: str, as_of: int | None = None) -> Fact | None:
    """The fact that counts."""
    return fact_in_force(fact_sheet(case, MODEL, as_of), slot)


def value(case: Case, slot: str, as_of: int | None = None) -> object:
    """Its value, or None."""
    fact = in_force(case, slot, as_of)
    return fact.value if fact else None


def test_a_later_correction_wins() -> None:
    """Of several corrections the later counts, and keeps the time of the reading."""
    case = case_with(
        ARRIVAL + "facts: {dp@idle: 24, dp@rest: 1}}",
        "{at: 2031-03-14T11:00+01:00, by: t, corrects: 1, facts: {dp@idle: 34}}",
        "{at: 2031-03-14T12:00+01:00, by: t, corrects: 2, facts: {dp@idle: 35}}",
    )
    fact = in_force(case, "dp@idle")
    assert fact is not None
    assert (fact.value, fact.entry, fact.at) == (35.0, 3, case.entries[0].at)
    assert value(case, "dp@idle", as_of=2) == 34.0
    assert value(case, "dp@idle", as_of=1) == 24.0
    assert value(case, "dp@rest") == 1.0


def test_correcting_an_old_reading_leaves_a_newer_one() -> None:
    """A correction takes the place of what it corrects and no other."""
    case = case_with(
        ARRIVAL + "facts: {dp@idle: 24}}",
        ARRIVAL + "facts: {dp@idle: 30}}",
        START + "corrects: 1, facts: {dp@idle: 34}}",
    )
    assert value(case, "dp@idle") == 30.0


def test_an_answer_can_be_taken_back() -> None:
    """`not asked` in a correction leaves nothing behind, whatever was said before it."""
    case = case_with(
        ARRIVAL + "facts: {dp@idle: 24}}", START + "corrects: 1, none: {dp@idle: not asked}}"
    )
    assert in_force(case, "dp@idle") is None
    assert fact_sheet(case, MODEL).round is None


def test_readings_last_their_round_and_accounts_the_visit() -> None:
    """A new round makes its readings the only ones; the customer's account stays."""
    case = case_with(
        ARRIVAL + "facts: {dp@idle: 24, dp@rest: 1, trip-length: 6 km}}",
        AFTER + "facts: {dp@idle: 9}}",
    )
    sheet = fact_sheet(case, MODEL)
    assert sheet.round == "after-clean"
    assert (value(case, "dp@idle"), value(case, "dp@rest"), value(case, "trip-length")) == (
        9,
        None,
        6,
    )
    earlier = fact_sheet(case, MODEL, in_round="arrival")
    assert {slot: earlier.by_source[slot][0].value for slot in ("dp@idle", "dp@rest")} == {
        "dp@idle": 24.0,
        "dp@rest": 1.0,
    }


def test_a_late_entry_of_an_old_round_does_not_make_it_new() -> None:
    """The newest round is the one begun last."""
    case = case_with(
        ARRIVAL + "facts: {dp@idle: 24}}",
        AFTER + "facts: {dp@idle: 9}}",
        ARRIVAL + "facts: {dp@rest: 1}}",
    )
    assert rounds(case) == ["arrival", "after-clean"]
    assert value(case, "dp@idle") == 9.0
    assert in_force(case, "dp@rest") is None


@pytest.mark.parametrize("nothing_read", ["none: {dp@2500: cannot}}", "facts: {trip-length: 9}}"])
def test_a_round_begins_with_a_reading(nothing_read: str) -> None:
    """A reason for no value, or the customer's account, begins no round; it is kept."""
    case = case_with(ARRIVAL + "facts: {dp@idle: 24}}", AFTER + nothing_read)
    assert fact_sheet(case, MODEL).round == "arrival"
    assert value(case, "dp@idle") == 24.0
    asked = in_force(case, "dp@2500") or in_force(case, "trip-length")
    assert asked is not None


def test_a_list_of_codes_begins_a_round() -> None:
    """Reading the codes is a reading."""
    case = case_with(
        ARRIVAL + "facts: {dp@idle: 24}}", AFTER + "codes: {read: complete, list: []}}"
    )
    assert fact_sheet(case, MODEL).round == "after-clean"
    assert in_force(case, "dp@idle") is None


def test_the_better_source_counts_and_all_are_kept() -> None:
    """Gauge before scan before technician before customer; one fact a source."""
    entry = "{" + START + "round: arrival, source: {}, facts: {{dp@idle: {}}}}}"
    case = case_with(
        entry.format("gauge", 30), entry.format("scan", 24), entry.format("scan", 25),
        entry.format("customer", 80), entry.format("technician", 26),
    )  # fmt: skip
    facts = fact_sheet(case, MODEL).by_source["dp@idle"]
    assert [(fact.source, fact.value) for fact in facts] == [
        (Source.GAUGE, 30.0), (Source.SCAN, 25.0), (Source.TECHNICIAN, 26.0),
        (Source.CUSTOMER, 80.0),
    ]  # fmt: skip
    assert [fact.channel for fact in facts] == ["dp-gauge", "dp-sensor", "dp-sensor", "dp-sensor"]


def test_a_reading_without_a_named_instrument_is_of_the_vehicles_own() -> None:
    """Whoever types a pressure without saying where from escapes no instrument."""
    case = case_with(START + "round: arrival, source: technician, facts: {dp@idle: 26}}")
    assert fact_sheet(case, MODEL).by_source["dp@idle"][0].channel == "dp-sensor"


def test_absence() -> None:
    """A reason for no value is kept, and a real value of another source counts before it."""
    case = case_with(
        START + "round: arrival, source: gauge, none: {dp@idle: cannot, dp@rest: cannot}}",
        ARRIVAL + "facts: {dp@idle: 24}}",
    )
    assert value(case, "dp@idle") == 24.0
    absent = in_force(case, "dp@rest")
    assert absent is not None
    assert (absent.value, absent.absence) == (None, Absence.CANNOT)


def test_a_later_value_replaces_do_not_know() -> None:
    """From one source the later entry counts."""
    case = case_with(ARRIVAL + "none: {dp@idle: do not know}}", ARRIVAL + "facts: {dp@idle: 24}}")
    assert [fact.value for fact in fact_sheet(case, MODEL).by_source["dp@idle"]] == [24.0]


def test_not_fitted_is_a_value_for_the_visit() -> None:
    """What a vehicle does not have it lacks in every round, until a value is read."""
    case = case_with(
        ARRIVAL + "facts: {dp@idle: 24}, none: {air@idle: not fitted}}",
        AFTER + "facts: {dp@idle: 9}}",
        START + "round: after-clean, facts: {air@idle: 30}}",
    )
    assert value(case, "air@idle", as_of=2) is NOT_FITTED
    assert value(case, "air@idle", as_of=3) == 30.0


def test_header_facts() -> None:
    """What the header says is a fact of entry 0 where a signal wants it."""
    case = case_from(
        case_text(header=case_text().replace(
            "{additive: no}", "{additive: no, low-pressure recirculation: unknown, heater: yes}"
        ))
    )  # fmt: skip
    assert value(case, "fitted-additive") is False
    unknown = in_force(case, "fitted-low-pressure-recirculation")
    assert unknown is not None
    assert (unknown.absence, unknown.entry) == (Absence.DO_NOT_KNOW, 0)
    assert value(case, "engine-litres") == 2.0
    assert in_force(case, "fitted-heater") is None


def test_an_entry_overrules_the_header() -> None:
    """What was found later counts before the header."""
    case = case_with(START + "facts: {fitted-additive: yes}}")
    assert value(case, "fitted-additive") is True


@pytest.mark.parametrize(
    ("slot", "typed", "sd"),
    [
        ("dp@idle", "24", math.sqrt(4 + 1 / 12)),
        ("dp@idle", "2 kPa", math.sqrt(4 + 100 / 12)),
        ("dp@idle", "2.0 kPa", math.sqrt(4 + 1 / 12)),
        ("power-loss", "gradual", 0.0),
    ],
)
def test_standard_deviation(slot: str, typed: str, sd: float) -> None:
    """Error and the coarser step add in quadrature, a step as step / sqrt(12)."""
    fact = in_force(case_with(ARRIVAL + f"facts: {{{slot}: {typed}}}}}"), slot)
    assert fact is not None
    assert fact.sd == pytest.approx(sd)


def test_contradictions() -> None:
    """Two sources disagree when they differ by more than twice their errors together."""
    entry = "{" + START + "round: arrival, source: {}, facts: {{dp@idle: {}, power-loss: {}}}}}"
    case = case_with(
        entry.format("scan", 24, "gradual"), entry.format("gauge", 29, "gradual"),
        entry.format("technician", 31, "sudden"),
    )  # fmt: skip
    found = contradictions(fact_sheet(case, MODEL), MODEL)
    assert [(one.slot, one.counts.source, one.other.source) for one in found] == [
        ("dp@idle", Source.SCAN, Source.TECHNICIAN),
        ("power-loss", Source.GAUGE, Source.TECHNICIAN),
        ("power-loss", Source.SCAN, Source.TECHNICIAN),
    ]
    assert found[0].difference == -7.0


def test_the_order_of_facts_in_one_entry_never_matters() -> None:
    """Every order of an entry's facts reads to the same facts, but for their columns."""
    facts = ["dp@idle: 24", "dp@rest: 2 kPa", "trip-length: 6 mi", "power-loss: sudden"]
    sheets = set()
    for order in permutations(facts):
        case = case_with(ARRIVAL + "facts: {" + ", ".join(order) + "}}")
        by_source = fact_sheet(case, MODEL).by_source
        assert list(by_source) == sorted(by_source)
        sheets.add(
            tuple(
                (f.slot, f.value, f.sd, f.entry, f.source) for fs in by_source.values() for f in fs
            )
        )
    assert len(sheets) == 1


SLOTS = ["dp@idle", "dp@rest", "air@idle", "trip-length", "soot-shown"]
WHAT = st.sampled_from(
    ["facts: {{{}: 24}}", "facts: {{{}: 7}}", "none: {{{}: cannot}}", "none: {{{}: not fitted}}",
     "none: {{{}: do not know}}"]
)  # fmt: skip
ENTRY = st.tuples(
    st.sampled_from(["arrival", "after-clean"]),
    st.sampled_from(["gauge", "scan", "customer"]),
    st.sampled_from(SLOTS),
    WHAT,
)


def _line(entry: tuple[str, str, str, str]) -> str:
    round_name, source, slot, what = entry
    return START + f"round: {round_name}, source: {source}, {what.format(slot)}}}"


def _stripped(case: Case) -> object:
    """The sheet without entry numbers and places, which must differ."""
    sheet = fact_sheet(case, MODEL)
    return sheet.round, {
        slot: [(f.value, f.absence, f.source, f.round, f.sd) for f in facts]
        for slot, facts in sheet.by_source.items()
    }


@given(st.lists(ENTRY, min_size=1, max_size=6), st.data())
@settings(deadline=None, max_examples=50)
def test_taking_back_equals_never_having_given(
    entries: list[tuple[str, str, str, str]], data: st.DataObject
) -> None:
    """An answer taken back, corrected before or not, leaves the facts as if never given."""
    index = data.draw(st.integers(0, len(entries) - 1))
    slot = entries[index][2]
    lines = [_line(entry) for entry in entries]
    if data.draw(st.booleans()):
        lines.append(START + f"corrects: {index + 1}, facts: {{{slot}: 11}}}}")
    lines.append(START + f"corrects: {index + 1}, none: {{{slot}: not asked}}}}")
    without = [_line(entry) for number, entry in enumerate(entries) if number != index]
    assert _stripped(case_with(*lines)) == _stripped(case_with(*without))
