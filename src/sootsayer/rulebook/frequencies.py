"""How often: numbers, `19 of 20`, words from one table, and spreads over levels."""

from __future__ import annotations

import re
from math import fsum

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
FORMS = f"write a number between 0 and 1, `3 of 100`, or one of {', '.join(WORDS)}"
SMALLEST = 0.01  # of 100, that a level may have
SUM_SLACK = 1e-6  # rounding in a sum of written percentages, nothing more

_SHARE = re.compile(r"(\d+(?:\.\d+)?) of (\d+(?:\.\d+)?)")


def frequency(item: Item, node: Node) -> float | None:
    """A frequency strictly between 0 and 1; None, with a problem noted, where it is none.

    Raises Malformed for a yes, a list or a mapping.
    """
    if not isinstance(node, Scalar) or isinstance(node.value, bool) or node.value is None:
        raise Malformed(node.place, "a number or a text")
    value = share_of(node)
    if value is None:
        item.wrong(node.place, f'"{node.text}" is not a frequency', FORMS)
    elif not 0 < value < 1:
        item.wrong(
            node.place,
            f"a frequency of {node.text} leaves no room for doubt",
            "write a number above 0 and below 1; `never` is 0.01 and `always` is 0.97",
        )
    else:
        return value
    return None


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
            item.wrong(node.place, "a finding that is true or false needs one frequency", FORMS)
            return None
        share = frequency(item, node)
        return None if share is None else (1 - share, share)
    if isinstance(node, Scalar):
        item.wrong(
            node.place,
            "a graded finding needs a spread over its levels, not one frequency",
            f"write {{{', '.join(f'{level}: ..' for level in levels)}}}, adding to 100",
        )
        return None
    return _by_level(item, node, levels)


def _by_level(item: Item, node: Node, levels: tuple[str, ...]) -> tuple[float, ...] | None:
    body = mapping_of(node)
    wanted = f"write one number for each of {', '.join(levels)}"
    right = True
    for key, place in body.key_places.items():
        if key not in levels:
            guess = did_you_mean(key, levels)
            item.wrong(place, f'"{key}" is no level of this finding', guess or wanted)
            right = False
    missing = [level for level in levels if level not in body]
    if missing and right:
        item.wrong(body.place, f"the spread leaves out {', '.join(missing)}", wanted)
    if missing or not right:
        return None
    percents = tuple(number_of(body[level]) for level in levels)
    return _checked(item, body.place, levels, percents)


def _checked(
    item: Item, place: Place, levels: tuple[str, ...], percents: tuple[float, ...]
) -> tuple[float, ...] | None:
    total = fsum(percents)
    if abs(total - 100) > SUM_SLACK:
        item.wrong(place, f"the spread adds to {total:g}, not to 100", "make the levels add to 100")
        return None
    small = [
        level for level, share in zip(levels, percents, strict=True) if share < SMALLEST - 1e-12
    ]
    if small:
        item.wrong(
            place,
            f"{', '.join(small)} has less than {SMALLEST} of 100",
            f"give every level at least {SMALLEST}: what is ruled out can never be learned",
        )
        return None
    return tuple(share / total for share in percents)
