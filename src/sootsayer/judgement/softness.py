"""Readings near a threshold: what the instrument's error leaves open.

A finding's levels are weighted by branching over the near readings, not over the tests, so
that one reading used twice is one reading. Logic stays hard.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import product
from math import prod

from sootsayer.belief.soft import level_weights, parts
from sootsayer.engine.conditions import Grade, Value
from sootsayer.engine.program import Program
from sootsayer.engine.thresholds import thresholds
from sootsayer.judgement.views import View

BAND = 2.0  # the error band is two standard deviations on either side
SURE = 0.9772  # weight of a level whose nearest cut is a whole band away
MOST_BRANCHED = 6  # readings branched over at once, the nearest to their cuts first

# How many deviations a reading is from its nearest cut, its slot, and the ways it may lie.
_Split = tuple[float, str, list[tuple[float, float]]]


def weights(
    program: Program,
    view: View,
    limits: Mapping[str, float],
    name: str,
    levels: tuple[str, ...],
    value: Value,
) -> tuple[float, ...]:
    """The weight of each level of finding `name` as virtual evidence, lowest level first.

    `value`: what the view decides it to be. Hard readings give its level 1 and the others 0. What
    a branch leaves unknown speaks for no level, so it counts for all of them alike.
    """
    definition = program.definitions[name]
    if isinstance(definition, Grade):
        soft = _graded(program, view, limits, name, definition)
        if soft is not None:
            return soft
    near = _near(program, view, limits, name)
    if not near:
        level = as_level(value)
        return tuple([1.0 if level is None or each == level else 0.0 for each in levels])
    totals = dict.fromkeys(levels, 0.0)
    open_weight = 0.0
    for weight, values in _branches(view, near):
        level = as_level(program.run(values, limits, only=(name,))[name])
        if level is None:
            open_weight += weight
        else:
            totals[level] += weight
    return tuple(totals[level] + open_weight for level in levels)


def borderline(soft: tuple[float, ...]) -> bool:
    """Whether the error band reaches over a cut."""
    return max(soft) < SURE


def as_level(value: Value) -> str | None:
    """The level name of a derived value: a level, "true", "false", or None for unknown."""
    if isinstance(value, bool):
        return "true" if value else "false"
    return value if isinstance(value, str) else None


def _near(program: Program, view: View, limits: Mapping[str, float], name: str) -> list[_Split]:
    """The readings of a finding that may lie on either side of a cut, the nearest first."""
    near: list[_Split] = []
    for slot, cuts in thresholds(program, view.values, limits, name).items():
        value = view.values.get(slot)
        fact = view.facts.get(slot)
        if fact is None or fact.sd <= 0 or not isinstance(value, float):
            continue
        split = parts(value, fact.sd, cuts)
        if len(split) > 1:
            near.append((min(abs(value - cut) / fact.sd for cut in cuts), slot, split))
    near.sort(key=lambda item: item[:2])
    return near[:MOST_BRANCHED]


def _branches(view: View, near: Sequence[_Split]) -> Iterator[tuple[float, Mapping[str, Value]]]:
    """The ways in which these readings may lie, with the weight of each way."""
    slots = [slot for _, slot, _ in near]
    for ways in product(*(split for _, _, split in near)):
        changed = dict(view.values)
        changed.update(zip(slots, (value for _, value in ways), strict=True))
        yield prod(weight for weight, _ in ways), changed


def worse_ends(
    program: Program, view: View, limits: Mapping[str, float], name: str
) -> Iterator[Mapping[str, Value]]:
    """The values with every reading that has a cut inside its band at either end of the band;
    nothing where there is none."""
    ends: list[tuple[str, tuple[float, float]]] = []
    for slot, cuts in thresholds(program, view.values, limits, name).items():
        value = view.values.get(slot)
        fact = view.facts.get(slot)
        if fact is None or not isinstance(value, float):
            continue
        reach = BAND * fact.sd
        if any(abs(value - cut) <= reach for cut in cuts):
            ends.append((slot, (value - reach, value + reach)))
    if not ends:
        return
    for ways in product(*(pair for _, pair in ends)):
        changed = dict(view.values)
        changed.update(zip((slot for slot, _ in ends), ways, strict=True))
        yield changed


def _graded(
    program: Program, view: View, limits: Mapping[str, float], name: str, grade: Grade
) -> tuple[float, ...] | None:
    """A grade of one measured number: the normal error between its cuts."""
    value = view.values.get(grade.of)
    fact = view.facts.get(grade.of)
    if fact is None or fact.sd <= 0 or not isinstance(value, float):
        return None
    cuts = thresholds(program, view.values, limits, name).get(grade.of, ())
    if len(cuts) != len(grade.levels) - 1:  # a cut that coincides, or one read elsewhere too
        return None
    return level_weights(value, fact.sd, cuts)
