"""Conditions as sentences: what a rule asks for, in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from sootsayer.catalogue import Said, say
from sootsayer.catalogue_numbers import number, with_unit
from sootsayer.console.words import value_said
from sootsayer.engine.conditions import (
    All,
    Any,
    AtLeast,
    Compare,
    Condition,
    Const,
    Known,
    Limit,
    Linear,
    Not,
    OneOf,
    Op,
    Operand,
    Slot,
)

Named = Callable[[str], Said]
Words = Mapping[str, Mapping[str, str]]

TEST = {
    Op.BELOW: "{slot} is below {a}",
    Op.AT_MOST: "{slot} is at most {a}",
    Op.ABOVE: "{slot} is above {a}",
    Op.AT_LEAST: "{slot} is at least {a}",
    Op.BETWEEN: "{slot} is from {a} to {b}",
    Op.OUTSIDE: "{slot} is below {a} or above {b}",
}
EXACT = "{slot} is {a}"
ONE_OF = "{slot} is {words}"
IS_TRUE = "{slot}"
IS_FALSE = "not: {slot}"
KNOWN = "{slot} is known"
NOT = "not ({part})"
AT_LEAST = "at least {count} of: {parts}"
GROUP = "({part})"
LIMIT = "{limit}"
TIMES = "{times} times {of}"
PLUS = "{of} plus {plus}"
AND = " and "
OR = " or "
SEMICOLON = "; "


def _plain(slot: str) -> Said:
    return say("{slot}", slot=slot)


def sentence(
    condition: Condition,
    named: Named = _plain,
    units: Mapping[str, str] | None = None,
    words: Words | None = None,
) -> Said:
    """The condition in words. `named` gives the name of a slot or limit, `units` slots' units,
    `words` how the declared words of signals, findings and families are said."""
    return _Speaker(named, units or {}, words or {}).said(condition)


def operand_said(operand: Operand, named: Named, unit: str) -> Said:
    """A number, limit or sum of such in words."""
    return _Speaker(named, {}, {}).operand(operand, unit)


class _Speaker:
    def __init__(self, named: Named, units: Mapping[str, str], words: Words) -> None:
        self._named = named
        self._units = units
        self._words = words

    def said(self, part: Condition) -> Said:
        if isinstance(part, Compare):
            return self._compare(part)
        if isinstance(part, OneOf):
            return self._one_of(part)
        if isinstance(part, Known):
            return say(KNOWN, slot=self._named(part.slot))
        if isinstance(part, Not):
            return say(NOT, part=self.said(part.part))
        inner = [self._grouped(each) for each in part.parts]
        if isinstance(part, AtLeast):
            return say(AT_LEAST, count=part.count, parts=Said(say(SEMICOLON).join(inner)))
        return Said(say(AND if isinstance(part, All) else OR).join(inner))

    def _grouped(self, part: Condition) -> Said:
        text = self.said(part)
        joined = isinstance(part, All | Any) and len(part.parts) > 1
        return say(GROUP, part=text) if joined or isinstance(part, AtLeast) else text

    def _compare(self, test: Compare) -> Said:
        unit = self._units.get(test.slot, "")
        a, b = (self.operand(each, unit) for each in (test.operands[0], test.operands[-1]))
        exact = test.op is Op.BETWEEN and test.operands[0] == test.operands[-1]
        return say(EXACT if exact else TEST[test.op], slot=self._named(test.slot), a=a, b=b)

    def _one_of(self, test: OneOf) -> Said:
        slot = self._named(test.slot)
        if test.values in ((True,), (False,)) and test.slot not in self._units:
            return say(IS_TRUE if test.values[0] else IS_FALSE, slot=slot)
        said = self._words.get(test.slot.partition("@")[0])
        values = [value_said(value, words=said) for value in test.values]
        return say(ONE_OF, slot=slot, words=Said(say(OR).join(values)))

    def operand(self, operand: Operand, unit: str) -> Said:
        if isinstance(operand, Const):
            return self._number(operand.value, unit)
        if isinstance(operand, Limit):
            return say(LIMIT, limit=self._named(operand.name))
        if isinstance(operand, Slot):
            return self._named(operand.name)
        return self._linear(operand, unit)

    def _linear(self, operand: Linear, unit: str) -> Said:
        of = self.operand(operand.of, "" if operand.times != Const(1.0) else unit)
        if operand.times != Const(1.0):
            of = say(TIMES, times=self.operand(operand.times, ""), of=of)
        if operand.plus == Const(0.0):
            return of
        return say(PLUS, of=of, plus=self.operand(operand.plus, unit))

    def _number(self, value: float, unit: str) -> Said:
        return with_unit(number(value), unit)
