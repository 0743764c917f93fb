"""Rates and calibration on one page: did confidence come true; which numbers cases doubt."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from sootsayer.catalogue import Said, say, say_count, shown
from sootsayer.catalogue_numbers import fixed, per_cent
from sootsayer.commands.over_archive.lines import (
    cases_said,
    columns,
    drawn_lines,
    left_lines,
    nothing_lines,
)
from sootsayer.commands.over_archive.reliability_picture import reliability_rows
from sootsayer.console import rates_texts as t
from sootsayer.console.paper import HEADING, QUIET, STRONG, Line, Page, page
from sootsayer.console.vocabulary import TRUTH, id_said
from sootsayer.learning.rates.proposals import Proposal
from sootsayer.learning.rates.selection import Selected
from sootsayer.learning.rates.shares import FEWEST, LevelShare, Rate
from sootsayer.learning.rates.tally import OTHERWISE, RatesTally
from sootsayer.learning.ratios import Ratio

_WIDTHS = (-6, -13, -7)
_MORE = (-6, -13, -8, -6)
_FEW, _FEW_SELECTED = 3, 1
_CHANCE = 0.05


@dataclass(frozen=True, slots=True)
class RatesTold:
    """All that the page draws. `numbers`: how many the rulebook has. `thing`: the finding or fault
    that was asked for, None for all; `more`: every number, else about one screen. `words`: of
    findings and families the words of their levels, where that is another language's."""

    folder: str
    tally: RatesTally
    rates: Sequence[Rate]
    proposals: Sequence[Proposal]
    selected: Sequence[Selected]
    numbers: int
    thing: str | None = None
    more: bool = False
    words: Mapping[str, Mapping[str, str]] = field(default_factory=dict)

    def level(self, rate: Rate, level: str) -> Said:
        """A level of what the number is of, as it is said."""
        own = self.words.get(rate.of, {})
        return shown(own[level]) if level in own else id_said(TRUTH, level)


def rates_page(told: RatesTold) -> Page:
    """The whole page."""
    return page(_lines(told))


def _lines(told: RatesTold) -> Iterator[Line]:
    archive = told.tally.archive
    yield Line(say(t.HEADER, cases=cases_said(archive, told.folder)), style=QUIET)
    yield from drawn_lines(archive)
    if not archive.replayed:
        yield from nothing_lines(told.folder)
    elif told.thing is not None:
        yield from _one(told)
    else:
        yield from _calibration(told.tally)
        yield from _all(told) if told.more else _against(told)
        yield from _selection(told)
    yield from left_lines(archive, each=20 if told.more else 2)
    if archive.replayed and told.thing is None:
        yield from _next(told)


def _calibration(tally: RatesTally) -> Iterator[Line]:
    brier, every = tally.leading.brier(), tally.every.brier()
    if brier is None or every is None:
        return
    yield Line(say_count(*t.CALIBRATION, count=brier.count), style=HEADING)
    for index, row in enumerate(reliability_rows(tally.leading.tenths())):
        yield Line(row, indent=2, style="" if index else QUIET)
    slots = {
        "score": _three(brier.score),
        "reliability": _three(brier.reliability),
        "resolution": _three(brier.resolution),
        "uncertainty": _three(brier.uncertainty),
        "sign": "-" if brier.within < 0 else "+",
        "within": _three(abs(brier.within)),
    }
    yield Line(say(t.BRIER, **slots), indent=2)
    error = fixed(tally.leading.expected_error() * 100, 1)
    yield Line(say(t.OFF, error=error, every=_three(every.score)), indent=2)


def _three(value: float) -> str:
    return fixed(value, 3)


def _against(told: RatesTold) -> Iterator[Line]:
    enough = [each for each in told.rates if each.n >= FEWEST]
    count = len(enough)
    if not enough:
        slots = {"fewest": FEWEST, "some": len(told.rates), "all": told.numbers}
        yield Line(say(t.NO_NUMBERS, **slots), style=HEADING)
        return
    if not told.proposals:
        yield Line(say(t.NONE_AGAINST, count=count), style=HEADING)
        return
    by = fixed(count * _CHANCE)
    against = len(told.proposals)
    yield Line(say(t.NUMBERS, against=against, count=count, by=by), style=HEADING)
    head = columns([say(word) for word in t.HEAD[1:]], _WIDTHS)
    yield Line(say(t.HEAD[0]), indent=2, style=QUIET, right=head)
    for each in told.proposals[:_FEW]:
        yield from _short(each.rate, told)
        if each.now is None:
            yield Line(say(t.BECAUSE, because=each.because), indent=4, style=QUIET)
    if len(told.proposals) > _FEW:
        left = len(told.proposals) - _FEW
        yield Line(say(t.AND_MORE, count=left), indent=2, style=QUIET)


