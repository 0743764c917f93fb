"""What a pack would have changed, on cases few enough to be looked through by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.belief.network import Kind
from sootsayer.learning.archive.closed import Left
from sootsayer.learning.archive.running import replayed
from sootsayer.learning.archive.shelf import LocalShelf
from sootsayer.learning.backtest.changes import How, changes
from sootsayer.learning.backtest.tally import BacktestTally, tallied
from sootsayer.learning.backtest.task import BacktestTask
from tests.learning.archive.support import (
    BLOCKED,
    HEALTHY,
    case_text,
    edited,
    put,
    small_texts,
    some_archive,
    tried,
)

PRIOR = "Filter blocked, kind: condition, prior: "
HIGH = (PRIOR + "0.1", PRIOR + "0.999")
SOOT = ("default: 22 g", "default: 44 g")
EARLY = "- {at: 2031-03-14T11:00+01:00, by: tech-1, round: again, source: scan, facts: {soot: 4}}"
THREE_FEWER = ("needs: [oil-good, soot-low, not-too-full]", "needs: [oil-good, not-too-full]")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return some_archive(tmp_path)


def run(folder: Path, task: BacktestTask) -> BacktestTally:
    return tallied(replayed(task, LocalShelf(folder)))


def moves(tally: BacktestTally) -> dict[tuple[str, str, str], list[str]]:
    return {move: each.cases for move, each in tally.looser.items()}


def test_a_pack_that_changes_nothing(folder: Path) -> None:
    """No verdict, number or permission differs; a comment, a label and another order of keys are
    no change."""
    (text,) = small_texts()
    same = edited(
        ("label: Filter blocked", "label: The filter"), ("pack: small", "# a\npack: small")
    )
    tally = run(folder, BacktestTask(small_texts(), same))
    assert tally.archive.replayed == 7
    assert (tally.changed.count, tally.moved_numbers, tally.loosened) == (0, 0, ())
    assert tally.squared_before == tally.squared_after
    assert not tally.rules
    assert not tally.stricter
    assert text in small_texts()


def test_a_permission_that_becomes_looser(folder: Path) -> None:
    """Twice as much soot allowed: what was forbidden is clear now, in the three cases with soot."""
    tally = run(folder, tried(SOOT))
    sooty = ["case-2", "case-4", "case-3"]  # in the order of the files
    assert moves(tally) == {
        ("burn", "blocked", "clear"): sooty,
        ("drive-on", "workshop-only", "may-be-driven"): sooty,
    }
    assert tally.loosened == ("burn", "drive-on")
    assert dict(tally.rules) == {"soot-max": 3}
    assert not tally.stricter


def test_the_same_turned_round_is_stricter(folder: Path) -> None:
    """What loosens one way tightens the other."""
    before, after = small_texts(), edited(SOOT)
    tally = run(folder, BacktestTask(after, before))
    assert not tally.looser
    assert set(tally.stricter) == {
        ("burn", "clear", "blocked"),
        ("drive-on", "may-be-driven", "workshop-only"),
    }


def test_an_interlock_that_is_not_needed_any_more(folder: Path) -> None:
    """The action itself is named as the rule that changed."""
    tally = run(folder, tried(THREE_FEWER))
    assert list(moves(tally)) == [("burn", "blocked", "clear")]
    assert dict(tally.rules) == {"burn": 3}


def test_unknown_after_forbidden_is_looser(folder: Path) -> None:
    """A danger that is only unknown with the pack was known without it."""
    unread = "dp@rest: {above: 0}, heat@idle: {above: 0}"
    tally = run(folder, tried(("soot: {below: soot-max}", unread)))
    found = set(tally.looser)
    assert ("burn", "blocked", "not-yet-clear") in found
    assert ("drive-on", "workshop-only", "may-be-driven") in found


def test_every_entry(tmp_path: Path) -> None:
    """Where the last reading hides it, only looking at each entry shows what became looser."""
    put(tmp_path, "a.yaml", case_text("a", BLOCKED, ["blocked"], EARLY))
    assert run(tmp_path, tried(SOOT)).loosened == ()
    tally = run(tmp_path, tried(SOOT, every_entry=True))
    assert tally.loosened == ("burn", "drive-on")
    assert tally.changed.count == 1


def test_better_and_worse(folder: Path) -> None:
    """A prior so high that a blocked filter always leads: the one that was missed is found, and
    the sound ones are accused."""
    tally = run(folder, tried(HIGH, ("leads to: {blocked: 0.5}", "leads to: {blocked: 0.9995}")))
    kind = tally.kinds[Kind.CONDITION]
    assert (kind.right_before, kind.right_after) == (6, 4)
    assert kind.better.cases == ["case-6"]
    assert sorted(kind.worse.cases) == ["case-0", "case-1", "case-5"]
    assert tally.squared_after > tally.squared_before
    assert "blocked" in tally.rules
    assert tally.led_otherwise.count == 4


def test_questions_only_when_wanted(folder: Path) -> None:
    """Another check asked first is counted, unless that is left out."""
    cheap = "ask: {does: Ask, where: counter, minutes: 1"
    dearer = (cheap, cheap + "99")
    put(folder, "x.yaml", case_text("x", ("oil: good",), ["blocked"]))
    asked, unasked = (run(folder, tried(dearer, questions=q)) for q in (True, False))
    assert asked.asked_otherwise.cases == ["x"]
    assert dict(asked.rules) == {"ask": 1}
    assert unasked.changed.count == 0


def test_a_case_that_only_one_rulebook_can_read(folder: Path) -> None:
    """A new signal or a gone one: such cases are counted and named, not judged by one alone."""
    put(folder, "x.yaml", case_text("x", (*HEALTHY, "smoke: black"), []))
    trip = "  trip: {label: Trip,"
    smoke = "  smoke: {label: Smoke, kind: choice, choices: [black, no]}\n"
    tally = run(folder, tried((trip, smoke + trip)))
    assert tally.archive.left == {Left.OTHER_RULEBOOK: 1}
    assert tally.archive.named[0].name == "x.yaml"


def test_a_verdict_that_cannot_be_reached(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A fault of ours in one case is named, and ends nothing."""

    def broken(*_: object, **__: object) -> None:
        raise ValueError("no such thing")

    monkeypatch.setattr("sootsayer.learning.backtest.task.briefs", broken)
    tally = run(folder, tried(SOOT))
    assert tally.archive.left == {Left.NOT_JUDGED: 7}
    assert tally.archive.named[0].detail == "ValueError: no such thing"


def test_which_rules_differ() -> None:
    """By part and name, with how; a link by both its ends."""
    task = tried(
        SOOT,
        ("seen with: {sensor-offset: 0.9}, otherwise: 0.02", "seen with: {blocked: 0.3}, "
         "otherwise: 0.03"),
    )  # fmt: skip
    worker = task.worker()
    found = {(each.part, each.name, each.how) for each in worker.changed}
    assert found == {
        ("limits", "soot-max", How.CHANGED),
        ("links", "not-zero: otherwise", How.CHANGED),
        ("links", "not-zero: sensor-offset", How.GONE),
        ("links", "not-zero: blocked", How.NEW),
    }
    assert changes(worker.before.model, worker.before.model) == ()
