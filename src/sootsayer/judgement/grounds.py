"""What a conclusion rests on, down to the entries."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache

from sootsayer.casework.model import Fact
from sootsayer.casework.quantities import missing_inputs
from sootsayer.engine.grounds import Grounds, Waits, awaits, minimal_grounds
from sootsayer.judgement.verdict import Ground, RuleAt
from sootsayer.judgement.views import View
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.model import Model, SignalKind
from sootsayer.rulebook.reads import slots_given


def grounds_of(work: Workings, name: str, seen: View | None = None) -> tuple[Ground, ...]:
    """A minimal set of facts that decides derived slot `name`, in slot order; empty if unknown.

    A channel test that it rests on is followed down to the facts that decided the test.
    """
    facts: dict[str, Fact] = {}
    _follow(work, name, seen or work.view_of(name), facts)
    return tuple(ground(work.model, facts[slot]) for slot in sorted(facts))


def _follow(work: Workings, name: str, seen: View, facts: dict[str, Fact]) -> None:
    for slot in _asked(work, "rests on", seen, name, lambda: _resting(work, name, seen)):
        if slot in seen.facts:
            facts.update({fact.slot: fact for fact in seen.facts[slot].read})
        elif slot in work.decided_in:
            _follow(work, slot, work.view_of(slot), facts)


def awaited(work: Workings, name: str, seen: View | None = None) -> tuple[str, ...]:
    """The unknown facts that could still decide `name`; those of a test instead of the test."""
    view = seen or work.view_of(name)
    return _asked(work, "waits for", view, name, lambda: _awaited(work, name, view))


def _awaited(work: Workings, name: str, view: View) -> tuple[str, ...]:
    found: set[str] = set()
    waits = _waited_for(work, name, view)
    quantities = work.model.quantities
    if not any(s in work.decided_in or s.partition("@")[0] in quantities for s in waits):
        return waits
    for slot in waits:
        if slot in work.decided_in:
            found.update(awaited(work, slot))
        else:
            found.update(missing_inputs(view.facts, work.model, slot) or (slot,))
    return tuple(sorted(found))


def _waited_for(work: Workings, name: str, seen: View) -> tuple[str, ...]:
    program = work.rulebook.program
    if name in seen.values or not _often_asked(work, seen):
        return awaits(program, seen.before(name), work.limits, name)
    waits = work.waits.get(id(seen))
    if waits is None:
        waits = work.waits[id(seen)] = Waits(program, seen.values, work.limits)
    return waits.of(name)


def _often_asked(work: Workings, seen: View) -> bool:
    """Whether hundreds of slots are asked of a view."""
    return seen is work.trusted or seen is work.proven


def _resting(work: Workings, name: str, seen: View) -> tuple[str, ...]:
    program = work.rulebook.program
    if name in seen.values or not _often_asked(work, seen):
        return minimal_grounds(program, seen.before(name), work.limits, name)
    rests = work.rests.get(id(seen))
    if rests is None:
        rests = work.rests[id(seen)] = Grounds(program, seen.values, work.limits)
    return rests.of(name)


def _asked(
    work: Workings, what: str, seen: View, name: str, answer: Callable[[], tuple[str, ...]]
) -> tuple[str, ...]:
    """The answer, looked for once."""
    key = (what, id(seen), name)
    known = work.asked.get(key)
    if known is None:
        known = work.asked[key] = seen, answer()
    return known[1]


def ground(model: Model, fact: Fact) -> Ground:
    """A fact as something that a conclusion rests on."""
    return Ground(
        slot=fact.slot,
        label=slot_label(model, fact.slot),
        value=fact.value,
        unit=fact.unit,
        source=fact.source.value,
        round=fact.round,
        entry=fact.entry,
        line=fact.place.line,
        typed=fact.typed,
    )


def slot_label(model: Model, slot: str) -> str:
    """The words for a slot: the signal's label and the point's."""
    name, _, point = slot.partition("@")
    signal = model.signals.get(name)
    if signal is None:
        return slot.removeprefix("code:")
    at = model.points.get(point)
    return signal.label if at is None else f"{signal.label}, {at.label}"


def slot_unit(model: Model, slot: str) -> str | None:
    """The unit of a slot's numbers, None for words."""
    signal = model.signals.get(slot.partition("@")[0])
    return signal.unit if signal is not None and signal.kind is SignalKind.NUMBER else None


@lru_cache(maxsize=8192)
def rule_at(place_file: str, line: int, revision: str) -> RuleAt:
    """A rule's place without the folder, so that a verdict is the same on every machine."""
    return RuleAt(place_file.replace("\\", "/").rpartition("/")[2], line, revision)


def checks_giving(model: Model, slots: tuple[str, ...], ruled_out: Mapping[str, bool]) -> list[str]:
    """Checks that give any of the slots, cheapest first; those that do not apply left out."""
    wanted = set(slots)
    found = [
        check
        for check in model.checks.values()
        if wanted & set(slots_given(model, check)) and not ruled_out.get(check.id, False)
    ]
    return [check.id for check in sorted(found, key=lambda check: (check.minutes, check.id))]
