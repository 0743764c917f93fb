"""Reading a case: what is right, and each thing that can be wrong."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.casework.case_file import read_case
from sootsayer.casework.model import Absence, Source
from sootsayer.documents.problems import Refused
from tests.casework.small_model import ARRIVAL, HEADER, START, case_text
from tests.casework.support import MODEL, case_from, case_with, refused, the_problem

READING = ARRIVAL + "facts: {dp@idle: 24}}"
OUTCOME = START + "outcome: {faults: [sensor-offset], cured by: [zero-sensor], proved by: recheck}}"


def test_units_become_the_signals_own() -> None:
    """A value is kept as typed and turned into the signal's unit."""
    case = case_with(
        ARRIVAL + 'facts: {dp@rest: 0.9 psi, dp@idle: "2,4 kPa", dp@2500: 24, egt@idle: 212 °F}}'
    )
    said = {one.slot: one for one in case.entries[0].said}
    values = {slot: one.value for slot, one in said.items()}
    assert values == pytest.approx(
        {"dp@rest": 62.05281, "dp@idle": 24.0, "dp@2500": 24.0, "egt@idle": 100.0}
    )
    assert {one.typed for one in said.values()} == {"0.9 psi", "2,4 kPa", "24", "212 °F"}


def test_air_per_stroke_takes_speed_and_cylinders() -> None:
    """450 mg/stroke at 2,500 rpm of four cylinders are 135 kg/h."""
    case = case_with(ARRIVAL + "facts: {air@2500: 450 mg/st}}")
    assert case.entries[0].said[0].value == pytest.approx(135.0)


def test_words_and_absences() -> None:
    """Choices stay words, yes and no become booleans, absences keep their reason."""
    case = case_with(
        ARRIVAL + "facts: {power-loss: none, oil-smells-of-fuel: yes, tailpipe-sooty: false}}",
        ARRIVAL + "none: {dp@rest: not fitted, dp@idle: do not know}}",
    )
    assert {one.slot: one.value for one in case.entries[0].said} == {
        "power-loss": "none",
        "oil-smells-of-fuel": True,
        "tailpipe-sooty": False,
    }
    assert {one.slot: one.absence for one in case.entries[1].said} == {
        "dp@rest": Absence.NOT_FITTED,
        "dp@idle": Absence.DO_NOT_KNOW,
    }
    assert all(one.value is None for one in case.entries[1].said)


@pytest.mark.parametrize(
    ("typed", "step"), [("24", None), ("18 hPa", None), ("2 kPa", 10.0), ("2.4 kPa", None)]
)
def test_coarse_step_as_typed(typed: str, step: float | None) -> None:
    """A number typed more coarsely than its signal's step keeps that step."""
    case = case_with(ARRIVAL + f"facts: {{dp@idle: {typed}}}}}")
    assert case.entries[0].said[0].step == step


def test_codes() -> None:
    """A code list keeps what it says about itself."""
    case = case_with(
        ARRIVAL + "codes: {read: complete, list: [P2463, P2453, P2463], monitors: not run, "
        "distance since clearing: 10 mi, warm-ups: 15}}"
    )
    codes = case.entries[0].codes
    assert codes is not None
    assert (codes.complete, codes.codes, codes.monitors_run) == (True, ("P2453", "P2463"), False)
    assert codes.distance_km == pytest.approx(16.09344)
    assert codes.warm_ups == 15


def test_header() -> None:
    """The header tells of the vehicle and its own limits."""
    header = HEADER.replace(
        "fitted: {additive: no}}",
        "fitted: {additive: no, reductant: yes, low-pressure recirculation: unknown}}\n"
        "limits: {soot-in-place-max: 0.04 kg}\nstory: A van.",
    )
    case = case_from(case_text(READING, header=header))
    assert case.vehicle.fitted == {
        "additive": False,
        "low-pressure recirculation": None,
        "reductant": True,
    }
    assert case.limits["soot-in-place-max"].value == pytest.approx(40.0)
    assert (case.id, case.story, case.vehicle.cylinders) == ("2031-03-14-a", "A van.", 4)


