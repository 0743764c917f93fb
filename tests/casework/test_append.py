"""Entries as lines, and what a broken-off line does."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from sootsayer.casework.append import append_entries, append_entry, entry_line, line_of
from sootsayer.casework.case_file import read_case
from sootsayer.casework.model import Absence, CodeList, Entry, Outcome, Source
from sootsayer.documents.characters import FORBIDDEN
from sootsayer.documents.nodes import Place
from sootsayer.documents.writing import Changed
from tests.casework.small_model import ARRIVAL, HEADER, START, case_text
from tests.casework.support import MODEL, case_from

AT = datetime(2031, 3, 14, 9, 2, tzinfo=UTC)
NOWHERE = Place("", 0, 0)
HOSTILE = [
    "}", "- {at: x}", 'a "b" \\ c', "a: b", "a #b", "'", "", " ", "yes", "null", "~", "1.5", "0,05",
    "\n- {", "é€😀", "\x1b[2J", "\u202e", "*a", "&a", "!a", "%a", "@a", "`a", "[a", "a,b", "- a",
    "---", "...", "? a", "a\tb", "\x85", "\ufeff", "\u2028", "<<", "true", "9" * 50,
]  # fmt: skip


def read_back(*lines: str) -> Entry:
    """The last entry of a case with these lines."""
    return case_from(HEADER + "".join(f"{line}\n" for line in lines)).entries[-1]


def placeless(entry: Entry) -> Entry:
    """The entry without its places."""
    said = tuple(replace(one, place=NOWHERE) for one in entry.said)
    codes = replace(entry.codes, place=NOWHERE) if entry.codes else None
    return replace(entry, said=said, codes=codes, place=NOWHERE)


@given(st.text(min_size=1, max_size=60))
@settings(deadline=None, max_examples=60)
def test_any_note_reads_back(note: str) -> None:
    """A note is read back as written, but for characters that no file may hold."""
    line = entry_line(at=AT, by="tech-1", note=note)
    assert "\n" not in line
    assert read_back(line).note == FORBIDDEN.sub(" ", note)


@pytest.mark.parametrize("note", [note for note in HOSTILE if note])
def test_hostile_notes(note: str) -> None:
    """Text that means something to YAML or to a screen stays text."""
    line = entry_line(at=AT, by="tech-1", note=note, round="arrival")
    entry = read_back(line)
    assert (entry.note, entry.round) == (FORBIDDEN.sub(" ", note), "arrival")
    assert line.isprintable()


MOMENTS = st.builds(
    lambda at, minutes: at.replace(tzinfo=timezone(timedelta(minutes=minutes))),
    st.datetimes(datetime(1990, 1, 1), datetime(2090, 1, 1)),
    st.integers(-14 * 60, 14 * 60),
)
IDS = st.from_regex(r"[a-z0-9]{1,5}(-[a-z0-9]{1,5}){0,2}", fullmatch=True)
FACTS = st.dictionaries(
    st.sampled_from(["dp@rest", "dp@idle", "dp@2500"]),
    st.sampled_from(["18 hPa", "24", "-3", "+5", "0,9 psi", "0.90", ".5", "007", "2 kPa", "12.5"]),
    min_size=1,
)
WORDS = st.sampled_from(
    [{"power-loss": "none"}, {"power-loss": "gradual"}, {"oil-smells-of-fuel": "yes"},
     {"oil-smells-of-fuel": "false"}, {"egt@idle": "212 °F"}]
)  # fmt: skip
NONE = st.dictionaries(
    st.sampled_from(["air@rest", "air@idle", "soot-shown"]), st.sampled_from(Absence), max_size=3
)
CODES = st.none() | st.builds(
    CodeList,
    complete=st.booleans(),
    codes=st.lists(st.from_regex(r"[PBCU][0-9A-F]{4}", fullmatch=True), unique=True).map(
        lambda codes: tuple(sorted(codes))
    ),
    place=st.just(NOWHERE),
    monitors_run=st.none() | st.booleans(),
    distance_km=st.none() | st.floats(0, 1_000_000).map(lambda km: round(km, 6) + 0.0),
    warm_ups=st.none() | st.integers(0, 1000),
)
OUTCOMES = st.none() | st.builds(
    Outcome,
    faults=st.lists(st.sampled_from(["ash-full", "sensor-offset"])).map(tuple),
    cured_by=st.lists(IDS).map(tuple),
    proved_by=st.text(max_size=20).filter(lambda text: not FORBIDDEN.search(text)),
)


@given(MOMENTS, IDS, IDS, st.sampled_from(Source), FACTS, WORDS, NONE, CODES, OUTCOMES, IDS)
@settings(deadline=None, max_examples=50)
@example(AT, "1", "null", Source.SCAN, {"dp@idle": "24"}, {}, {}, None, None, "007")
def test_an_entry_reads_back(
    at: datetime, by: str, round_name: str, source: Source, facts: dict[str, str],
    words: dict[str, str], none: dict[str, Absence], codes: CodeList | None,
    outcome: Outcome | None, work: str,
) -> None:  # fmt: skip
    """What was written is what is read, and its line written again is the same entry."""
    line = entry_line(
        at=at, by=by, round=round_name, source=source, facts={**facts, **words}, none=none,
        codes=codes, work=work, outcome=outcome,
    )  # fmt: skip
    entry = placeless(read_back(line))
    assert (entry.at, entry.at.utcoffset(), entry.by) == (at, at.utcoffset(), by)
    assert (entry.round, entry.source, entry.work) == (round_name, source, work)
    assert {one.slot: one.typed for one in entry.said if one.absence is None} == {**facts, **words}
    assert {one.slot: one.absence for one in entry.said if one.absence} == none
    assert (entry.codes, entry.outcome) == (codes, outcome)
    assert placeless(read_back(line_of(entry))) == entry


def test_a_correction_reads_back() -> None:
    """The line of a correction names neither round nor source."""
    first = entry_line(at=AT, by="t", round="arrival", source=Source.SCAN, facts={"dp@idle": "2"})
    second = entry_line(at=AT, by="t", corrects=1, facts={"dp@idle": "3"})
    entry = read_back(first, second)
    assert line_of(entry) == second
    assert (entry.round, entry.source) == ("arrival", Source.SCAN)


def test_no_offset() -> None:
    """A moment without offset from UTC is not written."""
    with pytest.raises(ValueError, match="offset"):
        entry_line(at=datetime(2031, 3, 14), by="t", note="x")


@pytest.mark.parametrize("line", ["", "note", "- {a: 1}\n- {b: 1}", "- {a: 1", "- a: 1"])
def test_only_one_line_is_appended(tmp_path: Path, line: str) -> None:
    """Anything but one flow mapping is not appended, and the file stays as it was."""
    path = tmp_path / "a.yaml"
    path.write_text(HEADER)
    with pytest.raises(ValueError, match="one line"):
        append_entry(path, line)
    assert path.read_text() == HEADER


def test_torn_at_each_byte(tmp_path: Path) -> None:
    """Wherever the last line broke off, the entries before it stand and the next one follows."""
    whole = case_text(ARRIVAL + "facts: {dp@idle: 24}}").encode()
    last = (f"- {START}" + 'note: "é: {a, b} # c"}').encode()
    following = entry_line(at=AT, by="t", note="next")
    for length in range(len(last) + 1):
        path = tmp_path / f"{length}.yaml"
        path.write_bytes(whole + last[:length])
        case = read_case(path, MODEL)
        complete = length == len(last)
        assert len(case.entries) == (2 if complete else 1)
        assert (case.torn is None) == (complete or length == 0)
        append_entry(path, following)
        case = read_case(path, MODEL)
        assert case.entries[-1].note == "next"
        assert len(case.entries) == (3 if complete else 2)
        assert case.torn is None


def test_torn_first_entry_at_each_byte(tmp_path: Path) -> None:
    """The first entry may break off too, and nothing of the header is lost."""
    last = f"- {START}note: x}}".encode()
    path = tmp_path / "a.yaml"
    for length in range(len(last)):
        path.write_bytes(HEADER.encode() + last[:length])
        assert read_case(path, MODEL).entries == ()
        append_entry(path, last.decode())
        assert len(read_case(path, MODEL).entries) == 1


def test_nothing_is_appended_to_a_case_that_has_changed(tmp_path: Path) -> None:
    """With what was read before, an entry goes only behind that; else nothing is written."""
    path = tmp_path / "x.yaml"
    path.write_bytes(b"case: x\nformat: 1\nvehicle: {label: van}\nentries:\n")
    was = path.read_bytes()
    line = "- {at: 2031-03-14T09:02+01:00, by: tech-1, note: a}"
    append_entries(path, [line], was=was)
    now = path.read_bytes()
    assert now == was + f"{line}\n".encode()
    with pytest.raises(Changed):
        append_entries(path, [line], was=was)
    assert path.read_bytes() == now
