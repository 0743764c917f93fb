"""Law 2. Knowing more never flips a decided finding; an answer taken back was never given.

A decided finding may only be set aside. Two things that a new fact tells of an instrument
change what was read, not what is concluded from it: a zero that comes to light is taken off,
and where an instrument turns out to lie, another source of the same fact counts instead. A
finding that rests on such a reading is decided anew, and only such a one; a test of an
instrument never is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sootsayer.casework.model import Absence, Case, Fact, Source
from sootsayer.judgement.softness import as_level
from sootsayer.judgement.verdict import ChannelState, FindingSaid
from sootsayer.judgement.views import with_quantities
from tests.laws.demonstrations import (
    demonstration,
    demonstrations,
    forgetting,
    slots_said,
    without_codes,
)
from tests.laws.making_cases import (
    HERE,
    SOME,
    Reading,
    cases,
    code_lists,
    readings,
    rulebook,
    said,
    some_case,
)
from tests.laws.outline import Outline, as_plain, beliefs, outline


def _rests_on(told: Outline, finding: FindingSaid) -> Iterator[Fact]:
    seen = told.work.view_of(finding.id)
    for ground in finding.grounds:
        yield seen.facts.get(ground.slot) or told.work.full.facts[ground.slot]


def _with_zeros_off(before: Outline, after: Outline, name: str) -> str | None:
    """What the finding says when nothing is new but the zeros that came to light."""
    trust = after.work.found.trust
    seen = before.work.view_of(name)
    read = {slot: fact for slot, fact in seen.facts.items() if not fact.came_from}
    mended = {slot: trust.corrected(fact) for slot, fact in read.items()}
    values = {**seen.values, **with_quantities(mended, before.work.model).values}
    return as_level(before.work.rulebook.program.run(values, before.work.limits, (name,))[name])


def knowing_more_flips_nothing(before: Outline, after: Outline) -> None:
    """`after` knows a fact more than `before`: what was decided stays so, or is set aside."""
    later = {f.id: f for f in after.findings}
    tests = before.work.found.by_test
    trust = after.work.found.trust
    known_zeros = before.work.found.trust.zeros
    for finding in before.findings:
        now = later[finding.id]
        if finding.level is None or now.level == finding.level:
            continue
        assert finding.id not in tests, (finding.id, finding.level, now.level)
        if now.level is None:
            assert now.set_aside is not None, finding.id
            assert trust.states[now.set_aside] is ChannelState.DISTRUSTED
            continue
        grounds = list(_rests_on(before, finding))
        if any(trust.distrusted(fact) for fact in grounds):
            continue
        assert any(trust.zeros.get(f.channel) != known_zeros.get(f.channel) for f in grounds), (
            finding.id,
            finding.level,
            now.level,
        )
        assert now.level == _with_zeros_off(before, after, finding.id), finding.id


def taking_back_undoes(case: Case, slot: str) -> None:
    """The first answer for the slot corrected to "not asked" equals never having given it."""
    entry = next(e for e in case.entries if slot in {s.slot for s in e.said})
    back = said(Reading(slot, None, entry.source, Absence.NOT_ASKED))
    last = case.entries[-1]
    correction = replace(
        entry,
        number=last.number + 1,
        at=last.at,
        said=(back,),
        corrects=entry.number,
        place=HERE,
        codes=None,
    )
    less = replace(entry, said=tuple(s for s in entry.said if s.slot != slot))
    taken_back = outline(replace(case, entries=(*case.entries, correction)), last.at)
    entries = tuple(less if e is entry else e for e in case.entries)
    never = outline(replace(case, entries=entries), last.at)
    assert as_plain(taken_back, beliefs(taken_back)) == as_plain(never, beliefs(never))


def corrected_case_is_decided_again() -> None:
    """Where the reading that gives the zero is the last to come, findings change as it says."""
    case = demonstration("sensor-offset")
    before, after = outline(forgetting(case, {"dp@rest"})), outline(case)
    knowing_more_flips_nothing(before, after)
    levels = [{f.id: f.level for f in told.findings} for told in (before, after)]
    seen = [level["restriction-at-idle"] for level in levels]
    assert seen[0] in {"raised", "high"}
    assert seen[1] == "normal"


@SOME
@given(cases(), st.data())
def test_a_known_fact_more_never_flips_a_decided_finding(case: Case, data: st.DataObject) -> None:
    """Of any case: what was decided stays decided, or is set aside."""
    answers = data.draw(readings(rulebook().model).filter(bool))
    codes = data.draw(code_lists())
    knowing_more_flips_nothing(
        outline(some_case(answers[:-1], codes)), outline(some_case(answers, codes))
    )
    knowing_more_flips_nothing(outline(without_codes(case)), outline(case))


def test_no_fact_of_a_demonstration_flips_anything() -> None:
    """Every fact of every demonstration case, had it come last, would have flipped nothing."""
    states = set()
    for case, at in demonstrations():
        after = outline(case, at)
        knowing_more_flips_nothing(outline(without_codes(case), at), after)
        for slot in slots_said(case):
            before = outline(forgetting(case, {slot}), at)
            knowing_more_flips_nothing(before, after)
            pairs = zip(before.channels, after.channels, strict=True)
            states |= {(one.state, other.state) for one, other in pairs}
    assert (ChannelState.UNPROVEN, ChannelState.CORRECTED) in states
    assert (ChannelState.UNPROVEN, ChannelState.PROVEN) in states


def test_instrument_found_lying_sets_aside() -> None:
    """The test that fails, had it come last: what the instrument said is set aside, not flipped."""
    case = demonstration("leaking-front-hose")
    before, after = outline(forgetting(case, {"hose-holds-vacuum"})), outline(case)
    knowing_more_flips_nothing(before, after)
    decided = {f.id for f in before.findings if f.level is not None}
    assert {f.id for f in after.findings if f.set_aside} & decided


def test_a_zero_found_is_taken_off_and_nothing_else_changes() -> None:
    """A zero that comes to light changes the findings that read through it, as the zero says."""
    corrected_case_is_decided_again()


def test_another_source_counts_when_the_better_one_lies() -> None:
    """A gauge found off zero gives way to the scan tool's reading of the same fact, visibly."""
    warm = [
        Reading("coolant@idle", 88.0, Source.SCAN),
        Reading("regeneration-status", "not running", Source.SCAN),
        Reading("dp@2500", 20.0, Source.SCAN),
        Reading("dp@2500", 120.0, Source.GAUGE),
    ]
    off = Reading("gauge-zero-in-air", False, Source.TECHNICIAN)
    before, after = outline(some_case(warm)), outline(some_case([*warm, off]))
    levels = [{f.id: f.level for f in told.findings} for told in (before, after)]
    assert [level["restriction-at-2500"] for level in levels] == ["blocked", "normal"]
    knowing_more_flips_nothing(before, after)


@SOME
@given(cases(most=12), st.data())
def test_an_answer_taken_back_equals_never_given(case: Case, data: st.DataObject) -> None:
    """A correction to "not asked" leaves the verdict as if the answer had never been given."""
    slots = [said.slot for entry in case.entries for said in entry.said]
    if slots:
        taking_back_undoes(case, data.draw(st.sampled_from(slots)))


@pytest.mark.parametrize("slot", ["dp@rest", "dp@2500", "soot-measured", "fire-signs"])
def test_answers_of_a_demonstration_taken_back(slot: str) -> None:
    """The zero of an instrument taken back is no zero; a reading taken back is none."""
    taking_back_undoes(demonstration("sensor-offset"), slot)
