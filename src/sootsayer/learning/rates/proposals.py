"""Numbers that cases speak against, as a person would have to write them. Nothing is applied."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sootsayer.catalogue import say
from sootsayer.learning.projection import written, written_link
from sootsayer.learning.rates.shares import YES, Rate
from sootsayer.learning.rates.tally import OTHERWISE
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.reads import levels_of


@dataclass(frozen=True, slots=True)
class Proposal:
    """One number to look at. `now`: as it would be written, None where the count cannot stand as
    it is (`because`). `of`, `path`: as an override names it."""

    rate: Rate
    of: str
    path: tuple[str, ...]
    now: str | None
    because: str = ""


NO_RAISE = "seen no more often with it than otherwise: look at the link, not at its number"


def proposals(model: Model, counted: Sequence[Rate]) -> tuple[Proposal, ...]:
    """For each number that is contradicted, the clearest first: many cases, far from it."""
    found = [_proposal(model, rate) for rate in counted if rate.contradicted]
    return tuple(sorted(found, key=lambda each: (-_distance(each.rate), each.of, each.path)))


def _proposal(model: Model, rate: Rate) -> Proposal:
    of, path = _named(rate)
    now, because = _number(model, rate)
    return Proposal(rate, of, path, now, because)


def _named(rate: Rate) -> tuple[str, tuple[str, ...]]:
    if rate.hides:
        return rate.fault, ("hides", rate.of)
    if rate.fault == OTHERWISE:
        return rate.of, ("otherwise",)
    return rate.of, ("seen with", rate.fault)


def _number(model: Model, rate: Rate) -> tuple[str | None, str]:
    otherwise = model.evidence[rate.of].otherwise
    free = rate.hides or rate.fault == OTHERWISE
    if len(rate.levels) == 1 and rate.levels[0].level == YES:
        mean = rate.levels[0].mean
        if not free and mean <= otherwise[1]:
            return None, say(NO_RAISE)
        return f"{min(max(round(mean, 3), 0.001), 0.999):g}", ""
    means = [each.mean for each in rate.levels]
    parts = written(means) if free else written_link(otherwise, means)
    words = levels_of(model, rate.of)
    inside = ", ".join(f"{word}: {part:g}" for word, part in zip(words, parts, strict=True))
    return f"{{{inside}}}", ""


def _distance(rate: Rate) -> float:
    """How far the clearest level lies outside, in widths of its interval."""
    return max(
        max(each.jeffreys.low - each.said, each.said - each.jeffreys.high, 0.0)
        / max(each.jeffreys.high - each.jeffreys.low, 1e-9)
        for each in rate.levels
    )
