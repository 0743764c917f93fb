"""What a screen tells somebody to do, and whether the caution of each stands by it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from tests.laws.making_cases import rulebook

HEAD = 48  # so many signs of what is to be done tell it from everything else
# So many signs may stand between what is told and the end of its caution: that of a check is the
# next line; work has a few cautions, one after the other.
NEAR_CHECK, NEAR_WORK = 700, 2500


@dataclass(frozen=True, slots=True)
class Doing:
    """Something a person does: a check, an action, work or a step of it, and a caution of it."""

    id: str
    does: str
    caution: str


def plain(text: str) -> str:
    """A text without line ends, spaces and marks that the screen may put between its words."""
    return re.sub(r"[^a-z0-9]+", " ", text.lower()).strip()


@cache
def doings() -> tuple[Doing, ...]:
    """Every check and action of the packs that has a caution."""
    model = rulebook().model
    checks = [(x.id, x.does, x.caution) for x in model.checks.values()]
    actions = [(x.id, x.does, x.caution) for x in model.actions.values()]
    found = [*checks, *actions]
    return tuple(Doing(i, plain(does), plain(caution)) for i, does, caution in found if caution)


@cache
def works() -> tuple[Doing, ...]:
    """Every remedy with each caution of it: its own and those of its actions."""
    model = rulebook().model
    found = []
    for each in model.remedies.values():
        cautions = [each.caution, *(model.actions[a].caution for a in each.by_actions)]
        found += [Doing(each.id, plain(each.does), plain(one)) for one in cautions if one]
    return tuple(found)


@cache
def steps() -> tuple[Doing, ...]:
    """Every step of a remedy that has a caution."""
    remedies = rulebook().model.remedies.values()
    told = [(each.id, step) for each in remedies for step in each.steps if step.caution]
    return tuple(Doing(name, plain(step.does), plain(step.caution)) for name, step in told)


@cache
def cautions() -> tuple[str, ...]:
    """Every caution, the longest first."""
    every = {each.caution for each in (*doings(), *works(), *steps())}
    return tuple(sorted(every, key=lambda text: (-len(text), text)))


@cache
def longer(does: str) -> tuple[str, ...]:
    """The steps that begin as this one does and go on otherwise."""
    remedies = rulebook().model.remedies.values()
    every = {plain(step.does) for each in remedies for step in each.steps}
    return tuple(sorted(one for one in every if f" {does} " in f" {one} " and one != does))


def told(text: str) -> str:
    """The text, as long as it was, with its cautions blacked out: they warn, and tell nobody to
    do what they speak of."""
    for caution in cautions():
        text = text.replace(caution, "-" * len(caution))
    return text


def shown(screen: str) -> list[Doing]:
    """What the screen tells somebody to do, or speaks of doing, of what has a caution."""
    text = told(f" {plain(screen)} ")
    return [each for each in doings() if f" {each.does[:HEAD]}" in text]


def dropped(screen: str) -> list[str]:
    """What is shown without its whole caution."""
    text = plain(screen)
    return [each.id for each in shown(screen) if each.caution not in text]


def astray(screen: str) -> list[str]:
    """The checks, work and steps that are told with a caution of theirs not right behind them."""
    text = f" {plain(screen)} "
    model = rulebook().model
    checks = [each for each in doings() if each.id in model.checks]
    found = _far(text, checks, NEAR_CHECK, head=True)
    return [*found, *_far(text, works(), NEAR_WORK), *_far(text, steps(), NEAR_CHECK)]


def _far(text: str, things: Iterable[Doing], near: int, *, head: bool = False) -> list[str]:
    found = []
    telling = told(text)
    for each in things:
        heard = telling
        for other in longer(each.does):
            heard = heard.replace(other, "-" * len(other))
        begins = heard.find(f" {each.does[:HEAD] if head else each.does} ".rstrip())
        if begins >= 0 and each.caution not in text[begins : begins + near]:
            found.append(each.id)
    return found