def _short(rate: Rate, told: RatesTold) -> Iterator[Line]:
    """One row: of a spread, the level that is furthest outside."""
    worst = max(rate.levels, key=lambda each: (each.outside, abs(each.mean - each.said)))
    name = named(rate)
    if len(rate.levels) > 1:
        name = Said(f"{name}, {told.level(rate, worst.level)}")
    cells = (_per_cent(worst.said), _counted(worst, rate.n), _wide(worst))
    yield Line(name, indent=2, right=columns(cells, _WIDTHS))


def named(rate: Rate) -> Said:
    """What number it is."""
    if rate.hides:
        return say(t.HIDES, finding=rate.of, fault=rate.fault)
    if rate.fault == OTHERWISE:
        return say(t.OTHERWISE, finding=rate.of)
    return say(t.LINK, finding=rate.of, fault=rate.fault)


def _counted(share: LevelShare, n: int) -> Said:
    return say(t.COUNTED, count=share.count, n=n)


def _wide(share: LevelShare) -> Said:
    low, high = share.jeffreys.low * 100, share.jeffreys.high * 100
    return say(t.WIDE, low=fixed(low), high=fixed(high))


def _per_cent(share: float) -> str:
    return per_cent(share, 1)


def _one(told: RatesTold) -> Iterator[Line]:
    mine = [each for each in told.rates if told.thing in (each.of, each.fault)]
    if not mine:
        yield Line(say(t.ONE_NONE, thing=told.thing), indent=2)
        return
    for rate in mine:
        yield from _whole(rate, told)
    yield from _selection(told)


def _all(told: RatesTold) -> Iterator[Line]:
    for rate in told.rates:
        yield from _whole(rate, told)


def _whole(rate: Rate, told: RatesTold) -> Iterator[Line]:
    yield Line(named(rate), style=STRONG, right=f"{rate.file}:{rate.line}")
    head = columns([say(word) for word in t.MORE_HEAD[1:]], _MORE)
    yield Line(say(t.MORE_HEAD[0]), indent=2, style=QUIET, right=head)
    for share in rate.levels:
        wilson = share.wilson
        cells = (
            _per_cent(share.said),
            _counted(share, rate.n),
            _wide(share),
            say(t.WIDE, low=fixed(wilson.low * 100), high=fixed(wilson.high * 100)),
        )
        yield Line(
            say(t.LEVEL, level=told.level(rate, share.level)), indent=2, right=columns(cells, _MORE)
        )
    if rate.left_out:
        yield Line(say(t.LEFT_OUT, count=rate.left_out), indent=4, style=QUIET)
    if rate.weight is not None:
        slots = {"seen": _ratio(rate.seen), "missing": _ratio(rate.missing)}
        yield Line(say(t.RATIOS, **slots), indent=4, style=QUIET)


def _ratio(ratio: Ratio | None) -> Said:
    if ratio is None:
        return say(t.NO_RATIO)
    return say(
        t.RATIO, value=fixed(ratio.value, 2), low=fixed(ratio.low, 2), high=fixed(ratio.high, 2)
    )


def _selection(told: RatesTold) -> Iterator[Line]:
    found = [each for each in told.selected if told.thing in (None, each.of, each.fault)]
    if not found:
        return
    yield Line(say(t.SELECTION), style=HEADING)
    most = len(found) if told.more or told.thing is not None else _FEW_SELECTED
    for each in found[:most]:
        slots = {
            "with_share": fixed(each.with_known / each.with_all * 100),
            "other_share": fixed(each.other_known / each.other_all * 100),
        }
        yield Line(say(t.SELECTED, finding=each.of, fault=each.fault, **slots), indent=2)
    yield Line(say(t.SELECTION_MEANS), indent=2, style=QUIET)
    if len(found) > most:
        yield Line(say(t.SELECTION_MORE, count=len(found) - most), indent=2, style=QUIET)


def _next(told: RatesTold) -> Iterator[Line]:
    yield Line(say(t.NEXT), style=HEADING)
    if told.proposals:
        yield Line(say(t.NEXT_DIFF), indent=2)
        yield Line(say(t.NEXT_ONE, example=told.proposals[0].rate.of), indent=2)
    else:
        yield Line(say(t.NEXT_NONE), indent=2)
