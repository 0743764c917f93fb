"""Facts → physics → facts: the quantities that packs declare, where their inputs are known.

A quantity rests on the facts that it was given, so it is as trustworthy as they are: it is
computed afresh for every view of the facts, and names the facts it came from.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from sootsayer.casework.model import Fact, Source
from sootsayer.physics.measured import Measured
from sootsayer.physics.quantities import QUANTITIES
from sootsayer.physics.quantity import Answer, Input, answer
from sootsayer.physics.units import convert, convert_difference
from sootsayer.rulebook.memory import remembered
from sootsayer.rulebook.model import Model, QuantityDef

# What was computed from which facts, by the slot and the ids of the facts, which are kept beside
# the answer so that their ids stay their own: the views of one case share most of their facts.
Kept = dict[tuple[object, ...], tuple[tuple[Fact | None, ...], Fact | None]]
MOST_KEPT = 2048


@dataclass(frozen=True, slots=True)
class Wanted:
    """One quantity at one point: its slot, and for each input of the formula the slot it takes."""

    slot: str
    definition: QuantityDef
    takes: Mapping[str, str]


def wanted(model: Model) -> tuple[Wanted, ...]:
    """Every quantity at every point, each after those that it takes; ties by slot."""
    return remembered(model, "quantities", lambda: _placed(model))


def _placed(model: Model) -> tuple[Wanted, ...]:
    rest = {each.slot: each for each in _every(model)}
    placed: list[Wanted] = []
    while rest:
        ready = [w for w in rest.values() if not (set(w.takes.values()) - {w.slot}) & set(rest)]
        for one in sorted(ready or rest.values(), key=lambda w: w.slot):
            placed.append(one)
            del rest[one.slot]
    return tuple(placed)


def computed(facts: Mapping[str, Fact], model: Model) -> dict[str, Fact]:
    """The quantities that these facts give, by slot; one whose inputs are missing is left out."""
    found: dict[str, Fact] = {}
    kept: Kept = remembered(model, "quantities kept", dict)
    if len(kept) > MOST_KEPT:
        kept.clear()
    for each in wanted(model):
        inputs = tuple([found.get(slot) or facts.get(slot) for slot in each.takes.values()])
        key = each.slot, *map(id, inputs)
        known = kept.get(key)
        if known is None:
            known = kept[key] = inputs, _computed(each, inputs, model)
        if known[1] is not None:
            found[each.slot] = known[1]
    return found


def _computed(each: Wanted, inputs: Sequence[Fact | None], model: Model) -> Fact | None:
    named = zip(each.takes, inputs, strict=True)
    known = {name: fact for name, fact in named if fact is not None and _is_number(fact)}
    result = _answer(each, known)
    if result.value is None:
        return None
    return _fact(each, result.value, tuple(known.values()), model)


def missing_inputs(facts: Mapping[str, Fact], model: Model, slot: str) -> tuple[str, ...]:
    """The facts that a quantity still lacks, in the formula's order; empty for any other slot.

    A quantity among its inputs is followed down to the facts that that one lacks.
    """
    if slot.partition("@")[0] not in model.quantities:
        return ()
    each = remembered(model, "by slot", lambda: {w.slot: w for w in wanted(model)}).get(slot)
    if each is None:
        return ()
    lacking: dict[str, None] = {}
    formula = QUANTITIES[each.definition.formula]
    known = {name for name, at in each.takes.items() if _is_number(facts.get(at))}
    for name in formula.missing(known):
        at = each.takes.get(name)
        if at is not None:
            lacking.update(dict.fromkeys(missing_inputs(facts, model, at) or (at,)))
    return tuple(lacking)


def _every(model: Model) -> Iterator[Wanted]:
    for definition in model.quantities.values():
        for point in definition.points or ("",):
            slot = f"{definition.id}@{point}" if point else definition.id
            takes = {name: slot_at(model, ref, point) for name, ref in definition.takes.items()}
            yield Wanted(slot, definition, takes)


def slot_at(model: Model, reference: str, point: str) -> str:
    """`dp` is read at the quantity's own point, `dp@rest` where it says, a size nowhere."""
    signal = model.signals.get(reference)
    return f"{reference}@{point}" if signal is not None and signal.points and point else reference


def _is_number(fact: Fact | None) -> bool:
    return fact is not None and isinstance(fact.value, float)


def _answer(each: Wanted, known: Mapping[str, Fact]) -> Answer:
    by_name = {at.name: at for at in QUANTITIES[each.definition.formula].inputs}
    measured = tuple((name, _measured(by_name[name], fact)) for name, fact in sorted(known.items()))
    return _reckoned(each.definition.formula, measured)


@lru_cache(maxsize=2048)
def _reckoned(formula: str, measured: tuple[tuple[str, Measured], ...]) -> Answer:
    """Kept for the other views of the same case, in which most readings are the same."""
    return answer(QUANTITIES[formula], dict(measured))


def _measured(wants: Input, fact: Fact) -> Measured:
    assert isinstance(fact.value, float)
    unit = fact.unit or ""
    if unit == wants.unit:
        return Measured(fact.value, fact.sd)
    return Measured(
        convert(fact.value, unit, wants.unit),
        convert_difference(fact.sd, unit, wants.unit),
    )


def _fact(each: Wanted, value: Measured, used: tuple[Fact, ...], model: Model) -> Fact:
    """The computed fact: of the newest entry, but as old as the oldest that it came from."""
    signal = model.signals[each.definition.id]
    formula = QUANTITIES[each.definition.formula]
    own = signal.unit or formula.unit
    turned = convert_difference if formula.difference else convert
    newest = max(used, key=lambda fact: (fact.at, fact.entry))
    return Fact(
        slot=each.slot,
        value=turned(value.value, formula.unit, own),
        absence=None,
        unit=signal.unit,
        source=Source.COMPUTED,
        round=newest.round,
        entry=newest.entry,
        at=min(fact.at for fact in used),
        place=newest.place,
        typed="",
        sd=convert_difference(value.sd, formula.unit, own),
        came_from=used,
    )
