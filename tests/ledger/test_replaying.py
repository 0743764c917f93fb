"""Verdicts given again: the same bytes with the rulebook of that day, and what differs today."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict_json import as_json
from sootsayer.ledger.adding import add
from sootsayer.ledger.canonical import canonical
from sootsayer.ledger.changes import changes
from sootsayer.ledger.folder import ledger_in
from sootsayer.ledger.gathering import Sources, gather
from sootsayer.ledger.keeping import give, verdict_body
from sootsayer.ledger.kept import keep_texts, path_of
from sootsayer.ledger.parts import part
from sootsayer.ledger.reading import find
from sootsayer.ledger.rebuilding import case_again, rebuild
from sootsayer.ledger.replay_model import Again, Of, Why
from sootsayer.ledger.replaying import replay
from sootsayer.ledger.today import with_todays
from sootsayer.rulebook.shipped import shipped_cases
from tests.laws.demonstrations import NAMES, closing_moment, demonstration
from tests.ledger.books import AT, CASE, book, kept


def made_by(folder: Path, then: Sources, now: Sources) -> dict[tuple[Of, str], tuple[str, ...]]:
    """Each difference with the ids of what makes it so."""
    ledger, record = kept(folder, then)
    today = with_todays(ledger, record, rebuild(now))
    assert today.cannot == ""
    return {(d.of, d.id): tuple(f"{c.section} {c.id}" for c in made) for d, made in today.found}


@pytest.mark.parametrize("name", NAMES)
def test_every_demonstration_case_byte_for_byte(name: str, tmp_path: Path) -> None:
    """Kept with the shipped rulebook and given again from the kept texts alone: the same bytes."""
    data = (shipped_cases() / f"{name}.yaml").read_bytes()
    sources = gather(None, "en")
    now = closing_moment(demonstration(name))
    given = give(data, name, rebuild(sources), sources, now=now, as_of=None, patterns=())
    ledger = ledger_in(tmp_path)
    keep_texts(ledger, sources.all())
    add(ledger, verdict_body(given, at=AT, by="tech-1", decided=None))
    record = find(ledger, "1")
    told = replay(ledger, record)
    assert told.again is Again.SAME
    assert told.told is not None
    assert canonical(told.told) == canonical(part(record.body, "verdict"))
    today = with_todays(ledger, record, rebuild(gather(None, "en")))
    assert (today.changed, today.found) == (0, ())


@pytest.mark.parametrize("as_of", [0, 1, 3, 6])
def test_an_earlier_state_is_kept_without_what_came_later(as_of: int) -> None:
    """The verdict as of an entry is that on the kept text, which ends with that entry."""
    name = NAMES[0]
    data = (shipped_cases() / f"{name}.yaml").read_bytes()
    sources = gather(None, "en")
    rebuilt = rebuild(sources)
    case = demonstration(name)
    now = case.entries[as_of].at
    given = give(data, name, rebuilt, sources, now=now, as_of=as_of, patterns=())
    assert given.text == data[: len(given.text)]
    assert len(case_again(given.text, rebuilt, name).entries) == as_of
    plain = judge(case, rebuilt.rulebook, now=now, as_of=as_of, planning=True)
    assert canonical(given.told) == canonical(as_json(plain))


def test_a_changed_verdict_differs(tmp_path: Path) -> None:
    """A record that says what its rulebook never said is not given again; the program is the
    same, so it is no matter of versions."""
    ledger, record = kept(tmp_path)
    told = {**part(record.body, "verdict"), "left_out": 0.25}
    add(ledger, {**record.body, "verdict": told})
    assert replay(ledger, find(ledger, "1")).again is Again.SAME
    assert replay(ledger, find(ledger, "2")).again is Again.DIFFERS


def test_another_version_that_reckons_otherwise_is_named(tmp_path: Path) -> None:
    """What another version gave and this one gives otherwise is not replayable here; what it gives
    alike is the same, whatever its version."""
    ledger, record = kept(tmp_path)
    old = {**part(record.body, "verdict"), "program": "0.0.1"}
    add(ledger, {**record.body, "program": "0.0.1", "verdict": old})
    add(ledger, {**record.body, "program": "0.0.1", "verdict": {**old, "left_out": 0.25}})
    assert replay(ledger, find(ledger, "2")).again is Again.SAME
    told = replay(ledger, find(ledger, "3"))
    assert (told.again, told.why, told.detail) == (Again.NOT_REPLAYABLE, Why.PROGRAM, "0.0.1")


def _without_text(body: dict[str, Any]) -> dict[str, Any]:
    return {**body, "rulebook": {**body["rulebook"], "packs": {"book.yaml": "0" * 64}}}


def _with_case(text: str) -> Any:
    return lambda body: {**body, "case": {**body["case"], "text": text}}


@pytest.mark.parametrize(
    ("broken", "why"),
    [
        (_without_text, Why.TEXT_LOST),
        (_with_case(CASE.replace("soot: 20 g", "zoot: 20 g")), Why.CASE_REFUSED),
        (_with_case(CASE.replace("format: 1", "format: 9")), Why.CASE_REFUSED),
        (_with_case("no case"), Why.CASE_REFUSED),
        (lambda b: {**b, "judged_at": "soon"}, Why.FAILED),
        (lambda b: {**b, "rulebook": {"packs": {"../x.yaml": b["rulebook"]["packs"]["book.yaml"]}}},
         Why.FAILED),
        (lambda b: {**b, "rulebook": {"packs": {"x.yaml": b["rulebook"]["packs"]["book.yaml"]}}},
         Why.RULEBOOK_REFUSED),
        (lambda _: {"kind": "verdict"}, Why.RULEBOOK_REFUSED),
    ],
)  # fmt: skip
def test_what_cannot_be_replayed_says_why(broken: Any, why: Why, tmp_path: Path) -> None:
    """A text that is gone, a rulebook or a case that this version cannot read: a reason each."""
    ledger, record = kept(tmp_path)
    add(ledger, broken(record.body))
    told = replay(ledger, find(ledger, "2"))
    assert (told.again, told.why) == (Again.NOT_REPLAYABLE, why)


def test_a_kept_text_that_was_changed_is_not_used(tmp_path: Path) -> None:
    """A text that is not what its digest says is as good as gone."""
    ledger, record = kept(tmp_path)
    digest = record.body["rulebook"]["packs"]["book.yaml"]
    path_of(ledger, digest).write_text("pack: other\n")
    assert replay(ledger, record).why is Why.TEXT_LOST


def test_a_limit_that_changed_is_named(tmp_path: Path) -> None:
    """The one number that makes all of it otherwise is found."""
    found = made_by(tmp_path, book(), book(("5 mbar", "9 mbar")))
    assert {of for of, _ in found} >= {Of.CONFIDENCE, Of.FINDING, Of.LIMIT}
    assert set(found.values()) == {("limits dp-max",)}


def test_each_change_makes_its_own_difference(tmp_path: Path) -> None:
    """Of three changes each is held to what it does: a prior, a rule of driving, and one that
    does nothing here."""
    now = book(("prior: 10 of 100", "prior: 30 of 100"), ("default: 22 g", "default: 12 g"),
               ("minutes: 2", "minutes: 3"))  # fmt: skip
    found = made_by(tmp_path, book(), now)
    assert found[Of.CONFIDENCE, "offset"] == ("faults offset",)
    assert found[Of.PERMISSION, "drive-on"] == ("limits soot-max",)
    assert found[Of.DRIVE, "drive-on"] == ("limits soot-max",)
    assert found[Of.LIMIT, "soot-max"] == ("limits soot-max",)
    assert "checks read" in {f"{c.section} {c.id}" for c in changes(rebuild(book()), rebuild(now))}


def test_what_only_several_changes_do_is_told_so(tmp_path: Path) -> None:
    """Where no change does it alone, none is accused."""
    case = "limits:\n  dp-max: {label: Highest pressure, default: 5 mbar}\n"
    now = book((case, case + "  dp-more: {label: More, default: 10 mbar}\n"),
               ("{dp@rest: {above: dp-max}}", "{dp@rest: {above: dp-more}}"))  # fmt: skip
    found = made_by(tmp_path, book(), now)
    assert found[Of.FINDING, "dp-high"] == ()
    assert found[Of.CONFIDENCE, "offset"] == ()


def test_a_setting_of_the_shop_is_named(tmp_path: Path) -> None:
    """A limit of the shop's own, that was not there then, is what makes it so."""
    shop = b"format: 1\nlimits:\n  dp-max: {value: 9 mbar, source: own}\n"
    found = made_by(tmp_path, book(), book(settings=shop))
    assert found[Of.FINDING, "dp-high"] == ("shop limits dp-max",)


