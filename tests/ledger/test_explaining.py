"""The page for an assessor: what was known when, and nothing that was learned later."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from sootsayer.casework.append import entry_line
from sootsayer.casework.model import Outcome
from sootsayer.ledger.adding import add
from sootsayer.ledger.explaining import explain
from sootsayer.ledger.folder import Ledger
from sootsayer.ledger.kept import path_of
from sootsayer.ledger.model import Record
from sootsayer.ledger.outcome import Confirmed, outcome_body
from sootsayer.ledger.reading import find, outcomes_of
from sootsayer.ledger.rebuilding import case_again, rebuild
from sootsayer.ledger.replay_model import Why
from sootsayer.ledger.replaying import replay
from sootsayer.report.assessor_page import Assessed, assessor_page
from sootsayer.report.plain_page import plain_page
from tests.ledger.books import AT, CASE, book, kept

LATER = "What was done, and what came of it"


def page(ledger: Ledger, record: Record) -> str:
    of = Assessed(
        record, explain(ledger, record), replay(ledger, record), outcomes_of(ledger, record)
    )
    return plain_page([assessor_page(of)])


def test_each_answer_with_what_it_did(tmp_path: Path) -> None:
    """The reading that accuses moves the confidence from the prior to the posterior (of the record
    itself), the one that permits opens the action, and the page says both."""
    ledger, record = kept(tmp_path)
    steps = explain(ledger, record).steps
    assert [step.entry.number for step in steps] == [1, 2]
    (moved,) = steps[0].moved
    posterior = record.body["verdict"]["faults"][0]["confidence"]
    assert (moved.fault, moved.before, moved.after) == ("offset", 0.1, posterior)
    assert [(a.slot, a.moved) for a in steps[0].answers] == [("dp@rest", (moved,))]
    assert steps[1].moved == ()
    assert steps[1].permissions == (("drive-on", "not-yet-clear", "clear"),)
    told = page(ledger, record)
    assert "Pressure, at rest: 8 mbar. Offset 10 %, then " in told
    assert "Soot: 20 g" in told
    assert "Drive: not yet clear, then clear" in told
    assert "byte for" in told


def test_two_answers_of_one_entry_are_told_apart(tmp_path: Path) -> None:
    """Of one entry with two readings each has what it did by itself."""
    case = CASE.splitlines(keepends=True)
    both = case[5].replace("8 mbar", "8 mbar, soot: 20 g")
    ledger, record = kept(tmp_path, case="".join([*case[:5], both]))
    (step,) = explain(ledger, record).steps
    assert [(a.slot, bool(a.moved)) for a in step.answers] == [("dp@rest", True), ("soot", False)]


def test_nothing_learned_later_leaks_in(tmp_path: Path) -> None:
    """The record of a case that later grew and was closed: but for the part that says so, the page
    is what it was, and that part is last."""
    ledger, record = kept(tmp_path)
    before = page(ledger, record)
    later = AT + timedelta(days=1)
    outcome = Outcome(("offset",), ("new-sensor",), "recheck")
    text = CASE + "".join(
        f"{line}\n"
        for line in (
            entry_line(at=later, by="tech-2", note="it was the sensor all along"),
            entry_line(at=later, by="tech-2", work="new-sensor"),
            entry_line(at=later, by="tech-2", outcome=outcome),
        )
    )
    kept(tmp_path, case=text)
    case = case_again(text.encode(), rebuild(book()), "x")
    add(ledger, outcome_body(record, case, Confirmed(outcome, 5), at=later, by="tech-2"))
    after = page(ledger, find(ledger, "1"))
    assert "all along" not in after
    assert before.split(LATER)[0] == after.split(LATER)[0]
    came = after.split(LATER)[1]
    assert "No outcome was recorded" in before.split(LATER)[1]
    for part in ("Record 3", "confirmed Offset", "Cured by new-sensor", "recheck", "Work done"):
        assert part in came
    assert came.split("What this page rests on")[1] == before.split("What this page rests on")[1]


def test_the_rulebook_of_that_day_is_used(tmp_path: Path) -> None:
    """Two records of one case under two rulebooks: each page has the numbers of its own day."""
    ledger, first = kept(tmp_path)
    _, second = kept(tmp_path, book(("prior: 10 of 100", "prior: 30 of 100")))
    assert "Offset 10 %, then" in page(ledger, first)
    assert "Offset 30 %, then" in page(ledger, second)


def test_what_was_decided_is_told(tmp_path: Path) -> None:
    """As advised, otherwise and why, or not asked: three different things."""
    otherwise = [{"what": "sensor replaced at once", "why": "none in stock to test"}]
    for decided, said in (
        ([], "As advised."),
        (None, "That was not asked."),
        (otherwise, "sensor replaced at once. Why: none in stock to test"),
    ):
        ledger, record = kept(tmp_path, decided=decided)
        assert said in page(ledger, record)


def test_without_its_rulebook_the_page_tells_what_was_kept(tmp_path: Path) -> None:
    """Where the way cannot be gone again the page says why, and what was advised all the same."""
    ledger, record = kept(tmp_path)
    path_of(ledger, record.body["rulebook"]["packs"]["book.yaml"]).unlink()
    found = explain(ledger, record)
    assert found.why is Why.TEXT_LOST
    told = page(ledger, record)
    assert "cannot be judged again entry by entry" in told
    assert "- Measurement: no fault of this kind" in told
    assert "Not too much soot (Soot 20 g, entry 2)" in told
    assert "Gently" in told
