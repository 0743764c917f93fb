"""The compiled rulebook, and the one way in: `load_rulebook`."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from sootsayer.documents.problems import Problem, Refused
from sootsayer.engine.conditions import Condition, Definition, Grade, Rule
from sootsayer.engine.program import NegativeCycle, Program, compile_program
from sootsayer.rulebook.collect import collect_names
from sootsayer.rulebook.desk import Desk, Pack
from sootsayer.rulebook.lint.all_checks import lint
from sootsayer.rulebook.merge import read_model
from sootsayer.rulebook.model import Digests, FindingDef, Model
from sootsayer.rulebook.names import Names
from sootsayer.rulebook.pack_file import (
    PackText,
    pack_texts,
    packs_of,
    read_packs,
    with_overrides,
)
from sootsayer.rulebook.retired_from import collect_retired
from sootsayer.rulebook.shipped import shipped_cases, shipped_rules
from sootsayer.rulebook.shops_packs import ids_are_told_apart

__all__ = [
    "PackText",
    "Reading",
    "Rulebook",
    "applies_slot",
    "interlock_slot",
    "load_rulebook",
    "read_rulebook",
    "rulebook_from",
    "rulebook_of",
    "shift_slot",
    "shipped_cases",
    "shipped_rules",
    "texts_in",
]


@dataclass(frozen=True, slots=True)
class Rulebook:
    """All packs in force, validated and compiled.

    `program` derives everything: findings under their ids, and the slots named by
    `interlock_slot`, `applies_slot` and `shift_slot`. `tests` derives the findings that test
    a channel, and what those rest on, alone.
    """

    model: Model
    program: Program
    tests: Program

    @property
    def digests(self) -> Digests:
        return self.model.digests


def interlock_slot(interlock: str) -> str:
    """The slot that says whether an interlock's condition holds."""
    return f"interlock:{interlock}"


def applies_slot(what: str, id_: str) -> str:
    """The slot of an `applies when`; `what` is fault, check, interlock or remedy."""
    return f"applies:{what}:{id_}"


def shift_slot(fault: str, number: int) -> str:
    """The slot of a fault's shift, counted from 0 as in `FaultDef.shifts`."""
    return f"shift:{fault}:{number}"


@dataclass(frozen=True, slots=True)
class Reading:
    """Packs as far as they could be read: the desk with every problem, the packs with the shops'
    own numbers in them, the model of what is right, and its program, None where it has none.
    `whole`: everything was read, and what is wrong, if anything, is only found across packs."""

    desk: Desk
    packs: tuple[Pack, ...]
    model: Model
    program: Program | None
    whole: bool

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Each once, what others follow from first."""
        return Refused(dict.fromkeys(self.desk.problems)).problems

    @property
    def rulebook(self) -> Rulebook | None:
        """The rulebook, None where something is wrong with it."""
        if self.desk.problems or self.program is None:
            return None
        return _with_tests(self.model, self.program)


def read_rulebook(folders: Sequence[Path]) -> Reading:
    """Every pack (*.yaml) in the folders, read as far as it can be. Raises nothing of its own."""
    desk = Desk(Names())
    return _read(desk, read_packs(desk, folders))


def _read(desk: Desk, packs: list[Pack]) -> Reading:
    ids_are_told_apart(desk, packs)
    collect_retired(desk, packs)
    packs = with_overrides(desk, packs)
    collect_names(desk, packs)
    model = read_model(desk, packs)
    whole = not desk.problems
    lint(desk, model)
    return Reading(desk, tuple(packs), model, _compiled(desk, model), whole)


def load_rulebook(folders: Sequence[Path]) -> Rulebook:
    """Every pack (*.yaml) in the folders, compiled.

    Raises Refused with all problems of all packs: what cannot be read, what is wrong in
    shape, names that mean nothing, and what lint forbids.
    """
    return _right(read_rulebook(folders))


def rulebook_from(texts: Sequence[PackText]) -> Rulebook:
    """As `load_rulebook`, from packs that were read already. Raises Refused as it does."""
    desk = Desk(Names())
    return _right(_read(desk, packs_of(desk, texts)))


def texts_in(folders: Sequence[Path]) -> tuple[PackText, ...]:
    """Every pack in the folders, as it stands there. Raises Refused where one cannot be read."""
    desk = Desk(Names())
    texts = pack_texts(desk, folders)
    if desk.problems:
        raise Refused(dict.fromkeys(desk.problems))
    return tuple(texts)


def _right(reading: Reading) -> Rulebook:
    rulebook = reading.rulebook
    if rulebook is None:
        raise Refused(reading.problems)
    return rulebook


def rulebook_of(model: Model) -> Rulebook:
    """A model, compiled, that needs no check any more. Raises engine.NegativeCycle."""
    return _with_tests(model, compile_program(tuple(definitions_of(model))))


def _with_tests(model: Model, program: Program) -> Rulebook:
    tests = {each.id for each in model.findings.values() if each.tests_channel is not None}
    cone = program.cone(sorted(tests))
    kept = [each for name, each in program.definitions.items() if name in cone]
    return Rulebook(model, program, compile_program(kept))


def definitions_of(model: Model) -> Iterator[Definition]:
    """Everything that the engine derives, in no meaningful order."""
    for finding in model.findings.values():
        yield _finding(finding)
    for interlock in model.interlocks.values():
        yield Rule(interlock_slot(interlock.id), interlock.holds)
        yield from _applies("interlock", interlock.id, interlock.applies)
    for check in model.checks.values():
        yield from _applies("check", check.id, check.applies)
    for remedy in model.remedies.values():
        yield from _applies("remedy", remedy.id, remedy.applies)
    for fault in model.faults.values():
        yield from _applies("fault", fault.id, fault.applies)
        for number, shift in enumerate(fault.shifts):
            yield Rule(shift_slot(fault.id, number), shift.when)


def _finding(finding: FindingDef) -> Definition:
    if finding.of is not None:
        return Grade(finding.id, finding.of, finding.levels, finding.cuts, finding.applies)
    assert finding.when is not None  # a finding with neither is refused when it is read
    return Rule(finding.id, finding.when, finding.applies)


def _applies(what: str, id_: str, condition: Condition | None) -> Iterator[Definition]:
    if condition is not None:
        yield Rule(applies_slot(what, id_), condition, absent_is_false=True)


def _compiled(desk: Desk, model: Model) -> Program | None:
    """The program; None, with a problem noted, where rules rest on each other's negation."""
    if any(len(each.cuts) != len(each.levels) - 1 for each in model.findings.values() if each.of):
        return None  # noted when the grade was read
    try:
        return compile_program(tuple(definitions_of(model)))
    except NegativeCycle as error:
        first = min(name for name in error.cycle if name in model.findings)
        chain = " → ".join((*error.cycle, error.cycle[0]))
        desk.wrong(
            model.findings[first].place,
            f"these rest on each other through a negation: {chain}",
            "let one of them be decided by facts alone",
        )
        return None
