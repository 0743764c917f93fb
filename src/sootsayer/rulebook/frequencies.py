"""How often: numbers, `19 of 20`, words from one table, and spreads over levels."""

from __future__ import annotations

import re
from math import fsum

from sootsayer.catalogue import Said, say
from sootsayer.documents.nodes import Node, Place, Scalar
from sootsayer.documents.problems import did_you_mean
from sootsayer.rulebook.desk import Item, Malformed, mapping_of, number_of
from sootsayer.rulebook.names import BINARY

WORDS = {
    "always": 0.97,
    "usually": 0.85,
    "often": 0.6,
    "sometimes": 0.3,
    "rarely": 0.08,
    "never": 0.01,
}
FORMS = "write a number between 0 and 1, `3 of 100`, or one of {words}"
NO_DOUBT = (
    "a frequency of {text} leaves no room for doubt",
    "write a number above 0 and below 1; `never` is 0.01 and `always` is 0.97",
)
TOO_SMALL = (
    "{levels} has less than {smallest} of 100",
    "give every level at least {smallest}: what is ruled out can never be learned",
)
SMALLEST = 0.01  # of 100, that a level may have
SUM_SLACK = 1e-6  # rounding in a sum of written percentages, nothing more

_SHARE = re.compile(r"(\d+(?:\.\d+)?) of (\d+(?:\.\d+)?)")


def frequency(item: Item, node: Node) -> float | None:
    """A frequency strictly between 0 and 1; None, with a problem noted, where it is none.

    Raises Malformed for a yes, a list or a mapping.
    """
    if not isinstance(node, Scalar) or isinstance(node.value, bool) or node.value is None:
        raise Malformed(node.place, say("a number or a text"))
    value = share_of(node)
    if value is None:
        item.wrong(node.place, say('"{text}" is not a frequency', text=node.text), forms())
    elif not 0 < value < 1:
        what, instead = NO_DOUBT
        item.wrong(node.place, say(what, text=node.text), say(instead))
    else:
        return value
    return None


def forms() -> Said:
    """How a frequency is written."""
    return say(FORMS, words=", ".join(WORDS))


def share_of(node: Scalar) -> float | None:
    """The number that a scalar states as a frequency, whatever it is; None where it is none."""
    if isinstance(node.value, int | float):
        return float(node.value)
    if node.value is None:
        return None
    if node.value in WORDS:
        return WORDS[node.value]
    share = _SHARE.fullmatch(node.value)
    if share is None or float(share[2]) == 0:
        return None
    return float(share[1]) / float(share[2])


def spread(item: Item, node: Node, levels: tuple[str, ...]) -> tuple[float, ...] | None:
    """A spread over `levels`, lowest first, adding to 1; a frequency for a binary finding."""
    if levels == BINARY:
        if not isinstance(node, Scalar):
            what = say("a finding that is true or false needs one frequency")
            item.wrong(node.place, what, forms())
            return None
        share = frequency(item, node)
        return None if share is None else (1 - share, share)
    if isinstance(node, Scalar):
        item.wrong(
            node.place,
            say("a graded finding needs a spread over its levels, not one frequency"),
            say(
                "write {{{spread}}}, adding to 100",
                spread=", ".join(f"{level}: .." for level in levels),
            ),
        )
        return None
    return _by_level(item, node, levels)


def _by_level(item: Item, node: Node, levels: tuple[str, ...]) -> tuple[float, ...] | None:
    body = mapping_of(node)
    right = True
    for key, place in body.key_places.items():
        if key not in levels:
            guess = did_you_mean(key, levels)
            what = say('"{key}" is no level of this finding', key=key)
            item.wrong(place, what, guess or _one_for_each(levels))
            right = False
    missing = [level for level in levels if level not in body]
    if missing and right:
        what = say("the spread leaves out {levels}", levels=", ".join(missing))
        item.wrong(body.place, what, _one_for_each(levels))
    if missing or not right:
        return None
    percents = tuple(number_of(body[level]) for level in levels)
    return _checked(item, body.place, levels, percents)


def _one_for_each(levels: tuple[str, ...]) -> Said:
    return say("write one number for each of {levels}", levels=", ".join(levels))


def _checked(
    item: Item, place: Place, levels: tuple[str, ...], percents: tuple[float, ...]
) -> tuple[float, ...] | None:
    total = fsum(percents)
    if abs(total - 100) > SUM_SLACK:
        what = say("the spread adds to {total}, not to 100", total=f"{total:g}")
        item.wrong(place, what, say("make the levels add to 100"))
        return None
    small = [
        level for level, share in zip(levels, percents, strict=True) if share < SMALLEST - 1e-12
    ]
    if small:
        slots = {"levels": ", ".join(small), "smallest": SMALLEST}
        item.wrong(place, *(say(each, **slots) for each in TOO_SMALL))
        return None
    return tuple(share / total for share in percents)