def test_a_settings_file_is_used_again(tmp_path: Path) -> None:
    """A shop's limit of that day counts in the replay, without the shop's folder."""
    shop = b"format: 1\nlimits:\n  dp-max: {value: 9 mbar, source: own}\n"
    ledger, record = kept(tmp_path, book(settings=shop))
    assert replay(ledger, record).again is Again.SAME
    found = {f["id"]: f["level"] for f in record.body["verdict"]["findings"]}
    assert found["dp-high"] == "false"


def test_a_case_that_todays_rulebook_cannot_read_is_told(tmp_path: Path) -> None:
    """A signal that is gone: today's rulebook judges nothing, and says which."""
    ledger, record = kept(tmp_path)
    other = book(("soot: {label", "mass: {label"), ("soot]", "mass]"),
                 ("{soot: {at", "{mass: {at"), ("given: {soot: 3}", "given: {mass: 3}"),
                 ("{soot: 90}", "{mass: 90}"))  # fmt: skip
    today = with_todays(ledger, record, rebuild(other))
    assert "soot" in today.cannot


def test_the_moment_is_kept(tmp_path: Path) -> None:
    """What was too old then is too old in the replay, whenever that is made."""
    sources = book()
    late = AT + timedelta(hours=3)
    given = give(CASE.encode(), "x", rebuild(sources), sources, now=late, as_of=None, patterns=())
    ledger = ledger_in(tmp_path)
    keep_texts(ledger, sources.all())
    add(ledger, verdict_body(given, at=late, by="tech-1", decided=None))
    record = find(ledger, "1")
    assert record.body["verdict"]["permissions"][0]["state"] == "not-yet-clear"
    assert replay(ledger, record).again is Again.SAME
