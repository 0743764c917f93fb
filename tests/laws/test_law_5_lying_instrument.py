"""Law 5. A lying instrument never acquits a filter."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import datetime

import pytest
from hypothesis import given

from sootsayer.belief.network import Kind
from sootsayer.casework.model import Case
from sootsayer.console.judge_more import judge_more_page
from sootsayer.console.judge_page import judge_page
from sootsayer.console.names import names_of
from sootsayer.console.screen import drawn
from sootsayer.engine.conditions import Value
from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict import ChannelState, FilterWell, Permitted, Reason
from sootsayer.judgement.views import SETTLED
from tests.laws.demonstrations import (
    closing_moment,
    demonstration,
    demonstrations,
    forgetting,
    healthy,
    saying,
)
from tests.laws.making_cases import NOW, SOME, cases, rulebook
from tests.laws.outline import Outline, beliefs, outline, well

SENSOR = "dp-sensor"
DENIAL = "Nothing here says that the filter is well"
# How to knock out each test that proves the instrument: forget it, let it fail, let it be close.
FAILING: dict[str, dict[str, Value]] = {
    "dp-does-not-follow-rpm": {"dp@idle": 19.0, "dp@2500": 19.0},
    "front-hose-does-not-hold": {"hose-holds-vacuum": False},
    "front-hose-does-not-blow-through": {"hose-blows-through": False},
}
CLOSE: dict[str, dict[str, Value]] = {
    "dp-not-zero-at-rest": {"dp@rest": 5.1},
    "dp-does-not-follow-rpm": {"dp@idle": 14.0, "dp@2500": 17.5},
}


def lies_acquit_nothing(told: Outline) -> FilterWell:
    """Where the filter is called well, every reading that bears on it came through proven
    instruments, and at least one did; and no interlock holds by any other instrument."""
    trust, model = told.work.found.trust, told.work.model
    for lock in told.interlocks.values():
        if lock.reason is Reason.HOLDS:
            assert lock.state is Permitted.CLEAR
            channels = {told.work.full.facts[g.slot].channel for g in lock.grounds} - {""}
            assert all(trust.states[channel] in SETTLED for channel in channels), lock.id
    said_well = well(told, beliefs(told))
    if not said_well.shown:
        return said_well
    said = {f.id: f for f in told.findings}
    through = set()
    for family in told.families:
        block = model.evidence.get(family.id)
        if block is None or family.speaker is None:
            continue
        if any(model.faults[fault].kind is Kind.CONDITION for fault in block.seen_with):
            seen = told.work.view_of(family.speaker)
            through |= {seen.facts[g.slot].channel for g in said[family.speaker].grounds}
    through -= {""}
    assert through
    assert all(trust.states[channel] in SETTLED for channel in through), through
    return said_well


def says_well(case: Case, at: datetime) -> bool:
    """Whether any page of the verdict says that the filter is well; all pages agree."""
    verdict = judge(case, rulebook(), now=at)
    names = names_of(rulebook().model, case)
    answers = set()
    for page in (judge_page(verdict, names), judge_more_page(verdict, names)):
        text = re.sub(r"\s+", " ", drawn(page))
        sentences = [s for s in re.split(r"(?<=[.?]) ", text) if re.search(r"\bwell\b", s)]
        answers.add(any(DENIAL not in sentence for sentence in sentences))
    assert sentences  # the full page says either; the short one is silent where a fault leads
    assert len(answers) == 1
    assert answers == {verdict.filter_well.shown}
    return answers.pop()


def proven_cases() -> Iterator[tuple[Case, datetime]]:
    """Cases whose pressure sensor is proven or corrected: one called well, and the shipped ones."""
    for case, at in (healthy(), *demonstrations()):
        if outline(case, at).work.found.trust.states[SENSOR] in SETTLED:
            yield case, at


def knocked_out(case: Case, at: datetime) -> Iterator[tuple[str, Case]]:
    """The case with each test that proves the sensor unknown, failing or close, one at a time."""
    told = outline(case, at)
    tests = told.work.model.channels[SENSOR].proven_by
    assert set(tests) == {"dp-not-zero-at-rest", *FAILING}
    for test in tests:
        for ground in next(f for f in told.findings if f.id == test).grounds:
            yield f"{test} without {ground.slot}", forgetting(case, {ground.slot})
        if test in FAILING:
            yield f"{test} fails", saying(case, FAILING[test])
        if test in CLOSE:
            yield f"{test} is close", saying(case, CLOSE[test])


def no_knocked_out_instrument_acquits(case: Case, at: datetime) -> None:
    """With any proving test knocked out the sensor is not proven, the filter not called well."""
    for name, lying in knocked_out(case, at):
        told = outline(lying, at)
        assert told.work.found.trust.states[SENSOR] not in SETTLED, name
        said_well = lies_acquit_nothing(told)
        assert not said_well.shown, name
        assert said_well.because, name


def test_proven_instruments_may_acquit() -> None:
    """What the law forbids without proof does happen with it: proven, and corrected."""
    case, at = healthy()
    assert outline(case, at).work.found.trust.states[SENSOR] is ChannelState.PROVEN
    assert says_well(case, at)
    offset = demonstration("sensor-offset")
    told = outline(offset, closing_moment(offset))
    assert told.work.found.trust.states[SENSOR] is ChannelState.CORRECTED
    assert well(told).shown


def test_each_proving_test_knocked_out() -> None:
    """From every case with a proven sensor: each test unknown, failing or close ends the proof."""
    found = list(proven_cases())
    assert len(found) > 2
    for case, at in found:
        no_knocked_out_instrument_acquits(case, at)


@pytest.mark.parametrize("how", ["forgotten", "failing", "close"])
def test_no_page_says_that_the_filter_is_well(how: str) -> None:
    """Neither page of the verdict says so in any sentence, once the sensor is not proven."""
    case, at = healthy()
    if how == "forgotten":
        case = forgetting(case, {"hose-blows-through"})
    else:
        case = saying(
            case,
            {"hose-holds-vacuum": False} if how == "failing" else CLOSE["dp-not-zero-at-rest"],
        )
    assert not says_well(case, at)


@SOME
@given(cases(most=40))
def test_without_a_proven_instrument_nothing_says_the_filter_is_well(case: Case) -> None:
    """Of any case: nothing is called well, and no interlock holds, by an instrument unproven."""
    told = outline(case, NOW)
    said_well = lies_acquit_nothing(told)
    if not any(c.state in SETTLED for c in told.channels):
        assert not said_well.shown
