"""Law 4. Everything said has its grounds down to an entry and a rule's line, and none is spare."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from pathlib import Path

import pytest
from hypothesis import given

from sootsayer.casework.model import Case
from sootsayer.casework.quantities import wanted
from sootsayer.engine.conditions import Value
from sootsayer.judgement.judge import judge
from sootsayer.judgement.softness import as_level
from sootsayer.judgement.verdict import FaultSaid, Ground, Reason, RuleAt, Verdict
from sootsayer.judgement.views import View, with_quantities
from sootsayer.judgement.workings import Workings
from sootsayer.physics.quantities import QUANTITIES
from sootsayer.rulebook.compiled import interlock_slot
from sootsayer.rulebook.shipped import shipped_cases, shipped_rules
from tests.laws.demonstrations import A_FEW, closing_moment, demonstration, demonstrations
from tests.laws.making_cases import SOME, cases, rulebook, some_case
from tests.laws.outline import Outline, outline


def _decided(work: Workings, name: str, seen: View, slots: Collection[str]) -> str | None:
    """What derived slot `name` is when only the facts `slots` of a view are known.

    A test of an instrument that it reads is decided by those of the facts that the test saw.
    """
    program = work.rulebook.program
    values = _kept(work, seen, slots)
    for test, tested in work.found.by_test.items():
        if test != name:
            own = _kept(work, tested.view, slots)
            values[test] = program.run(own, work.limits, only=(test,))[test]
    return as_level(program.run(values, work.limits, only=(name,))[name])


def _kept(work: Workings, seen: View, slots: Collection[str]) -> dict[str, Value]:
    """The values of these facts, and of the quantities that they alone give."""
    facts = {slot: fact for slot, fact in seen.facts.items() if slot in slots}
    return dict(with_quantities(facts, work.model).values)


def _may_be_assumed(work: Workings, slot: str) -> bool:
    """A quantity is computed without this fact too, with a wider uncertainty."""
    return any(
        at.assumed is not None and each.takes.get(at.name) == slot
        for each in wanted(work.model)
        for at in QUANTITIES[each.definition.formula].inputs
    )


def _minimal(work: Workings, name: str, seen: View, grounds: tuple[Ground, ...]) -> None:
    slots = {ground.slot for ground in grounds}
    assert len(slots) == len(grounds)
    whole = {slot: value for slot, value in seen.values.items() if slot != name}
    says = as_level(work.rulebook.program.run(whole, work.limits, only=(name,))[name])
    if says is None:
        assert slots == set(), name
        return
    assert slots, name
    assert _decided(work, name, seen, slots) == says, name
    for slot in slots:
        spare = _decided(work, name, seen, slots - {slot})
        assert spare is None or _may_be_assumed(work, slot), (name, slot)


def grounds_are_minimal(told: Outline) -> None:
    """The grounds of a finding or an interlock alone decide it, and no ground can be left out."""
    work = told.work
    for finding in told.findings:
        seen = work.full if finding.set_aside else work.view_of(finding.id)
        assert (finding.level is not None or finding.set_aside is not None) == bool(finding.grounds)
        _minimal(work, finding.id, seen, finding.grounds)
    for lock in told.interlocks.values():
        _minimal(work, interlock_slot(lock.id), work.trusted, lock.grounds)


def _all_grounds(told: Outline) -> Iterator[Ground]:
    for finding in told.findings:
        yield from finding.grounds
    for lock in told.interlocks.values():
        yield from lock.grounds


def grounds_stand_in_entries(case: Case, told: Outline) -> None:
    """Each ground is a fact of the entry that it names, as typed there, at that line.

    What the head of the case says of the vehicle is of entry 0.
    """
    entries = {entry.number: entry for entry in case.entries}
    for ground in _all_grounds(told):
        if ground.entry == 0:
            places = {key.replace("-", " "): at for key, at in case.vehicle.places.items()}
            assert ground.line == places[_key(ground)].line
            continue
        entry = entries[ground.entry]
        if ground.slot.startswith("code:"):
            assert entry.codes is not None
            assert ground.line == entry.codes.place.line
            assert (ground.slot[5:] in entry.codes.codes) is ground.value
            continue
        said = next(s for s in entry.said if s.slot == ground.slot)
        assert (ground.typed, ground.line) == (said.typed, said.place.line)
        assert (ground.source, ground.round) == (entry.source.value, entry.round)
    for lock in told.interlocks.values():
        if lock.reason in (Reason.HOLDS, Reason.DOES_NOT_HOLD):
            assert lock.grounds, lock.id


def _key(ground: Ground) -> str:
    """The key of the vehicle in the head of a case that a ground of entry 0 comes from."""
    return ground.slot.removeprefix("fitted-").replace("-", " ")


def permissions_name_their_interlocks(told: Outline) -> None:
    """Every action says how each interlock that it needs or heeds stands."""
    actions = told.work.model.actions
    assert {p.action for p in told.permissions} == set(actions)
    for said in told.permissions:
        action = actions[said.action]
        assert tuple(i.id for i in said.interlocks) == action.needs
        assert tuple(i.id for i in said.named) == action.heeds


def faults_have_their_grounds(verdict: Verdict) -> None:
    """What speaks for or against a fault is a finding that was made, with its grounds."""
    findings = {f.id: f for f in verdict.findings}
    speakers = {f.id: f.speaker for f in verdict.families}
    shares = [share for fault in verdict.faults for share in (*fault.for_, *fault.against)]
    assert shares
    for share in shares:
        assert share.finding == speakers[share.family]
        assert share.level == findings[share.finding].level
        assert share.grounds == findings[share.finding].grounds
        assert share.grounds
    for fault in verdict.faults:
        assert all(findings[id_].set_aside for id_ in fault.set_aside)
        assert all(speakers[family] is None for family in fault.missing)


def rules_stand_where_they_say(told: Outline, faults: Sequence[FaultSaid]) -> None:
    """The file and line that are named for a rule are those of that rule in its pack."""
    rules: list[tuple[str, RuleAt]] = [(f.id, f.rule) for f in told.findings]
    rules += [(i.id, i.rule) for i in told.interlocks.values()]
    rules += [(f.id, f.rule) for f in faults]
    texts = {p.name: p.read_text("utf-8").splitlines() for p in shipped_rules().glob("*.yaml")}
    for name, rule in rules:
        assert texts[rule.file][rule.line - 1].strip().startswith(f"{name}:"), (name, rule)
        assert len(rule.revision) == 8
    for fault in faults:
        for share in (*fault.for_, *fault.against):
            to_it = texts[share.link.file][: share.link.line]
            block = next((x for x in reversed(to_it) if "finding: " in x), "")
            named = block.partition("finding: ")[2].partition(",")[0].strip()
            own_line = to_it[-1].strip().startswith(f"{fault.id}:")  # a hider's is its own
            assert own_line or named in (share.finding, share.family), share.link


@SOME
@given(cases())
def test_grounds_decide_and_none_is_spare(case: Case) -> None:
    """Of any case: grounds decide what they are grounds of, and none can be left out."""
    told = outline(case)
    grounds_are_minimal(told)
    grounds_stand_in_entries(case, told)
    permissions_name_their_interlocks(told)


def test_grounds_of_demonstrations_are_minimal() -> None:
    """In the demonstration cases too, with a distrusted and a corrected instrument among them."""
    aside = 0
    for case, at in demonstrations():
        told = outline(case, at)
        grounds_are_minimal(told)
        grounds_stand_in_entries(case, told)
        permissions_name_their_interlocks(told)
        aside += sum(1 for f in told.findings if f.set_aside)
    assert aside


@pytest.mark.parametrize("name", A_FEW)
def test_faults_and_rules_have_their_grounds(name: str) -> None:
    """For and against each fault stand findings with grounds; every rule stands at its line."""
    case = demonstration(name)
    verdict = judge(case, rulebook(), now=closing_moment(case))
    faults_have_their_grounds(verdict)
    rules_stand_where_they_say(outline(case, closing_moment(case)), verdict.faults)


@pytest.mark.parametrize("name", A_FEW)
def test_each_ground_is_found_in_the_file(name: str) -> None:
    """Who opens the case at the line of a ground reads there what it says was typed."""
    lines = (Path(shipped_cases()) / f"{name}.yaml").read_text("utf-8").splitlines()
    told = outline(demonstration(name), closing_moment(demonstration(name)))
    for ground in _all_grounds(told):
        line = lines[ground.line - 1]
        if ground.slot.startswith("code:"):
            assert "codes: {" in line
        elif ground.entry == 0:
            assert line.startswith("vehicle: {")
            said = f"{_key(ground)}: {ground.typed}"
            assert said in line.replace("-", " ")  # `low-pressure recirculation` has one of its own
        else:
            assert f"{ground.slot}: {ground.typed}" in line


def test_empty_case_has_no_grounds() -> None:
    """Where nothing was said, nothing is a ground."""
    assert list(_all_grounds(outline(some_case([])))) == []