def test_corrections_go_back_to_the_first_entry() -> None:
    """A correction, and a correction of it, has round and source of the entry first made."""
    case = case_with(
        READING,
        START + "corrects: 1, facts: {dp@idle: 25}}",
        START + "corrects: 2, facts: {dp@idle: 26}}",
    )
    assert [(one.round, one.source) for one in case.entries] == [("arrival", Source.SCAN)] * 3


def test_no_entries_yet() -> None:
    """A case whose first answer is still to come can be read."""
    assert case_from(HEADER).entries == ()
    assert case_from(HEADER + "# nothing yet\n\n").entries == ()


def test_closed_case_takes_notes_and_corrections() -> None:
    """After the outcome, notes, corrections and a corrected outcome are right."""
    case = case_with(
        READING,
        OUTCOME,
        START + "note: paid}",
        START + "corrects: 1, facts: {dp@idle: 25}}",
        START + "corrects: 2, outcome: {faults: []}}",
    )
    assert case.closed


def test_missing_file(tmp_path: Path) -> None:
    """A file that is not there is refused under the name that was given."""
    with pytest.raises(Refused) as caught:
        read_case(tmp_path / "none.yaml", MODEL, shown_as="none.yaml")
    assert caught.value.problems[0].place.file == "none.yaml"


