"""The compiled rulebook, and the one way in: `load_rulebook`.

Reading packs is in `loading`, which is imported when it is called for: it brings the parser and
every check with it, and who has a rulebook already needs none of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from sootsayer.engine.conditions import Condition, Definition, Grade, Rule
from sootsayer.engine.program import Program, compile_program
from sootsayer.rulebook.model import Digests, FindingDef, Model
from sootsayer.rulebook.pack_texts import PackText, texts_in
from sootsayer.rulebook.shipped import shipped_cases, shipped_rules

if TYPE_CHECKING:
    from sootsayer.rulebook.loading import Reading

__all__ = [
    "PackText",
    "Rulebook",
    "applies_slot",
    "definitions_of",
    "interlock_slot",
    "load_rulebook",
    "read_rulebook",
    "rulebook_from",
    "rulebook_of",
    "shift_slot",
    "shipped_cases",
    "shipped_rules",
    "texts_in",
    "with_tests",
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


def read_rulebook(folders: Sequence[Path]) -> Reading:
    """Every pack (*.yaml) in the folders, read as far as it can be. Raises nothing of its own."""
    from sootsayer.rulebook import loading

    return loading.read_rulebook(folders)


def load_rulebook(folders: Sequence[Path]) -> Rulebook:
    """Every pack (*.yaml) in the folders, compiled.

    Raises Refused with all problems of all packs: what cannot be read, what is wrong in
    shape, names that mean nothing, and what lint forbids.
    """
    from sootsayer.rulebook import loading

    return loading.right(loading.read_rulebook(folders))


def rulebook_from(texts: Sequence[PackText]) -> Rulebook:
    """As `load_rulebook`, from packs that were read already. Raises Refused as it does."""
    from sootsayer.rulebook import loading

    return loading.right(loading.reading_of(texts))


def rulebook_of(model: Model) -> Rulebook:
    """A model, compiled, that needs no check any more. Raises engine.NegativeCycle."""
    return with_tests(model, compile_program(tuple(definitions_of(model))))


def with_tests(model: Model, program: Program) -> Rulebook:
    """The rulebook of a model and its program."""
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
