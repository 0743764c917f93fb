"""Which outcomes of each condition are shown, by proofs and by cases, and which are not.

Of a rule the outcomes are its levels and unknown; of each test in its condition true, false
and unknown. A proof counts for its own rule, a case for every rule.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from sootsayer.engine.conditions import Condition, Grade, Known, Rule, Truth, Value
from sootsayer.engine.layout import Cells
from sootsayer.engine.program import Program, absent_in_when
from sootsayer.engine.reading import leaves_in
from sootsayer.judgement.proofs import program_of, proof_values, proofs_by_slot
from sootsayer.judgement.softness import as_level
from sootsayer.rulebook.compiled import Rulebook

UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Shown:
    """One outcome of a rule, or of a test in it (`part`): how many proofs and cases show it.

    `slot` is a finding's id, or `interlock:ID`, `shift:FAULT:NUMBER`, `applies:KIND:ID`.
    """

    slot: str
    part: Condition | None
    outcome: str
    proofs: int
    cases: int


@dataclass(frozen=True, slots=True)
class Facts:
    """What a case gives the engine: values by slot, and the limits in force."""

    values: Mapping[str, Value]
    limits: Mapping[str, float]


def coverage(rulebook: Rulebook, cases: Iterable[Facts] = ()) -> tuple[Shown, ...]:
    """Every outcome there is, in the order of rules; `cases` may be a stream."""
    counting = _Counting(rulebook)
    counting.take_proofs()
    for facts in cases:
        counting.take_case(facts)
    return counting.told()


Key = tuple[str, int, str]  # slot, number of the part (0 for the rule itself), outcome


class _Counting:
    def __init__(self, rulebook: Rulebook) -> None:
        self._rulebook = rulebook
        self._program = rulebook.program
        self._proofs: dict[Key, int] = {}
        self._cases: dict[Key, int] = {}
        self._slots = [
            slot for slot, _ in proofs_by_slot(rulebook.model) if slot in self._program.definitions
        ]
        self._tests = {slot: list(self._parts(slot)) for slot in self._slots}

    def take_proofs(self) -> None:
        limits = {limit.id: limit.default for limit in self._rulebook.model.limits.values()}
        for slot, proofs in proofs_by_slot(self._rulebook.model):
            if not proofs or slot not in self._tests:
                continue
            program = program_of(self._rulebook, slot)
            for proof in proofs:
                cells = program.settled(proof_values(self._rulebook, proof), limits, slot)
                self._count(self._proofs, slot, program, cells)

    def take_case(self, facts: Facts) -> None:
        cells = self._program.load(facts.values, facts.limits)
        self._program.evaluate(cells, None)
        for slot in self._slots:
            self._count(self._cases, slot, self._program, cells)

    def told(self) -> tuple[Shown, ...]:
        return tuple(
            Shown(slot, part, outcome, self._proofs.get(key, 0), self._cases.get(key, 0))
            for slot in self._slots
            for number, part, outcomes in self._wanted(slot)
            for outcome in outcomes
            for key in [(slot, number, outcome)]
        )

    def _wanted(self, slot: str) -> Iterator[tuple[int, Condition | None, tuple[str, ...]]]:
        definition = self._program.definitions[slot]
        levels = definition.levels if isinstance(definition, Grade) else ("true", "false")
        yield 0, None, (*levels, UNKNOWN)
        tests = self._tests[slot]
        if len(tests) < 2:
            return  # the one test is the rule itself
        for number, (part, _) in enumerate(tests, start=1):
            # `known` is never unknown.
            yield number, part, ("true", "false", *(() if isinstance(part, Known) else (UNKNOWN,)))

    def _parts(self, slot: str) -> Iterator[tuple[Condition, Truth]]:
        definition = self._program.definitions[slot]
        if isinstance(definition, Rule):
            for test, _ in leaves_in(definition.when):
                yield test, absent_in_when(definition)
        if definition.applies is not None:
            for test, _ in leaves_in(definition.applies):
                yield test, False

    def _count(self, into: dict[Key, int], slot: str, program: Program, cells: Cells) -> None:
        value = as_level(cells[program.layout.slot[slot]]) or UNKNOWN
        _add(into, (slot, 0, value))
        tests = self._tests[slot]
        for number, (part, absent) in enumerate(tests if len(tests) > 1 else (), start=1):
            truth = program.truth(part, cells, absent)
            _add(into, (slot, number, as_level(truth) or UNKNOWN))


def _add(into: dict[Key, int], key: Key) -> None:
    into[key] = into.get(key, 0) + 1
