"""Packs on disk → every problem of them, or the compiled rulebook."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from sootsayer.catalogue import say
from sootsayer.documents.problems import Problem, Refused
from sootsayer.documents.resting import collector_at_rest
from sootsayer.engine.program import NegativeCycle, Program, compile_program
from sootsayer.rulebook.collect import collect_names
from sootsayer.rulebook.compiled import Rulebook, definitions_of, with_tests
from sootsayer.rulebook.desk import Desk, Pack
from sootsayer.rulebook.lint.all_checks import lint
from sootsayer.rulebook.merge import read_model
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.names import Names
from sootsayer.rulebook.pack_file import packs_of, read_packs, with_overrides
from sootsayer.rulebook.pack_texts import PackText
from sootsayer.rulebook.retired_from import collect_retired
from sootsayer.rulebook.shops_packs import ids_are_told_apart


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
        return with_tests(self.model, self.program)


def read_rulebook(folders: Sequence[Path]) -> Reading:
    """Every pack (*.yaml) in the folders, read as far as it can be. Raises nothing of its own."""
    desk = Desk(Names())
    with collector_at_rest():
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


def reading_of(texts: Sequence[PackText]) -> Reading:
    """As `read_rulebook`, from packs that were read already."""
    desk = Desk(Names())
    with collector_at_rest():
        return _read(desk, packs_of(desk, texts))


def right(reading: Reading) -> Rulebook:
    """The rulebook. Raises Refused with every problem where there is none."""
    rulebook = reading.rulebook
    if rulebook is None:
        raise Refused(reading.problems)
    return rulebook


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
            say("these rest on each other through a negation: {chain}", chain=chain),
            say("let one of them be decided by facts alone"),
        )
        return None
