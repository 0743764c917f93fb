"""Gathered that no check yields, and interlocks that nothing can clear."""

from __future__ import annotations

from sootsayer.catalogue import say
from sootsayer.engine.possible import Answer
from sootsayer.rulebook.compiled import interlock_slot
from sootsayer.rulebook.model import Interlock
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.review.bench import Bench
from sootsayer.rulebook.review.decides import LOOK, PROOF
from sootsayer.rulebook.review.remark import Concern, Decided, Weight

NOT_YIELDED = 'no check yields "{finding}": nothing gives {slots}'
ADD_OR_NAME = "add a check that gives {slot}, or name it under `gives` of one that reads it"
NO_FACTS = 'nothing can clear "{interlock}": no facts make its condition true'
NO_CHECK = 'nothing can clear "{interlock}": no check gives {slots}'


def checks_yield(bench: Bench) -> None:
    """Every finding can be decided by what checks and the header give."""
    for finding in bench.model.findings.values():
        if not bench.whole(finding.id):
            continue
        levels: list[str | bool] = [*finding.levels] if finding.graded else [True, False]
        answers = []
        for level in levels:
            goal = bench.goals.level(finding.id, level)
            found = bench.can(goal, reached=True)
            answers.append(found.answer)
            if found.answer is Answer.YES:
                case, decided = found.case, Decided.PROVEN
                break
        else:
            case, decided = {}, Decided.NOT_DECIDED
            if all(each is Answer.NO for each in answers):
                decided = Decided.DISPROVEN
                _says_not(bench, finding.id)
        bench.decided(Concern.YIELDED, finding.id, say("a check decides it"), decided, case)


def _says_not(bench: Bench, name: str) -> None:
    finding = bench.model.findings[name]
    missing = _out_of_reach(bench, name)
    if not missing:
        return  # it can never be decided by anything, which has been said
    bench.remark(
        Concern.YIELDED, Weight.WARNING, name, finding.place,
        say(NOT_YIELDED, finding=name, slots=", ".join(missing)),
        say(ADD_OR_NAME, slot=missing[0]),
    )  # fmt: skip


def _out_of_reach(bench: Bench, slot: str) -> list[str]:
    return sorted(bench.program.reads(slot) - bench.within_reach.keys())


def interlocks_clear(bench: Bench) -> None:
    """Every interlock can hold, and somebody can find out that it does."""
    for interlock in bench.model.interlocks.values():
        if bench.whole(interlock_slot(interlock.id)):
            _clears(bench, interlock)


def _clears(bench: Bench, interlock: Interlock) -> None:
    slot = interlock_slot(interlock.id)
    goal = bench.goals.level(slot, True)
    found = bench.can(goal, reached=True)
    claim = say("can be cleared")
    bench.decided(Concern.CLEARED, interlock.id, claim, PROOF[found.answer], found.case)
    if found.answer is not Answer.NO:
        return
    place = bench.place_of(
        interlock.pack, Section.INTERLOCK, interlock.id, "holds when", interlock.place
    )
    missing = _out_of_reach(bench, slot)
    if bench.can(goal).answer is Answer.NO or not missing:
        what, instead = say(NO_FACTS, interlock=interlock.id), say(LOOK)
    else:
        what = say(NO_CHECK, interlock=interlock.id, slots=", ".join(missing))
        instead = say("add a check that gives {slot}", slot=missing[0])
    bench.remark(
        Concern.CLEARED, Weight.ERROR, interlock.id, place,
        what, instead,
    )  # fmt: skip
