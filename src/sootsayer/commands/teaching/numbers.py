"""Typed numbers: from what value something counts, a range, and how often."""

from __future__ import annotations

import re

from sootsayer.catalogue import Said, say
from sootsayer.catalogue_numbers import number
from sootsayer.commands.teaching.draft import Chosen, Counts
from sootsayer.commands.teaching.talk import NotTaken
from sootsayer.commands.usage import short
from sootsayer.console import rules_new_texts as t
from sootsayer.engine.conditions import Op
from sootsayer.physics.units import UnitError, convert_reading, known_unit, read_number
from sootsayer.rulebook.frequencies import WORDS

_OPS = {
    Op.AT_LEAST: ("at least", "from", ">=", "not below"),
    Op.AT_MOST: ("at most", "up to", "<=", "not above"),
    Op.ABOVE: ("above", "over", "more than", "higher than", ">"),
    Op.BELOW: ("below", "under", "less than", "lower than", "<"),
    Op.OUTSIDE: ("outside", "not between"),
    Op.BETWEEN: ("between",),
}
_TWO = re.compile(r"(.+?)\s+(?:and|to|or)\s+(.+)")
_RANGE = re.compile(r"(.+?)\s+to\s+(.+)")
_SHARE = re.compile(r"(\d+) (?:of|out of|in) (\d+)")
_PER_CENT = re.compile(r"(\d+(?:[.,]\d+)?) ?(?:%|per ?cent)")


def counts(typed: str, fact: Chosen) -> Counts:
    """What `above 12 mbar` or `between 3 and 6` asks for, in the fact's unit. Raises NotTaken."""
    op, rest = _op(typed.casefold(), typed)
    if op is None:
        raise NotTaken(
            say(t.VALUE_NOT, typed=short(typed)), say(t.VALUE_NOT_NEXT, example=example(fact))
        )
    if op in (Op.BETWEEN, Op.OUTSIDE):
        pair = _TWO.fullmatch(rest)
        if pair is None:
            what = say(t.VALUE_NOT, typed=short(typed))
            raise NotTaken(what, say("write two numbers: between 3 and 6"))
        typed_two = _with_unit_of_last(pair[1], pair[2])
        low, high = (_number(each, fact) for each in typed_two)
        if low >= high:
            raise NotTaken(say(t.VALUE_ORDER), say("write them the other way round"))
        found = Counts(op, (low, high))
    else:
        found = Counts(op, (_number(rest, fact),))
    _divides(found, fact)
    return found


def _op(folded: str, typed: str) -> tuple[Op | None, str]:
    for op, words in _OPS.items():
        for word in words:
            if folded.startswith(word):
                return op, typed[len(word) :].strip()
    return None, typed


def _with_unit_of_last(low: str, high: str) -> tuple[str, str]:
    """`3` and `6 mbar`: the unit written once is meant of both."""
    try:
        if read_number(low).unit is None and read_number(high).unit is not None:
            return f"{low} {read_number(high).unit}", high
    except UnitError:
        pass
    return low, high


def _number(typed: str, fact: Chosen) -> float:
    try:
        said = read_number(typed)
        unit = fact.unit if said.unit is None else said.unit
        value = convert_reading(said.value, unit, fact.unit)
    except UnitError as error:
        raise NotTaken(say("{what}", what=str(error)), say("{i}", i=error.instead)) from None
    value = round(value, 9)
    if fact.possible is not None and not fact.possible[0] <= value <= fact.possible[1]:
        slots = _ends(fact)
        raise NotTaken(
            say(t.VALUE_RANGE, value=number(value), unit=fact.unit, **slots),
            say(t.VALUE_RANGE_NEXT, **slots),
        )
    return value


def _divides(found: Counts, fact: Chosen) -> None:
    """Something possible must be so, and something not."""
    if fact.possible is None:
        return
    low, high = fact.possible
    tried = [low, high, *found.numbers, *(n + d for n in found.numbers for d in (-1e-6, 1e-6))]
    truths = {found.holds(value) for value in tried if low <= value <= high}
    if len(truths) < 2:
        raise NotTaken(say(t.VALUE_ALWAYS), say(t.VALUE_ALWAYS_NEXT))


def _ends(fact: Chosen) -> dict[str, Said]:
    low, high = fact.possible or (0.0, 0.0)
    return {"low": number(low), "high": number(high)}


def example(fact: Chosen) -> Said:
    """A number that could stand there, with its unit."""
    low, high = fact.possible or (0.0, 20.0)
    value = low + (high - low) / 10
    step = fact.step or 1.0
    shown = number(round(value / step) * step)
    return say("{number} {unit}", number=shown, unit=fact.unit) if fact.unit else shown


def possible_range(typed: str) -> tuple[tuple[float, float], str]:
    """`0 to 200 mbar`: the ends and the unit, "" for none. Raises NotTaken."""
    pair = _RANGE.fullmatch(typed)
    wrong = NotTaken(say(t.NEW_UNIT_NOT, typed=short(typed)), say(t.NEW_UNIT_NEXT))
    if pair is None:
        raise wrong
    try:
        low, high = read_number(pair[1]), read_number(pair[2])
    except UnitError as error:
        raise NotTaken(say("{what}", what=str(error)), say("{i}", i=error.instead)) from None
    unit = high.unit or low.unit or ""
    if low.value >= high.value or (unit and known_unit(unit) is None):
        raise wrong
    return (low.value, high.value), unit


def how_often(typed: str) -> tuple[str, float]:
    """A frequency as packs write it, and its number. Raises NotTaken."""
    folded = typed.casefold()
    counted, share = _SHARE.fullmatch(folded), _PER_CENT.fullmatch(folded)
    if folded in WORDS:
        return folded, WORDS[folded]
    if counted is not None and int(counted[2]) > 0:
        found, written = int(counted[1]) / int(counted[2]), f"{counted[1]} of {counted[2]}"
    elif share is not None:
        found = float(share[1].replace(",", ".")) / 100
        written = f"{found:.4f}".rstrip("0").rstrip(".")
    else:
        try:
            found = float(folded.replace(",", "."))
        except ValueError:
            raise NotTaken(say(t.OFTEN_NOT, typed=short(typed)), say(t.OFTEN_NOT_NEXT)) from None
        written = f"{found:.4f}".rstrip("0").rstrip(".")
    if not 0 < found < 1 or written in ("0", "1"):
        raise NotTaken(say(t.OFTEN_DOUBT, typed=short(typed)), say(t.OFTEN_DOUBT_NEXT))
    return written, found
