"""Law 2. Knowing more never flips a decided finding; an answer taken back was never given."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from sootsayer.casework.model import Absence, Source
from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict import Verdict
from sootsayer.judgement.verdict_json import as_json
from tests.laws.making_cases import HERE, NOW, Reading, readings, rulebook, said, some_case

SLOW = settings(deadline=None, max_examples=60, suppress_health_check=list(HealthCheck))


def flipped(before: Verdict, after: Verdict) -> list[str]:
    """Findings decided before that say something else after (set aside is not a flip)."""
    later = {f.id: f for f in after.findings}
    return [
        f.id
        for f in before.findings
        if f.level is not None and later[f.id].level not in (f.level, None)
    ]


def lost(before: Verdict, after: Verdict) -> list[str]:
    """Findings decided before that are unknown after without having been set aside."""
    later = {f.id: f for f in after.findings}
    return [
        f.id
        for f in before.findings
        if f.level is not None and later[f.id].level is None and later[f.id].set_aside is None
    ]


@SLOW
@given(st.data())
def test_a_known_fact_more_never_flips_a_decided_finding(data: st.DataObject) -> None:
    """What was decided stays decided, or is set aside for a channel now distrusted.

    The zero of a corrected channel changes the number that is known, so cases in which it
    appears or goes are left to the tests of correction.
    """
    answers = data.draw(readings(rulebook().model))
    known = some_case(answers)
    fewer = some_case(answers[:-1])
    before = judge(fewer, rulebook(), now=NOW)
    after = judge(known, rulebook(), now=NOW)
    if [c.zero for c in before.channels] != [c.zero for c in after.channels]:
        return
    assert flipped(before, after) == []
    assert lost(before, after) == []


@SLOW
@given(st.data())
def test_an_answer_taken_back_equals_never_given(data: st.DataObject) -> None:
    """A correction to "not asked" leaves the verdict as if the answer had never been given."""
    answers = data.draw(readings(rulebook().model, most=12).filter(bool))
    case = some_case(answers)
    number = data.draw(st.integers(1, len(case.entries)))
    entry = case.entries[number - 1]
    back = Reading(entry.said[0].slot, None, entry.source, Absence.NOT_ASKED)
    last = case.entries[-1]
    correction = replace(
        entry, number=last.number + 1, at=last.at, said=(said(back),), corrects=number, place=HERE
    )
    taken_back = replace(case, entries=(*case.entries, correction))
    kept = tuple(e for e in case.entries if e.number != number)
    never = replace(case, entries=kept)
    assert _told(judge(taken_back, rulebook(), now=NOW)) == _told(judge(never, rulebook(), now=NOW))


def _told(verdict: Verdict) -> dict[str, object]:
    """The verdict without the count of its entries, which a correction adds to."""
    told = as_json(verdict)
    del told["as_of"]
    return told


def test_the_corpus_has_decided_findings() -> None:
    """The properties above look at something: one reading decides a finding."""
    case = some_case([Reading("dp@rest", 18.0, Source.SCAN)])
    verdict = judge(case, rulebook(), now=NOW)
    assert any(f.level is not None for f in verdict.findings)
