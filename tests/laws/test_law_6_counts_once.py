"""Law 6. One observation counts once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from sootsayer.casework.model import Case
from sootsayer.documents.problems import Refused
from sootsayer.engine.conditions import Value
from sootsayer.rulebook.compiled import Rulebook, load_rulebook
from sootsayer.rulebook.model import SignalKind
from sootsayer.rulebook.reads import evidence_targets, members_of
from tests.laws.demonstrations import A_FEW, closing_moment, demonstration, demonstrations
from tests.laws.making_cases import rulebook, slots_of
from tests.laws.outline import beliefs, outline


def silenced(book: Rulebook, spoken: dict[str, str]) -> Rulebook:
    """The rulebook with every family cut down to the member that spoke."""
    families = {
        name: replace(family, members=(spoken[name],)) if name in spoken else family
        for name, family in book.model.families.items()
    }
    gone = {m for family in book.model.families.values() for m in family.members}
    kept = {m for family in families.values() for m in family.members}
    evidence = {n: b for n, b in book.model.evidence.items() if n not in gone - kept}
    return replace(book, model=replace(book.model, families=families, evidence=evidence))


def only_the_speaker_counts(case: Case) -> None:
    """With the silent members of each family gone, every confidence is what it was."""
    at, book = closing_moment(case), rulebook()
    told = outline(case, at)
    kin = book.model.families
    spoken = {f.id: f.speaker for f in told.families if f.speaker and f.id in kin}
    alone = outline(case, at, silenced(book, spoken))
    assert beliefs(told) == beliefs(alone)


def _values(book: Rulebook, slot: str) -> Iterator[Value]:
    """Values of a slot on both sides of everything that a rule may compare it with."""
    signal = book.model.signals[slot.partition("@")[0]]
    if signal.kind is SignalKind.CHOICE:
        yield from signal.choices
    elif signal.kind is SignalKind.YES_NO:
        yield from (True, False)
    else:
        assert signal.possible is not None
        low, high = signal.possible
        near = {limit.default for limit in book.model.limits.values()}
        yield from sorted({low, high, 0.0} | {x for n in near for x in (n - 0.5, n, n + 0.5)})


def decided_by_one_reading(book: Rulebook) -> dict[str, set[str]]:
    """Each slot to the findings with evidence that it alone decides, where rules apply at all.

    Tried out on the engine: a warm engine first, since most rules apply to nothing else.
    """
    program = book.program
    limits = {name: limit.default for name, limit in book.model.limits.items()}
    warm: dict[str, Value] = {"coolant@idle": 88.0, "regeneration-status": "not running"}
    ids = [m for target in evidence_targets(book.model) for m in members_of(book.model, target)]
    decided = {n: v for n, v in program.run(warm, limits, only=ids).items() if n in ids}
    found: dict[str, set[str]] = {}
    slots = [slot for signal in book.model.signals.values() for slot in slots_of(signal)]
    for slot in slots:
        for value in _values(book, slot):
            told = program.run({**warm, slot: value}, limits, only=ids)
            new = {n for n in ids if told[n] is not None and decided[n] is None}
            found.setdefault(slot, set()).update(new)
    return found


def one_reading_speaks_once(book: Rulebook) -> None:
    """Findings that one reading decides are of one family, or say why they are apart."""
    model = book.model
    family_of = {m: t for t in evidence_targets(model) for m in members_of(model, t)}
    for slot, found in decided_by_one_reading(book).items():
        unsaid = {family_of[name] for name in found if not model.findings[name].apart_because}
        assert len(unsaid) <= 1, (slot, sorted(unsaid))


TWICE = """\
pack: twice
format: 1
title: One reading, twice
basis: {kind: memory}
signals:
  heat: {label: Heat, kind: number, unit: C, possible: [0, 900]}
findings:
  hot: {says: Hot, when: {heat: {above: 300}}, PROOFS}
  very-hot: {says: Very hot, when: {heat: {above: 500}}, PROOFSMORE}
FAMILYfaults:
  fire: {label: Fire, kind: condition, prior: rarely}
evidence:
EVIDENCE"""
PROOFS = (
    "proofs: [{given: {heat: 600}, then: true}, {given: {heat: 9}, then: false}, "
    "{given: {}, then: unknown}]"
)


def twice(more: str = "", *, family: bool = False) -> str:
    """A pack in which one reading decides two findings; `more` is written to one of them."""
    seen = "  - {finding: FINDING, seen with: {fire: often}, otherwise: rarely}\n"
    names = ["both"] if family else ["hot", "very-hot"]
    return (
        TWICE.replace("PROOFSMORE", f"{PROOFS}{more}")
        .replace("PROOFS", PROOFS)
        .replace("FAMILY", "families: {both: [very-hot, hot]}\n" if family else "")
        .replace("EVIDENCE", "".join(seen.replace("FINDING", name) for name in names))
    )


def counting_twice_is_refused(folder: Path) -> None:
    """A pack in which one reading speaks twice is refused, and the reading named."""
    folder.mkdir(exist_ok=True)
    (folder / "twice.yaml").write_text(twice(), "utf-8")
    try:
        load_rulebook([folder])
    except Refused as refused:
        whats = [problem.what for problem in refused.problems]
        assert any("heat" in what and "count twice" in what for what in whats), whats
    else:
        raise AssertionError("the pack was taken")


@pytest.mark.parametrize("name", A_FEW)
def test_only_the_speaker_of_a_family_moves_a_confidence(name: str) -> None:
    """With the silent members gone, every confidence is what it was."""
    only_the_speaker_counts(demonstration(name))


def test_some_family_has_silent_members() -> None:
    """The test above is about something: in some case two members of a family are known."""
    for case, at in demonstrations():
        levels = {f.id: f.level for f in outline(case, at).findings}
        for family in rulebook().model.families.values():
            if len([m for m in family.members if levels[m] is not None]) > 1:
                return
    pytest.fail("no demonstration case has a family with two known members")


def test_no_reading_is_behind_two_families_unsaid() -> None:
    """Of the shipped packs, tried out on the engine: no one reading speaks twice unexplained."""
    one_reading_speaks_once(rulebook())


def test_some_readings_decide_findings_alone() -> None:
    """The test above looks at something: most slots decide findings, some more than one."""
    found = decided_by_one_reading(rulebook())
    assert sum(1 for names in found.values() if names) > 15
    assert any(len(names) > 1 for names in found.values())


def test_one_reading_that_speaks_twice_is_refused(tmp_path: Path) -> None:
    """Lint refuses two findings with evidence that one reading decides."""
    counting_twice_is_refused(tmp_path)


@pytest.mark.parametrize(
    "text", [twice(", apart because: they see two things"), twice(family=True)]
)
def test_one_family_or_a_reason_is_accepted(text: str, tmp_path: Path) -> None:
    """The same two findings in one family, or with a reason, are taken."""
    (tmp_path / "twice.yaml").write_text(text, "utf-8")
    assert len(load_rulebook([tmp_path]).model.findings) == 2
