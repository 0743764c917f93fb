"""Counted shares beside the rulebook's numbers: what was seen how often, and how sure that is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sootsayer.learning.intervals import LEVEL, Interval, jeffreys, jeffreys_mean, wilson
from sootsayer.learning.rates.tally import OTHERWISE, LinkTally, RatesTally
from sootsayer.learning.ratios import Counts, Ratio, log_weight, ratio_missing, ratio_seen
from sootsayer.rulebook.model import EvidenceDef, Model
from sootsayer.rulebook.reads import family_of, levels_of

FEWEST = 10  # cases below which no number is put beside the pack's
YES = "true"


@dataclass(frozen=True, slots=True)
class LevelShare:
    """Of one level: seen `count` times, by the pack `said`; intervals of 95 %, and `mean` with
    half a case added to each level. `outside`: the pack's number lies outside the Jeffreys
    interval, which is widened so that all levels of a spread together hold 95 times in 100."""

    level: str
    count: int
    said: float
    mean: float
    jeffreys: Interval
    wilson: Interval
    outside: bool


@dataclass(frozen=True, slots=True)
class Rate:
    """One number of the rulebook (a spread where graded) and what was counted for it.

    `of`: the finding or family; `fault`: with which (OTHERWISE: none of those listed). `n`: cases
    that speak of it alone, `left_out`: that had another listed fault too. Of a binary finding
    `levels` is its `true` alone, and the ratios are over all cases that read it.
    """

    of: str
    fault: str
    hides: bool
    n: int
    left_out: int
    levels: tuple[LevelShare, ...]
    file: str
    line: int
    seen: Ratio | None = None
    missing: Ratio | None = None
    weight: float | None = None

    @property
    def contradicted(self) -> bool:
        """Whether enough cases speak against the pack's number."""
        return self.n >= FEWEST and any(each.outside for each in self.levels)


def rates(model: Model, tally: RatesTally) -> tuple[Rate, ...]:
    """Every number of the rulebook of which at least one case speaks, by id; otherwise first."""
    found = []
    for name, block in model.evidence.items():
        for fault, spread in _numbers(model, name, block).items():
            link = tally.links.get((name, fault))
            if link is not None:
                found.append(_rate(model, tally, block, fault, spread, link))
    return tuple(found)


def numbers_in(model: Model) -> int:
    """How many numbers (spreads count as one) the rulebook has."""
    return sum(len(_numbers(model, name, block)) for name, block in model.evidence.items())


def _numbers(model: Model, name: str, block: EvidenceDef) -> Mapping[str, tuple[float, ...]]:
    family = family_of(model, name)
    hides = {f.id: f.hides[family] for f in model.faults.values() if family in f.hides}
    return {OTHERWISE: block.otherwise, **block.seen_with, **(hides if family == name else {})}


def _rate(
    model: Model,
    tally: RatesTally,
    block: EvidenceDef,
    fault: str,
    spread: tuple[float, ...],
    link: LinkTally,
) -> Rate:
    levels = levels_of(model, block.finding)
    binary = len(levels) == 2 and YES in levels
    n = sum(link.levels.values())
    shares = [
        _share(level, link.levels[level], n, said, len(levels))
        for level, said in zip(levels, spread, strict=True)
        if not binary or level == YES
    ]
    place = block.places.get(fault) or model.faults[fault].place
    counts = _counts(tally, block.finding, fault) if binary and fault else None
    return Rate(
        of=block.finding,
        fault=fault,
        hides=bool(fault) and fault not in block.seen_with,
        n=n,
        left_out=link.left_out,
        levels=tuple(shares),
        file=place.file.replace("\\", "/").rpartition("/")[2],
        line=place.line,
        seen=None if counts is None else ratio_seen(counts),
        missing=None if counts is None else ratio_missing(counts),
        weight=None if counts is None else log_weight(counts),
    )


def _share(level: str, count: int, n: int, said: float, of: int) -> LevelShare:
    numbers = 1 if of == 2 else of
    wide = jeffreys(count, n, 1 - (1 - LEVEL) / numbers)
    return LevelShare(
        level=level,
        count=count,
        said=said,
        mean=jeffreys_mean(count, n, of),
        jeffreys=jeffreys(count, n),
        wilson=wilson(count, n),
        outside=not wide.holds(said),
    )


def _counts(tally: RatesTally, name: str, fault: str) -> Counts | None:
    """With the fault and without it, whatever else was there; None where either has no case."""
    known, with_it = tally.known.get(name), tally.all_with.get((name, fault))
    if not known or not with_it:
        return None
    all_with, everything = sum(with_it.values()), sum(known.values())
    if all_with == everything:
        return None
    return Counts(with_it[YES], all_with, known[YES] - with_it[YES], everything - all_with)
