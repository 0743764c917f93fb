"""Whole visits drawn from the shipped rulebook."""

from __future__ import annotations

from functools import cache
from random import Random

import pytest

from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict import Verdict
from sootsayer.learning.behind import REFERENCE
from sootsayer.learning.case_of_facts import MADE_AT, case_of
from sootsayer.learning.draw import draw
from sootsayer.learning.visit import DrawnVisit, Visits
from sootsayer.rulebook.model import SignalKind
from tests.laws.making_cases import rulebook

DRAWN = 40


@cache
def visits() -> Visits:
    return Visits(rulebook())


@cache
def drawn() -> tuple[DrawnVisit, ...]:
    return tuple(visits().draw(Random(n)) for n in range(DRAWN))


@cache
def verdict(n: int) -> Verdict:
    return judge(case_of(rulebook().model, drawn()[n].facts), rulebook(), now=MADE_AT)


def test_same_generator_same_visit() -> None:
    """The same state of the generator gives the same visit, facts and all."""
    again = Visits(rulebook())
    assert [again.draw(Random(n)) for n in range(8)] == list(drawn()[:8])
    assert len({one.faults for one in drawn()}) > DRAWN // 4


def test_faults_are_those_of_the_plain_draw() -> None:
    """What a vehicle has does not depend on whether facts are wanted."""
    for n, one in enumerate(drawn()):
        assert one.faults == draw(visits().network, Random(n)).faults


def test_every_finding_with_evidence_has_an_outcome() -> None:
    """Each finding that the network knows says something of each vehicle."""
    model = rulebook().model
    known = {
        finding.id
        for finding in model.findings.values()
        if finding.id in model.evidence
        or any(finding.id in f.members and f.id in model.evidence for f in model.families.values())
    }
    assert len(known) > 30
    assert all(set(one.outcomes) == known for one in drawn())


@pytest.mark.parametrize("n", range(DRAWN))
def test_what_is_shown_is_what_was_drawn(n: int) -> None:
    """Judged from its facts, every finding says what was drawn, unless it is counted or set aside
    with an instrument that failed a test."""
    one = drawn()[n]
    said = {finding.id: finding for finding in verdict(n).findings}
    for name, level in one.outcomes.items():
        finding = said[name]
        if name in one.unknown:
            assert (finding.level, finding.set_aside) == (None, None), name
        elif finding.set_aside is None:
            assert (finding.level == level) is (name not in one.contrary), name


def test_few_outcomes_are_not_shown() -> None:
    """Contradicting facts are the exception: over nine tenths of the outcomes are shown."""
    outcomes = sum(len(one.outcomes) for one in drawn())
    assert sum(len(one.unknown) + len(one.contrary) for one in drawn()) < outcomes / 10


def test_what_speaks_was_drawn() -> None:
    """What enters belief is what the network drew: of the speakers of families hardly any says
    something else."""
    spoken = contrary = 0
    for n, one in enumerate(drawn()):
        for family in verdict(n).families:
            if family.speaker in one.outcomes:
                spoken += 1
                contrary += family.speaker in one.contrary
    assert spoken > DRAWN * 20
    assert contrary < spoken / 50


def test_facts_can_be_entered() -> None:
    """Every fact is of a signal that is asked or read, in its possible range or among its words."""
    model = rulebook().model
    for one in drawn():
        for slot, value in one.facts.items():
            if slot.startswith("code:"):
                assert slot[5:] in model.codes
                continue
            name, _, point = slot.partition("@")
            signal = model.signals[name]
            assert name not in model.quantities
            assert point in signal.points if signal.points else not point
            if signal.kind is SignalKind.CHOICE:
                assert value in signal.choices
            elif signal.kind is SignalKind.YES_NO:
                assert isinstance(value, bool)
            else:
                assert signal.possible is not None
                assert isinstance(value, float)
                assert signal.possible[0] <= value <= signal.possible[1], slot


def test_usual_readings_are_possible() -> None:
    """The reference vehicle is made of readings that its signals allow."""
    model = rulebook().model
    known = {slot: x for slot, x in REFERENCE.items() if slot.partition("@")[0] in model.signals}
    assert len(known) > 8
    for slot, value in known.items():
        possible = model.signals[slot.partition("@")[0]].possible
        assert possible is not None
        assert possible[0] <= value <= possible[1]
