"""Law 3. Unknown is never permission, and never false."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime

from hypothesis import given
from hypothesis import strategies as st

from sootsayer.casework.model import Absence, Case
from sootsayer.judgement.verdict import DriveOn, Permitted, Reason
from tests.laws.demonstrations import demonstrations, forgetting, slots_said, without_codes
from tests.laws.making_cases import (
    NOW,
    SOME,
    Reading,
    cases,
    code_lists,
    readings,
    rulebook,
    some_case,
)
from tests.laws.outline import Outline, beliefs, outline


def nothing_known_permits_and_denies_nothing(told: Outline) -> None:
    """Of an empty case every finding is unknown and no action is clear or blocked."""
    assert told.findings
    assert {f.level for f in told.findings} == {None}
    assert told.permissions
    assert {p.state for p in told.permissions} == {Permitted.NOT_YET_CLEAR}
    assert told.drive_on.state is DriveOn.NOT_YET_KNOWN


def nothing_is_decided_by_nothing(told: Outline) -> None:
    """Whatever is true, false, clear or blocked rests on facts; a clear action on clear needs."""
    for finding in told.findings:
        assert finding.level is None or finding.grounds, finding.id
    for lock in told.interlocks.values():
        if lock.reason in (Reason.HOLDS, Reason.DOES_NOT_HOLD):
            assert lock.grounds, lock.id
        assert (lock.state is Permitted.CLEAR) == (lock.reason in (Reason.HOLDS, Reason.NOT_NEEDED))
    for action in told.permissions:
        if action.state is Permitted.CLEAR:
            assert all(i.state is Permitted.CLEAR for i in action.interlocks), action.action
            assert not [i for i in action.named if i.state is Permitted.BLOCKED]
    permitted = {p.action: p.state for p in told.permissions}
    if told.drive_on.state is DriveOn.MAY_BE_DRIVEN:
        assert permitted["drive-on"] is Permitted.CLEAR


def forgetting_clears_nothing(before: Outline, after: Outline) -> None:
    """`after` knows a fact less than `before`: no interlock is clear that was not.

    Where the fact forgotten is the one that showed an instrument to lie, its readings count
    again; interlocks that rest on them are left out.
    """
    lying = before.work.found.trust
    for name, lock in after.interlocks.items():
        if lock.state is not Permitted.CLEAR:
            continue
        facts = [after.work.full.facts[g.slot] for g in lock.grounds]
        if not any(lying.distrusted(fact) for fact in facts):
            assert before.interlocks[name].state is Permitted.CLEAR, name


def silence_says_nothing(answers: Sequence[Reading], silent: Sequence[Reading]) -> None:
    """ "Do not know", "cannot" and "not asked" are as if nothing had been said."""
    plain, asked = outline(some_case(answers)), outline(some_case([*answers, *silent]))
    assert [f.level for f in plain.findings] == [f.level for f in asked.findings]
    assert plain.interlocks == asked.interlocks
    assert [p.state for p in plain.permissions] == [p.state for p in asked.permissions]
    assert plain.drive_on == asked.drive_on
    assert beliefs(plain) == beliefs(asked)


def forgetting_parts_of(case: Case, at: datetime) -> int:
    """Forget each fact of the case in turn; how often that took a clear interlock away."""
    before, lost = outline(case, at), 0
    nothing_is_decided_by_nothing(before)
    clear = {i.id for i in before.interlocks.values() if i.state is Permitted.CLEAR}
    for slot in slots_said(case):
        after = outline(forgetting(case, {slot}), at)
        nothing_is_decided_by_nothing(after)
        forgetting_clears_nothing(before, after)
        lost += any(after.interlocks[i].state is not Permitted.CLEAR for i in clear)
    forgetting_clears_nothing(before, outline(without_codes(case), at))
    return lost


def test_nothing_known_permits_nothing_and_denies_nothing() -> None:
    """Of an empty case every finding is unknown and no action is clear."""
    nothing_known_permits_and_denies_nothing(outline(some_case([])))


def test_no_demonstration_gains_a_permission_by_forgetting() -> None:
    """Each fact of each demonstration forgotten: no interlock clears, and some no longer are."""
    assert all(forgetting_parts_of(case, at) > 5 for case, at in list(demonstrations())[:3])


@SOME
@given(cases())
def test_every_decision_rests_on_facts(case: Case) -> None:
    """Of any case: what is true, false, clear or blocked has facts behind it."""
    nothing_is_decided_by_nothing(outline(case))


@SOME
@given(st.data())
def test_forgetting_a_fact_never_clears_an_interlock(data: st.DataObject) -> None:
    """Of any case with a fact less, no interlock is clear that was not before."""
    answers = data.draw(readings(rulebook().model).filter(bool))
    codes = data.draw(code_lists())
    gone = data.draw(st.integers(0, len(answers) - 1))
    fewer = [a for n, a in enumerate(answers) if n != gone]
    before = outline(some_case(answers, codes), NOW)
    forgetting_clears_nothing(before, outline(some_case(fewer, codes), NOW))


@SOME
@given(st.data())
def test_do_not_know_equals_never_asked(data: st.DataObject) -> None:
    """A reason for no value, other than not fitted, decides nothing."""
    answers = data.draw(readings(rulebook().model, most=12))
    absent = data.draw(st.sampled_from([Absence.DO_NOT_KNOW, Absence.CANNOT, Absence.NOT_ASKED]))
    extra = data.draw(readings(rulebook().model, most=6))
    taken = {a.slot for a in answers}
    silence_says_nothing(
        answers, [Reading(r.slot, None, r.source, absent) for r in extra if r.slot not in taken]
    )


def half_a_list_denies_nothing() -> None:
    """Without a list of codes, or with one read in part, no code is absent."""
    whole, nothing = some_case([], codes=()), some_case([])
    codes = [f.id for f in outline(whole).findings if f.level == "false"]
    assert codes
    read = whole.entries[0].codes
    assert read is not None
    for case in (nothing, partly(whole)):
        assert {f.level for f in outline(case).findings if f.id in codes} == {None}


def test_a_code_not_listed_is_unknown_unless_the_list_is_whole() -> None:
    """Without a list, or with one read in part, a finding on codes is unknown, not false."""
    half_a_list_denies_nothing()


def partly(case: Case) -> Case:
    """The case with its list of codes read in part only."""
    return replace(
        case,
        entries=tuple(
            e if e.codes is None else replace(e, codes=replace(e.codes, complete=False))
            for e in case.entries
        ),
    )
