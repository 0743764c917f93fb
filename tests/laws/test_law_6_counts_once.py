"""Law 6. One observation counts once."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sootsayer.judgement.judge import judge
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.reads import evidence_targets, facts_behind, members_of
from tests.laws.demonstrations import NAMES, closing_moment, demonstration
from tests.laws.making_cases import rulebook


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


@pytest.mark.parametrize("name", NAMES)
def test_only_the_speaker_of_a_family_moves_a_confidence(name: str) -> None:
    """With the silent members gone, every confidence is what it was."""
    case, book = demonstration(name), rulebook()
    at = closing_moment(case)
    verdict = judge(case, book, now=at)
    kin = book.model.families
    spoken = {f.id: f.speaker for f in verdict.families if f.speaker and f.id in kin}
    alone = judge(case, silenced(book, spoken), now=at)
    assert {f.id: f.confidence for f in verdict.faults} == {
        f.id: f.confidence for f in alone.faults
    }


def test_some_family_has_silent_members() -> None:
    """The test above is about something: in some case two members of a family are known."""
    for name in NAMES:
        case = demonstration(name)
        verdict = judge(case, rulebook(), now=closing_moment(case))
        levels = {f.id: f.level for f in verdict.findings}
        for family in rulebook().model.families.values():
            if len([m for m in family.members if levels[m] is not None]) > 1:
                return
    pytest.fail("no demonstration case has a family with two known members")


def test_no_reading_is_behind_two_families_unsaid() -> None:
    """Findings of two families that rest on one and the same single fact say why they are apart."""
    model = rulebook().model
    alone: dict[str, list[tuple[str, str]]] = {}
    for family in evidence_targets(model):
        for member in members_of(model, family):
            facts = facts_behind(model, member)
            if len(facts) == 1:
                alone.setdefault(facts[0], []).append((family, member))
    shared = {fact: found for fact, found in alone.items() if len({f for f, _ in found}) > 1}
    for fact, found in shared.items():
        excused = [member for _, member in found if model.findings[member].apart_because]
        assert len(excused) >= len({family for family, _ in found}) - 1, (fact, found)
