"""Which files are closed cases, as of which entry, and why others are left out."""

from __future__ import annotations

import pytest

from sootsayer.learning.archive.closed import Closed, Left, LeftOut, closed_of, parsed
from tests.learning.archive.support import HEALTHY, case_text, small

WORK = "- {at: 2031-03-14T11:00+01:00, by: tech-1, work: mend-sensor}"
AFTER = (
    "- {at: 2031-03-14T12:00+01:00, by: tech-1, round: after, source: scan, facts: {dp@rest: 0}}"
)


def read(text: str | bytes, *, synthetic: bool = False) -> Closed | LeftOut:
    document = parsed(text.encode() if isinstance(text, str) else text, "a.yaml")
    if isinstance(document, LeftOut):
        return document
    return closed_of(document, small().model, synthetic=synthetic)


def closed(text: str) -> Closed:
    found = read(text)
    assert isinstance(found, Closed), found
    return found


def left(text: str | bytes) -> Left:
    found = read(text)
    assert isinstance(found, LeftOut), found
    return found.why


def test_as_of_the_entry_before_the_outcome() -> None:
    """The last entry at which everything that was found in the end had been entered."""
    found = closed(case_text("a", HEALTHY, ["blocked"]))
    assert (found.as_of, found.at) == (2, found.case.entries[1].at)
    assert found.outcome.faults == ("blocked",)


def test_as_of_before_the_cure() -> None:
    """What was mended is not there any more: the case counts as it stood before the work that
    cured it, and other work does not matter."""
    text = case_text("a", HEALTHY, ["sensor-stuck"], WORK, AFTER)
    assert closed(text).as_of == 4
    cured = text.replace("proved by: looked", "cured by: [mend-sensor], proved by: looked")
    assert closed(cured).as_of == 2


def test_a_corrected_outcome() -> None:
    """The last word on the outcome counts."""
    again = "- {at: 2031-03-15T09:00+01:00, by: tech-1, corrects: 3, outcome: {faults: []}}\n"
    assert closed(case_text("a", HEALTHY, ["blocked"]) + again).outcome.faults == ()


@pytest.mark.parametrize(
    ("text", "why"),
    [
        (case_text("a", HEALTHY, None), Left.OPEN),
        (case_text("synthetic-1", HEALTHY, []), Left.SYNTHETIC),
        ("case: [", Left.BROKEN),
        (b"\xff\xfe\x00", Left.BROKEN),
        (b"", Left.BROKEN),
        ("pack: small\nformat: 1\n", Left.BROKEN),
        ("- a\n- b\n", Left.BROKEN),
        (case_text("a", HEALTHY, ["no-such-fault"]), Left.UNKNOWN_FAULT),
        (case_text("a", (*HEALTHY, "gone-signal: 4"), []), Left.OTHER_RULEBOOK),
        (case_text("a", (*HEALTHY, "dp@3000: 4"), []), Left.OTHER_RULEBOOK),
        (case_text("a", (*HEALTHY, "dp: 4"), []), Left.OTHER_RULEBOOK),
        (case_text("a", (*HEALTHY, "oil: over full"), []), Left.OTHER_RULEBOOK),
        (case_text("a", (*HEALTHY, "dp@idle: 4 parsec"), []), Left.BROKEN),
        (case_text("a", (), []), Left.NOT_JUDGED),
        (case_text("a", HEALTHY, None) + "- {at: 2031-03-14T17:00+01:00, outco", Left.HALF_WRITTEN),
        (case_text("a", HEALTHY, []).replace("format: 1", "format: 9"), Left.BROKEN),
    ],
)
def test_left_out(text: str | bytes, why: Left) -> None:
    """Each kind of file that is no closed case of this rulebook, by the wording of the reader."""
    assert left(text) is why


def test_half_written_after_the_outcome() -> None:
    """A note that tore behind the outcome takes nothing from the case."""
    found = closed(case_text("a", HEALTHY, []) + "- {at: 2031-03-15T")
    assert found.case.torn is not None


def test_drawn_cases_only_when_told() -> None:
    """A synthetic case is taken in by a word of its own."""
    assert isinstance(read(case_text("synthetic-1", HEALTHY, []), synthetic=True), Closed)
