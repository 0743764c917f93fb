"""What is possible and yet hardly true: asked once more, then believed and marked.

Three grounds, each said: physics (the resistance of the filter or the air against displacement
and speed, as the rulebook computes them), the same signal at another point in what looks like
another unit, and a value at the very end of what can be. The bounds are from memory: far wider
than anything a sound or broken vehicle was seen to show.
"""

from __future__ import annotations

from collections.abc import Sequence

from sootsayer.casework.facts import fact_in_force, fact_sheet
from sootsayer.casework.model import Fact
from sootsayer.casework.quantities import computed
from sootsayer.catalogue import Said, say
from sootsayer.catalogue_numbers import fixed, number, unit_said
from sootsayer.commands.asking.nominal import air_drawn, input_of, nominal_resistance
from sootsayer.commands.asking.state import Item, Session
from sootsayer.console import ask_texts as t
from sootsayer.rulebook.model import Model, Signal, SignalKind

# By physics function: lowest and highest that is still believed, in its own unit. A full filter
# has a resistance of about 0.5 mbar per m3/h; air stays within a third to three times of what
# displacement, speed and boost draw. From memory (trade habit), meant wide.
BELIEVED: dict[str, tuple[float, float]] = {
    "filter-resistance": (-0.1, 3.0),
    "air-ratio-to-rule": (0.25, 4.0),
}
_SHARE_OF_RANGE = 0.85  # beyond it a value is at the very end of what is possible
_FULL = 0.5  # mbar per m3/h of a full filter of 2.8 L, from memory
_FACTORS = (10.0, 100.0)
_LEAST = 5.0  # of a reading in steps of its signal: below it a ratio says nothing


def implausible(items: Sequence[Item], session: Session, after: Session) -> dict[str, Said]:
    """Slot to why its value is hardly true; `after` is the session with the items entered."""
    doubts: dict[str, Said] = {}
    for item in items:
        if item.absence is not None or not isinstance(item.value, float):
            continue
        why = (
            _by_physics(item, session, after)
            or _at_nominal_flow(item, session)
            or _unit_slip(item, session)
            or _at_the_end(item, session.model)
        )
        if why is not None:
            doubts[item.slot] = why
    return doubts


def _by_physics(item: Item, session: Session, after: Session) -> Said | None:
    """A quantity that this value enters and that comes out beyond belief, though it did not
    before."""
    before = {fact.slot: fact.value for fact, _ in _computed(item.slot, session)}
    for fact, formula in _computed(item.slot, after):
        low, high = BELIEVED[formula]
        assert isinstance(fact.value, float)
        if low <= fact.value <= high or before.get(fact.slot) == fact.value:
            continue
        label = session.model.quantities[fact.slot.partition("@")[0]].label
        unit = fact.unit or ""
        ends = {"low": number(low), "high": number(high)}
        return say(
            t.DOUBT_PHYSICS, label=label, value=number(fact.value), unit=unit_said(unit), **ends
        )
    return None


def _computed(slot: str, session: Session) -> list[tuple[Fact, str]]:
    """The quantities judged by BELIEVED that rest on this slot, with their formulas."""
    model = session.model
    sheet = fact_sheet(session.case, model)
    facts = {each: ranked[0] for each, ranked in sheet.by_source.items()}
    found = []
    for each in computed(facts, model).values():
        formula = model.quantities[each.slot.partition("@")[0]].formula
        if formula in BELIEVED and slot in {read.slot for read in each.read}:
            found.append((each, formula))
    return found


def _at_nominal_flow(item: Item, session: Session) -> Said | None:
    """Pressure or air that no engine of this size shows at this point."""
    name, _, point = item.slot.partition("@")
    model = session.model
    assert isinstance(item.value, float)
    if name == input_of(model, "filter-resistance", "dp"):
        value = nominal_resistance(session, point, item.value)
        low, high = BELIEVED["filter-resistance"]
        if value is not None and not low <= value <= high:
            return say(t.DOUBT_PRESSURE, times=fixed(abs(value) / _FULL))
    if name == input_of(model, "air-ratio-to-rule", "air"):
        drawn = air_drawn(session, point)
        low, high = BELIEVED["air-ratio-to-rule"]
        if drawn and not low <= item.value / drawn <= high:
            return say(t.DOUBT_AIR, drawn=fixed(drawn))
    return None


def _unit_slip(item: Item, session: Session) -> Said | None:
    """A reading at a like flow that is ten or a hundred times off."""
    name, _, point = item.slot.partition("@")
    signal = session.model.signals[name]
    neighbours = _FLOWING.get(point, ())
    assert isinstance(item.value, float)
    sheet = fact_sheet(session.case, session.model, in_round=session.round)
    for other in neighbours:
        fact = fact_in_force(sheet, f"{name}@{other}")
        if fact is None or not isinstance(fact.value, float) or signal.unit in (None, "", "C"):
            continue
        pair = sorted((abs(item.value), abs(fact.value)))
        if pair[0] <= 0 or pair[1] < _LEAST * max(signal.step, 0.1):
            continue
        ratio = pair[1] / pair[0]
        if any(factor * 0.5 < ratio < factor * 3 for factor in _FACTORS) and ratio > 8:
            return say(
                t.DOUBT_UNIT, slot=fact.slot, typed=session.said(fact.slot, fact.typed),
                times=fixed(ratio),
            )  # fmt: skip
    return None


# Points whose flow is within about three times of each other, so that no reading of one kind is
# ten times another.
_FLOWING: dict[str, tuple[str, ...]] = {
    "idle": ("cold-idle",),
    "2000": ("2500", "3000", "1500"),
    "2500": ("2000", "3000", "1500"),
    "3000": ("2500", "2000"),
    "1500": ("2000", "2500"),
}


def _at_the_end(item: Item, model: Model) -> Said | None:
    signal = model.signals[item.slot.partition("@")[0]]
    assert isinstance(item.value, float)
    if not _has_far_ends(signal):
        return None
    assert signal.possible is not None
    low, high = signal.possible
    if item.value > high * _SHARE_OF_RANGE or (low < 0 and item.value < low * _SHARE_OF_RANGE):
        span = {"low": number(low), "high": number(high), "unit": unit_said(signal.unit or "")}
        return say(t.DOUBT_END, **span)
    return None


def _has_far_ends(signal: Signal) -> bool:
    """Per cents, volts and absolute pressures of the day do reach their ends; other numbers
    hardly."""
    if signal.kind is not SignalKind.NUMBER or signal.possible is None:
        return False
    return signal.unit not in ("%", "V", "L", None) and signal.possible[0] <= 0
