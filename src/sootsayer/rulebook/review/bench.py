"""What the review of a rulebook works with: what a slot may hold, and what somebody can answer."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from sootsayer.catalogue import Said
from sootsayer.documents.nodes import Mapping as Body
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem
from sootsayer.engine.conditions import Value
from sootsayer.engine.goals import Goal, Goals
from sootsayer.engine.layout import Cells
from sootsayer.engine.possible import Found, Range, possible
from sootsayer.engine.program import Program
from sootsayer.engine.reading import limits_of
from sootsayer.rulebook.desk import Desk, Pack
from sootsayer.rulebook.model import Model, Signal, SignalKind
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.reads import quantity_inputs, slots_given
from sootsayer.rulebook.review.remark import Concern, Decided, Decision, Gathered, Remark, Weight

# What the header of a case says of the vehicle, without a check (casework/facts.py).
FROM_HEADER = frozenset({"engine-litres", "cylinders", "filter-litres"})
FITTED = "fitted-"


@dataclass(slots=True)
class Bench:
    """A rulebook under review. `limits`: the number of each limit, a shop's own before the pack's.

    `ranges`: every fact slot; `within_reach`: those that a check or the header gives, or that are
    computed from such. `bare`: the program's cells with nothing known but the limits.
    """

    model: Model
    program: Program
    limits: Mapping[str, float]
    lines: Mapping[str, tuple[str, ...]]
    packs: Mapping[str, Pack]
    ranges: dict[str, Range]
    within_reach: dict[str, Range]
    goals: Goals
    bare: Cells
    found: Gathered = field(default_factory=Gathered)

    def whole(self, slot: str) -> bool:
        """Whether all that the slot rests on was read: else nothing can be said of it."""
        if slot not in self.program.layout.slot:
            return False
        cone = self.program.cone((slot,))
        definitions = self.program.definitions
        if not all(each in self.ranges for each in cone if each not in definitions):
            return False
        return all(
            limit in self.limits
            for each in cone if each in definitions for limit in limits_of(definitions[each])
        )  # fmt: skip

    def can(self, *goals: Goal, reached: bool = False) -> Found:
        """Whether there is a case in which all hold, of `reached` facts alone if so."""
        return possible(goals, self.within_reach if reached else self.ranges)

    def remark(
        self, concern: Concern, weight: Weight, thing: str, place: Place, what: Said, instead: Said,
        case: dict[str, Value] | None = None,
    ) -> None:  # fmt: skip
        lines = self.lines.get(place.file, ())
        line = lines[place.line - 1] if 0 < place.line <= len(lines) else ""
        problem = Problem(place, what, instead, line)
        self.found.remarks.append(Remark(concern, weight, thing, problem, case or {}))

    def decided(
        self, concern: Concern, thing: str, claim: Said, decided: Decided,
        case: dict[str, Value] | None = None, other: str = "",
    ) -> None:  # fmt: skip
        self.found.decisions.append(Decision(concern, thing, claim, decided, case or {}, other))

    def place_of(self, pack: str, section: Section, id_: str, key: str, thing: Place) -> Place:
        """Where a key of an item stands; the item itself where it has none."""
        document = self.packs[pack].document if pack in self.packs else None
        body = None if document is None else document.root.get(section.value)
        item = body.get(id_) if isinstance(body, Body) else None
        return item.key_places.get(key, thing) if isinstance(item, Body) else thing


def bench_of(
    desk: Desk, packs: Sequence[Pack], model: Model, program: Program, limits: Mapping[str, float]
) -> Bench:
    """The bench for what was read; `limits` are a shop's own, in the unit of the limit."""
    numbers = {limit.id: limit.default for limit in model.limits.values()} | dict(limits)
    ranges = ranges_of(model)
    reached = within_reach(model)
    return Bench(
        model, program, numbers, desk.lines, {pack.id: pack for pack in packs}, ranges,
        {slot: each for slot, each in ranges.items() if slot in reached},
        Goals(program.definitions, numbers), _bare(program, numbers),
    )  # fmt: skip


def _bare(program: Program, limits: Mapping[str, float]) -> Cells:
    try:
        return program.load({}, limits)
    except KeyError:  # a limit whose own declaration is broken; what names it is not looked at
        return []


def ranges_of(model: Model) -> dict[str, Range]:
    """What each fact slot may hold, trouble codes too."""
    found: dict[str, Range] = {f"code:{code}": Range((True, False)) for code in model.codes}
    for signal in model.signals.values():
        for slot in slots_of(signal):
            found[slot] = _range(signal)
    return found


def slots_of(signal: Signal) -> list[str]:
    return [f"{signal.id}@{point}" for point in signal.points] or [signal.id]


def _range(signal: Signal) -> Range:
    if signal.kind is SignalKind.YES_NO:
        return Range((True, False))
    if signal.kind is SignalKind.CHOICE:
        return Range(signal.choices)
    low, high = signal.possible or (None, None)
    return Range((), low, high)


def within_reach(model: Model) -> set[str]:
    """The fact slots that a check or the header gives, and what is computed from those alone."""
    reached = {slot for check in model.checks.values() for slot in slots_given(model, check)}
    signals = [slot for signal in model.signals.values() for slot in slots_of(signal)]
    reached |= {slot for slot in signals if slot in FROM_HEADER or slot.startswith(FITTED)}
    waiting = [slot for slot in signals if quantity_inputs(model, slot)]
    while True:
        more = [
            slot for slot in waiting
            if slot not in reached and all(i in reached for i in quantity_inputs(model, slot))
        ]  # fmt: skip
        if not more:
            return reached
        reached.update(more)
