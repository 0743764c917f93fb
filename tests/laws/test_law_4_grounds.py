"""Law 4. Everything said has its grounds; every minimal set is minimal."""

from __future__ import annotations

from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from sootsayer.judgement.judge import tell
from sootsayer.judgement.softness import as_level
from sootsayer.judgement.verdict import FindingSaid, Reason
from sootsayer.judgement.workings import Workings, work_out
from sootsayer.rulebook.compiled import shipped_rules
from tests.laws.making_cases import NOW, readings, rulebook, some_case

SLOW = settings(deadline=None, max_examples=60, suppress_health_check=list(HealthCheck))


def decided_by(work: Workings, finding: FindingSaid, slots: set[str]) -> str | None:
    """What the finding says when only `slots` are known."""
    seen = work.full if finding.set_aside else work.view_of(finding.id)
    values = {slot: fact.value for slot, fact in seen.facts.items() if slot in slots}
    return as_level(work.rulebook.program.run(values, work.limits, only=(finding.id,))[finding.id])


@SLOW
@given(st.data())
def test_grounds_decide_and_none_is_spare(data: st.DataObject) -> None:
    """A finding's grounds alone decide it, and no ground can be left out."""
    work = work_out(some_case(data.draw(readings(rulebook().model))), rulebook(), NOW, None)
    for finding in tell(work).findings:
        slots = {g.slot for g in finding.grounds}
        level = finding.would_be if finding.set_aside else finding.level
        if level is None:
            assert slots == set()
            continue
        assert decided_by(work, finding, slots) == level, finding.id
        for slot in slots:
            assert decided_by(work, finding, slots - {slot}) is None, (finding.id, slot)


@SLOW
@given(st.data())
def test_everything_leads_to_an_entry_and_a_line(data: st.DataObject) -> None:
    """Each ground names an entry of the case; each rule a line of a shipped pack."""
    case = some_case(data.draw(readings(rulebook().model)))
    verdict = tell(work_out(case, rulebook(), NOW, None))
    numbers = {entry.number for entry in case.entries}
    said = [g for f in verdict.findings for g in f.grounds]
    locks = [i for p in verdict.permissions for i in (*p.interlocks, *p.named)]
    said += [g for i in locks for g in i.grounds]
    assert {g.entry for g in said} <= numbers
    assert all(i.grounds for i in locks if i.reason in (Reason.HOLDS, Reason.DOES_NOT_HOLD))
    for fault in verdict.faults:
        assert all(share.grounds for share in (*fault.for_, *fault.against))


def test_every_rule_stands_where_it_says() -> None:
    """The line that a verdict names for a rule is the line of that rule in its pack."""
    verdict = tell(work_out(some_case([]), rulebook(), NOW, None))
    rules = [(f.id, f.rule) for f in verdict.findings] + [(f.id, f.rule) for f in verdict.faults]
    assert rules
    for name, rule in rules:
        lines = (Path(shipped_rules()) / rule.file).read_text("utf-8").splitlines()
        assert lines[rule.line - 1].strip().startswith(f"{name}:"), (name, rule)
        assert len(rule.revision) == 8
