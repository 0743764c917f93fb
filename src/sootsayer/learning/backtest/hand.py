"""Which of the changed rules have a hand in what differs between two verdicts of one case.

Not who is to blame to a hair: with several changed rules in play each of them is named.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from sootsayer.belief.network import Kind
from sootsayer.judgement.brief import Brief
from sootsayer.learning.backtest.changes import RuleChange
from sootsayer.learning.backtest.found import Changed, Moved
from sootsayer.rulebook.compiled import Rulebook, applies_slot, interlock_slot, shift_slot
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.reads import quantity_inputs

_InPlay = Callable[[RuleChange], bool]
_BELIEF = frozenset({"links", "faults", "families"})
_READ = frozenset({"signals", "points", "quantities", "limits", "findings", "channels"})


class Hands:
    """Kept for one pair of rulebooks; what does not change from case to case is worked out once."""

    def __init__(self, before: Rulebook, after: Rulebook, changed: Sequence[RuleChange]) -> None:
        self._books = (before, after)
        self._changed = tuple(changed)
        self._behind: dict[str, frozenset[str]] = {}

    def of(
        self,
        pair: tuple[Brief, Brief],
        moved: Sequence[Moved],
        findings: Sequence[Changed],
        kinds: Sequence[Kind],
        asked: bool,
    ) -> tuple[str, ...]:
        """Names of the changed rules. `kinds`: those with another leading fault; `asked`: whether
        another check is proposed."""
        wanted: list[_InPlay] = []
        levels = {each.finding for each in findings}
        for each in findings:
            wanted.append(self._reads(each.finding))
        for move in moved:
            wanted.append(self._permits(move.action))
        if kinds:
            wanted.append(self._believes(pair, levels))
        if asked:
            wanted.append(lambda change: change.part in {*_BELIEF, "checks"})
        found = [c.name for c in self._changed if any(test(c) for test in wanted)]
        return tuple(dict.fromkeys(found or [c.name for c in self._changed]))

    def _reads(self, slot: str) -> _InPlay:
        behind = self._all_behind(slot)
        return lambda change: change.part in _READ and change.of in behind

    def _permits(self, action: str) -> _InPlay:
        locks = {
            lock
            for book in self._books
            if action in book.model.actions
            for lock in (*book.model.actions[action].needs, *book.model.actions[action].heeds)
        }
        behind = frozenset().union(
            *(
                self._all_behind(slot)
                for lock in locks
                for slot in (interlock_slot(lock), applies_slot("interlock", lock))
            )
        )
        return lambda change: (
            (change.part == "actions" and change.of == action)
            or (change.part == "interlocks" and change.of in locks)
            or (change.part in _READ and change.of in behind)
        )

    def _believes(self, pair: tuple[Brief, Brief], levels: set[str]) -> _InPlay:
        spoke = {name for each in pair for name in each.speakers}
        spoke |= {speaker for each in pair for speaker in each.speakers.values()}
        behind = frozenset().union(*(self._all_behind(name) for name in levels), self._shifting())

        def in_play(change: RuleChange) -> bool:
            if change.part in {"links", "families"}:
                return change.of in spoke
            return change.part == "faults" or (change.part in _READ and change.of in behind)

        return in_play

    def _shifting(self) -> frozenset[str]:
        """What priors are shifted by, and what faults apply by."""
        slots = {
            slot
            for book in self._books
            for fault in book.model.faults.values()
            for slot in (
                applies_slot("fault", fault.id),
                *(shift_slot(fault.id, i) for i in range(len(fault.shifts))),
            )
        }
        return frozenset().union(*map(self._all_behind, sorted(slots)))

    def _all_behind(self, slot: str) -> frozenset[str]:
        """Findings, signals, quantities, points, channels and limits that a slot rests on."""
        found = self._behind.get(slot)
        if found is None:
            found = frozenset().union(*(_behind(book, slot) for book in self._books))
            self._behind[slot] = found
        return found


def _behind(book: Rulebook, slot: str) -> frozenset[str]:
    if slot not in book.program.definitions:
        return frozenset()
    found = {slot, *book.program.cone([slot])}
    for read in book.program.reads(slot):
        found.update(_reading(book.model, read))
    return frozenset(found) | frozenset(book.model.limits)


def _reading(model: Model, slot: str) -> Iterator[str]:
    name, _, point = slot.partition("@")
    yield from (name, point)
    signal = model.signals.get(name)
    yield from () if signal is None else signal.channels.values()
    for each in quantity_inputs(model, slot):
        yield from _reading(model, each)
