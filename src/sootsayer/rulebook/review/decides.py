"""Rules that can never decide, conditions that cannot be true, levels that nothing reaches."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from itertools import pairwise

from sootsayer.catalogue import Said, say
from sootsayer.documents.nodes import Place
from sootsayer.engine.conditions import Grade
from sootsayer.engine.possible import Answer, Found
from sootsayer.rulebook.compiled import applies_slot, shift_slot
from sootsayer.rulebook.model import FindingDef
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.review.bench import Bench
from sootsayer.rulebook.review.remark import Concern, Decided, Weight

LOOK = "look at the numbers, their units and the `possible` range of the signal"
NEVER_DECIDED = '"{finding}" can never be decided: no facts make it true, none make it false'
NEVER_FALSE = '"{finding}" can never be false: it is true of whatever is read'
OVERLAP = (
    'the levels of "{finding}" overlap: with the numbers in force its cuts are {low} and then '
    "{high}"
)
NO_SUCH_LEVEL = 'no possible value of "{slot}" gives "{finding}" the level "{level}"'
MOVE_THE_CUTS = "move the cuts into the `possible` range of the signal, or leave the level out"
NEVER_APPLIES = 'the {kind} "{id}" can never apply'
SHIFT_NEVER_APPLIES = 'shift {number} of "{fault}" can never apply'
PROOF = {
    Answer.YES: Decided.PROVEN,
    Answer.NO: Decided.DISPROVEN,
    Answer.NOT_DECIDED: Decided.NOT_DECIDED,
}


def rules_decide(bench: Bench) -> None:
    """Every finding can be true and false, every level can be reached."""
    for finding in bench.model.findings.values():
        if not bench.whole(finding.id):
            continue
        if finding.graded:
            _levels(bench, finding)
        else:
            _binary(bench, finding)


def _binary(bench: Bench, finding: FindingDef) -> None:
    true, false = (_found(bench, finding.id, truth) for truth in (True, False))
    place = bench.place_of(finding.pack, Section.FINDING, finding.id, "when", finding.place)
    if true.answer is Answer.NO and false.answer is Answer.NO:
        what = say(NEVER_DECIDED, finding=finding.id)
        _wrong(bench, finding.id, place, what)
    elif true.answer is Answer.NO:
        what = say('"{finding}" can never be true, whatever is read', finding=finding.id)
        _wrong(bench, finding.id, place, what)
    elif false.answer is Answer.NO:
        what = say(NEVER_FALSE, finding=finding.id)
        _wrong(bench, finding.id, place, what, Weight.WARNING)


def _found(bench: Bench, name: str, value: str | bool, concern: Concern = Concern.DECIDES) -> Found:
    found = bench.can(bench.goals.level(name, value))
    word = str(value).lower() if isinstance(value, bool) else value
    claim = say("can be {outcome}", outcome=word)
    bench.decided(concern, name, claim, PROOF[found.answer], found.case)
    return found


def _wrong(
    bench: Bench, thing: str, place: Place, what: Said, weight: Weight = Weight.ERROR
) -> None:
    bench.remark(Concern.DECIDES, weight, thing, place, what, say(LOOK))


def _levels(bench: Bench, finding: FindingDef) -> None:
    grade = bench.program.definitions[finding.id]
    assert isinstance(grade, Grade)
    place = bench.place_of(finding.pack, Section.FINDING, finding.id, "grade", finding.place)
    ends = [bench.program.number(cut, bench.bare) for cut in grade.cuts] if bench.bare else []
    for low, high in pairwise(ends):
        if isinstance(low, float) and isinstance(high, float) and low >= high:
            bench.remark(
                Concern.LEVELS, Weight.ERROR, finding.id, place,
                say(OVERLAP, finding=finding.id, low=f"{low:g}", high=f"{high:g}"),
                say("let the cuts rise: look at the limits that the shop overrules"),
            )  # fmt: skip
            return
    for level in finding.levels:
        if _found(bench, finding.id, level, Concern.LEVELS).answer is Answer.NO:
            bench.remark(
                Concern.LEVELS, Weight.ERROR, finding.id, place,
                say(NO_SUCH_LEVEL, slot=grade.of, finding=finding.id, level=level),
                say(MOVE_THE_CUTS),
            )  # fmt: skip


def applies_can_apply(bench: Bench) -> None:
    """Every `applies when` and every shift can be true; one that is always true says nothing."""
    model = bench.model
    everything = (
        ("interlock", Section.INTERLOCK, model.interlocks), ("check", Section.CHECK, model.checks),
        ("remedy", Section.REMEDY, model.remedies), ("fault", Section.FAULT, model.faults),
    )  # fmt: skip
    for kind, section, things in everything:
        for id_, thing in things.items():
            place = bench.place_of(thing.pack, section, id_, "applies when", thing.place)
            what = partial(say, NEVER_APPLIES, kind=section.word, id=id_)
            _applies(bench, applies_slot(kind, id_), what, id_, place)
    for fault in model.faults.values():
        for number, shift in enumerate(fault.shifts):
            what = partial(say, SHIFT_NEVER_APPLIES, number=number + 1, fault=fault.id)
            _applies(bench, shift_slot(fault.id, number), what, fault.id, shift.place)


def _applies(bench: Bench, slot: str, what: Callable[[], Said], thing: str, place: Place) -> None:
    """`what` is said only where it never applies."""
    if slot not in bench.program.definitions or not bench.whole(slot):
        return
    found = bench.can(bench.goals.level(slot, True))
    claim = say("{slot} can be true", slot=slot)
    bench.decided(Concern.APPLIES, thing, claim, PROOF[found.answer], found.case)
    if found.answer is Answer.NO:
        bench.remark(Concern.APPLIES, Weight.ERROR, thing, place, what(), say(LOOK))