@pytest.mark.parametrize(
    ("entry", "what", "instead"),
    [
        (ARRIVAL + "facts: {dq@idle: 1}}", 'unknown signal "dq"', 'did you mean "dp@idle"?'),
        (ARRIVAL + "facts: {dp: 1}}", "dp needs the point", "dp@rest, dp@idle or dp@2500"),
        (ARRIVAL + "facts: {dp@idel: 1}}", 'unknown point "idel"', 'did you mean "dp@idle"?'),
        (ARRIVAL + "facts: {dp@pull: 1}}", "dp is not read at pull", "dp@rest"),
        (ARRIVAL + "facts: {soot-shown@idle: 1}}", "not read at a point", "write soot-shown"),
        (ARRIVAL + "none: {dp: cannot}}", "dp needs the point", "dp@rest"),
        (ARRIVAL + "facts: {dp@idle: high}}", 'dp@idle: "high" is no number', "write a number"),
        (ARRIVAL + "facts: {dp@idle: true}}", '"true" is no number', "write a number"),
        (ARRIVAL + "facts: {dp@idle: 18 mbra}}", 'unknown unit "mbra"', 'did you mean "mbar"?'),
        (ARRIVAL + "facts: {dp@idle: 18 g}}", "g cannot be turned into mbar", "write it in mbar"),
        (ARRIVAL + "facts: {attempts: 3 km}}", "km cannot", "without a unit"),
        (ARRIVAL + "facts: {air@idle: 450 mg/stroke}}", "mg/stroke cannot", "needs the speed"),
        (
            ARRIVAL + "facts: {dp@idle: 900 psi}}",
            "dp@idle: 900 psi is 62053 mbar",
            "Differential pressure over the filter lies between -100 and 1000 mbar; a slip?",
        ),
        (ARRIVAL + "facts: {dp@idle: 1001}}", "1001 mbar is not possible", "a slip?"),
        (ARRIVAL + 'facts: {dp@idle: "1,500"}}', "in two ways", "write 1500 or 1.5"),
        (ARRIVAL + "facts: {dp@idle: .nan}}", '".nan" is no number', "write a number"),
        (ARRIVAL + "facts: {dp@idle: .inf}}", '".inf" is no number', "write a number"),
        (ARRIVAL + "facts: {dp@idle: do not know}}", "is no value", "none: {dp@idle: do not know}"),
        (ARRIVAL + "facts: {power-loss: gradul}}", 'no choice "gradul"', 'mean "gradual"?'),
        (ARRIVAL + "facts: {oil-smells-of-fuel: 3}}", "is yes or no", "write yes or no"),
        (ARRIVAL + "none: {dp@idle: canot}}", "no reason", 'did you mean "cannot"?'),
        (
            ARRIVAL + "facts: {dp@idle: 3}, none: {dp@idle: cannot}}",
            "a value and a reason for none",
            "leave one",
        ),
        (ARRIVAL + "codes: {read: complete, list: [p2463]}}", "no trouble code", "write P2463"),
        (ARRIVAL + "codes: {read: complete, list: [fuse]}}", "no trouble code", "like P2463"),
        (
            ARRIVAL + "codes: {read: complete, list: [], distance since clearing: 4 g}}",
            "distance since clearing: g cannot",
            "km",
        ),
        (START + "round: After Clean, note: x}", "lower case with dashes", "write after-clean"),
        (START + "work: Zero Sensor}", "lower case with dashes", "write zero-sensor"),
        (START + "source: scanner, note: x}", 'unknown source "scanner"', 'did you mean "scan"?'),
        (START + "facts: {dp@idle: 3}}", "dp@idle was read in no round", "add `round: arrival`"),
        (START + "codes: {read: partial, list: []}}", "codes was read in no round", "add"),
        (START + "round: arrival}", "says nothing", "add one of"),
        (START + "outcome: {faults: [ash-ful]}}", 'unknown fault "ash-ful"', '"ash-full"?'),
        (START + "corrects: 1, note: x}", "which is itself", "leave `corrects` out"),
        (START + "corrects: 9, note: x}", "which does not exist", "leave `corrects` out"),
        ("{at: 2031-03-14T09:02, by: t, note: x}", "no offset", "2031-03-14T09:02+01:00"),
        ("{at: yesterday, by: t, note: x}", "no date and time", "2031-03-14T09:02+01:00"),
        ("{at: 2031-02-30T09:02Z, by: t, note: x}", "no day of the calendar", "write it like"),
        ("{at: 2031-02-28T09:02+99:00, by: t, note: x}", "no day", "write it like"),
    ],
)  # fmt: skip
def test_one_thing_wrong(entry: str, what: str, instead: str) -> None:
    """One thing wrong is one problem: located, quoted, with what would be right."""
    problem = the_problem(entry)
    assert what in problem.what
    assert instead in problem.instead
    assert (problem.place.file, problem.place.line) == ("a.yaml", 5)
    assert problem.line == f"- {entry}"


@pytest.mark.parametrize(
    ("second", "what", "instead"),
    [
        (START + "corrects: 3, note: x}", "which comes later", "1 to 1"),
        (START + "corrects: 1, work: wash}", "entry 1 has no work to correct", "leave"),
        (START + "corrects: 1, outcome: {faults: []}}", "has no outcome to correct", "leave"),
        (START + "corrects: 1, round: after, facts: {dp@idle: 2}}", "whose round is arrival",
         "leave `round` out"),
        (START + "corrects: 1, source: gauge, facts: {dp@idle: 2}}", "whose source is scan",
         "leave `source` out"),
    ],
)  # fmt: skip
def test_corrections_that_cannot_be(second: str, what: str, instead: str) -> None:
    """A correction must name an earlier entry of its own kind."""
    problem = the_problem(READING, second, START + "note: x}")
    assert what in problem.what
    assert instead in problem.instead
    assert problem.place.line == 6


@pytest.mark.parametrize(
    ("entry", "what"),
    [
        (READING, "entry 1 closed this case"),
        (START + "work: wash}", "entry 1 closed this case"),
        (ARRIVAL + "none: {dp@idle: cannot}}", "entry 1 closed this case"),
        (START + "outcome: {faults: []}}", "already gave the outcome"),
    ],
)
def test_closed_case_takes_no_more(entry: str, what: str) -> None:
    """After the outcome no reading, work or second outcome may follow."""
    assert what in the_problem(OUTCOME, entry).what


