"""Typed numbers: from what value something counts, a range, and how often."""

from __future__ import annotations

import re

from sootsayer.catalogue import Said, say
from sootsayer.catalogue_conventions import plain
from sootsayer.catalogue_numbers import number, unit_said, with_unit
from sootsayer.commands.heard import one_of, pattern
from sootsayer.commands.teaching.draft import Chosen, Counts
from sootsayer.commands.teaching.talk import NotTaken
from sootsayer.commands.usage import short
from sootsayer.console import heard_texts as h
from sootsayer.console import rules_new_texts as t
from sootsayer.engine.conditions import Op
from sootsayer.physics.typed_numbers import read_typed
from sootsayer.physics.units import TwoWays, UnitError, convert_reading, known_unit
from sootsayer.rulebook.frequencies import WORDS

_OPS = {
    Op.AT_LEAST: h.AT_LEAST,
    Op.AT_MOST: h.AT_MOST,
    Op.ABOVE: h.ABOVE,
    Op.BELOW: h.BELOW,
    Op.OUTSIDE: h.OUTSIDE,
    Op.BETWEEN: h.BETWEEN,
}


def counts(typed: str, fact: Chosen) -> Counts:
    """What `above 12 mbar` or `between 3 and 6` asks for, in the fact's unit. Raises NotTaken."""
    op, rest = _op(typed)
    if op is None:
        raise NotTaken(
            say(t.VALUE_NOT, typed=short(typed)), say(t.VALUE_NOT_NEXT, example=example(fact))
        )
    if op in (Op.BETWEEN, Op.OUTSIDE):
        pair = _pair(rest, h.JOINS_TWO)
        if pair is None:
            what = say(t.VALUE_NOT, typed=short(typed))
            raise NotTaken(what, say("write two numbers: between 3 and 6"))
        typed_two = _with_unit_of_last(*pair)
        low, high = (_number(each, fact) for each in typed_two)
        if low >= high:
            raise NotTaken(say(t.VALUE_ORDER), say("write them the other way round"))
        found = Counts(op, (low, high))
    else:
        found = Counts(op, (_number(rest, fact),))
    _divides(found, fact)
    return found


def _op(typed: str) -> tuple[Op | None, str]:
    for op, ways in _OPS.items():
        found = re.match(f"(?:{pattern(ways)})", typed, re.IGNORECASE)
        if found is not None:
            return op, typed[found.end() :].strip()
    return None, typed


def _pair(typed: str, joins: str) -> tuple[str, str] | None:
    """Two numbers, and one of the words between them."""
    found = re.fullmatch(rf"(.+?)\s+(?:{pattern(joins)})\s+(.+)", typed, re.IGNORECASE)
    return None if found is None else (found[1], found[2])


def _with_unit_of_last(low: str, high: str) -> tuple[str, str]:
    """`3` and `6 mbar`: the unit written once is meant of both."""
    try:
        if read_typed(low).unit is None and read_typed(high).unit is not None:
            return f"{low} {read_typed(high).unit}", high
    except UnitError:
        pass
    return low, high


def _number(typed: str, fact: Chosen) -> float:
    try:
        said = read_typed(typed)
        unit = fact.unit if said.unit is None else said.unit
        value = convert_reading(said.value, unit, fact.unit)
    except UnitError as error:
        raise NotTaken(error.what, error.instead) from None
    value = round(value, 9)
    if fact.possible is not None and not fact.possible[0] <= value <= fact.possible[1]:
        slots = _ends(fact)
        raise NotTaken(
            say(t.VALUE_RANGE, value=number(value), unit=unit_said(fact.unit), **slots),
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
    return with_unit(shown, fact.unit)


def possible_range(typed: str) -> tuple[tuple[float, float], str]:
    """`0 to 200 mbar`: the ends and the unit, "" for none. Raises NotTaken."""
    pair = _pair(typed, h.TO)
    wrong = NotTaken(say(t.NEW_UNIT_NOT, typed=short(typed)), say(t.NEW_UNIT_NEXT))
    if pair is None:
        raise wrong
    try:
        low, high = read_typed(pair[0]), read_typed(pair[1])
    except UnitError as error:
        raise NotTaken(error.what, error.instead) from None
    unit = high.unit or low.unit or ""
    if low.value >= high.value or (unit and known_unit(unit) is None):
        raise wrong
    return (low.value, high.value), unit


def how_often(typed: str) -> tuple[str, float]:
    """A frequency as packs write it, and its number. Raises NotTaken."""
    word = one_of(typed, h.WORDS_OF)
    if word is not None:
        return word, WORDS[word]
    counted = re.fullmatch(rf"(\d+) (?:{pattern(h.OF)}) (\d+)", typed, re.IGNORECASE)
    share = re.fullmatch(rf"([\d.,]+) ?(?:{pattern(h.PER_CENT)})", typed, re.IGNORECASE)
    if counted is not None and int(counted[2]) > 0:
        found, written = int(counted[1]) / int(counted[2]), f"{counted[1]} of {counted[2]}"
    elif share is not None:
        found = _bare(share[1], typed) / 100
        written = plain(found)
    else:
        found = _bare(typed, typed)
        written = plain(found)
    if not 0 < found < 1 or written in ("0", "1"):
        raise NotTaken(say(t.OFTEN_DOUBT, typed=short(typed)), say(t.OFTEN_DOUBT_NEXT))
    return written, found


def minutes(typed: str) -> float:
    """`10`, `7,5 min`, `10 or so`: minutes, 0 for what is none. Raises NotTaken where it may be two
    numbers."""
    for text in (typed, typed.split()[0]):
        try:
            said = read_typed(text)
            return convert_reading(said.value, said.unit or "min", "min")
        except TwoWays as two:
            raise NotTaken(two.what, two.instead) from None
        except UnitError:
            continue
    return 0.0


def _bare(text: str, typed: str) -> float:
    """A number without a unit. Raises NotTaken."""
    try:
        said = read_typed(text)
    except TwoWays as two:
        raise NotTaken(two.what, two.instead) from None
    except UnitError:
        said = None
    if said is None or said.unit is not None:
        raise NotTaken(say(t.OFTEN_NOT, typed=short(typed)), say(t.OFTEN_NOT_NEXT))
    return said.value
