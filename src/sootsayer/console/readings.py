"""Readings, the limits they were held to, and reasons, as short sentences."""

from __future__ import annotations

from itertools import groupby

from sootsayer.catalogue import Said, listed, say
from sootsayer.console import judge_texts as t
from sootsayer.console.names import Names
from sootsayer.console.words import source_said, value_said
from sootsayer.judgement.verdict import Ground, InterlockSaid, LimitUsed, Verdict

CODE = "code:"


def own_readings(rule: str, grounds: tuple[Ground, ...], names: Names) -> list[Ground]:
    """The grounds that the rule itself reads, as it writes them; what only lets it apply is out.

    All of them where none is the rule's own.
    """
    order = names.main_slots.get(rule, ())
    own = [ground for ground in grounds if ground.slot in order]
    return sorted(own, key=lambda ground: order.index(ground.slot)) or list(grounds)


def readings_short(grounds: list[Ground], names: Names, most: int = 2) -> Said:
    """`34 hPa and 20 hPa, entry 2`: the first few, and how many more."""
    absent = [ground for ground in grounds if ground.slot.startswith(CODE) and not ground.value]
    if len(absent) == len(grounds) > 1:
        return say(t.CODES_ABSENT, count=len(absent), entry=grounds[0].entry)
    parts = []
    for entry, group in groupby(grounds[:most], key=lambda ground: ground.entry):
        typed = [names.typed(each.slot, each.typed) for each in group if _tells(each)]
        if not typed:
            parts.append(say(t.GROUND_BARE, entry=entry))
        elif len(typed) == 1:
            parts.append(say(t.GROUND, typed=typed[0], entry=entry))
        else:
            first, second = typed[0], typed[1]
            parts.append(say(t.GROUND_TWO, first=first, second=second, entry=entry))
    if len(grounds) > most:
        return say(t.GROUNDS_MORE, grounds=listed(parts), count=len(grounds) - most)
    return listed(parts)


def _tells(ground: Ground) -> bool:
    """Not a bare yes or no: beside a finding it would be read as the finding's own."""
    return ground.slot.startswith(CODE) or not isinstance(ground.value, bool)


def readings_held(
    lock: InterlockSaid, limits: tuple[LimitUsed, ...], names: Names, *, whole: bool = False
) -> Said:
    """Each reading (`whole`: by its label), with the limit it was held to and whose that is."""
    used = {limit.id: limit for limit in limits}
    held = names.held_to.get(lock.id, {})
    parts = []
    for ground in own_readings(lock.id, lock.grounds, names):
        typed = names.typed(ground.slot, ground.typed)
        slots = {"label": ground.label, "typed": typed, "entry": ground.entry}
        word = isinstance(ground.value, str)
        reading = say(t.READING if whole or word else t.GROUND, **slots)
        limit = used.get(held.get(ground.slot, ""))
        if limit is not None:
            value = value_said(limit.value, limit.unit)
            origin = say(t.LIMIT_ORIGIN.get(limit.origin, t.LIMIT_ORIGIN["pack"]))
            reading = say(t.READING_HELD, reading=reading, limit=value, origin=origin)
        parts.append(reading)
    return listed(parts)


def reason(
    lock: InterlockSaid, limits: tuple[LimitUsed, ...], names: Names, *, whole: bool = False
) -> Said:
    """Why an interlock stands as it does, with what it rests on and was held to."""
    key = lock.reason.value
    if key == "does-not-hold" and lock.when_not:
        key = "when-not"
    with_grounds, bare = t.REASON[key]
    slots = {"says": lock.says, "when_not": lock.when_not}
    if not lock.grounds:
        return say(bare, **slots)
    return say(with_grounds, **slots, grounds=readings_held(lock, limits, names, whole=whole))


def contradictions(verdict: Verdict, names: Names) -> list[Said]:
    """Every two sources that differ, which of them counts, and nobody to blame."""
    return [
        say(
            t.DIFFER,
            label=each.label,
            source=source_said(each.counts.source),
            typed=names.typed(each.slot, each.counts.typed),
            other_source=source_said(each.other.source),
            other=names.typed(each.slot, each.other.typed),
        )
        for each in verdict.contradictions
    ]


def counted(parts: list[Said], most: int) -> Said:
    """`a; b; and 3 more`."""
    if len(parts) <= most:
        return listed(parts)
    return say(t.LIST_CUT, parts=listed(parts[:most]), count=len(parts) - most)