def test_notes_do_not_take_corrections_of_readings() -> None:
    """A reading cannot be smuggled in as the correction of a note."""
    assert (
        "no readings to correct"
        in the_problem(START + "note: x}", START + "corrects: 1, facts: {dp@idle: 3}}").what
    )


@pytest.mark.parametrize(
    ("text", "what"),
    [
        (HEADER + "  - {at: 2031-03-14T09:02+01:00, by: t, note: x}\n", "indented"),
        (HEADER + "- at: 2031-03-14T09:02+01:00\n  by: t\n  note: x\n", "not written on one line"),
        (HEADER + "- {at: 2031-03-14T09:02+01:00, by: t,\n  note: x}\n", "more than one line"),
        (HEADER + "- {at: 2031-03-14T09:02Z, by: t, note: x}\nstory: late\n", "after the entries"),
        (HEADER.rstrip() + " []\n", "beside `entries:`"),
    ],
)
def test_layout(text: str, what: str) -> None:
    """Entries stand last, unindented, one line each, or appending would break the file."""
    assert any(what in problem.what for problem in refused(text))


def test_other_format() -> None:
    """Another format is refused with what to do, and nothing else is said of it."""
    problems = refused(case_text("{rubbish: 1}", header=HEADER.replace("format: 1", "format: 2")))
    assert len(problems) == 1
    assert "format 2" in problems[0].what
    assert "version" in problems[0].instead


def test_unknown_limit_and_unit() -> None:
    """A vehicle's own limit must be known, in a unit of its kind."""
    header = HEADER.replace(
        "entries:", "limits: {soot-in-place-mx: 4, soot-in-place-max: 4 km}\nentries:"
    )
    first, second = refused(case_text(READING, header=header))
    assert 'did you mean "soot-in-place-max"?' in first.instead
    assert "km cannot be turned into g" in second.what


def test_all_problems_in_one_run() -> None:
    """Everything wrong is said at once, shape and meaning alike, in file order."""
    problems = refused(
        case_text(
            ARRIVAL + "facts: {dq@idle: 1, dp@idle: 9 km}}",
            "{by: tech-1, note: x}",
            START + "corrects: 7, note: x}",
            START + "note: x, surprise: 1}",
        )
    )
    assert [problem.place.line for problem in problems] == [5, 5, 6, 7, 8]


@pytest.mark.parametrize(
    "bad",
    ["facts: 3", "facts: [a]", "codes: {read: complete, list: 3}", "codes: x", "outcome: x",
     "outcome: {faults: x}", "none: []", "corrects: x, note: x", "work: [x]", "note: {a: b}",
     "facts: {dp@idle: [1]}", "facts: {dp@idle: {a: 1}}", "none: {dp@idle: [1]}",
     "outcome: {faults: [[x]]}", "round: [x], note: x", "at: [x]", "corrects: true, note: x"],
)  # fmt: skip
def test_wrong_shapes_are_refused(bad: str) -> None:
    """A node of the wrong shape is refused by the schema and trips nothing else."""
    assert refused(case_text("{by: t, round: a, " + bad + "}"))


@pytest.mark.parametrize("at", ["2031-03-14T09:02:33.25-05:30", "2031-03-14T09:02Z"])
def test_moments(at: str) -> None:
    """Seconds may be given, and Z stands for UTC."""
    assert case_with(f"{{at: {at}, by: t, note: x}}").entries[0].at.utcoffset() is not None


def test_time_may_run_backwards() -> None:
    """Things are written down late: an earlier moment in a later entry is right."""
    case = case_with(
        "{at: 2031-03-14T10:00Z, by: t, note: x}", "{at: 2031-03-14T09:00Z, by: t, note: y}"
    )
    assert case.entries[0].at > case.entries[1].at
