"""The page of before and after: a row for each reading, and one sentence at the end."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sootsayer.advice.like_for_like import Change, Refusal, Taken, Unlike
from sootsayer.advice.like_for_like_outcome import Because, Helped
from sootsayer.casework.logs.flow import FlowPicture
from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.catalogue_numbers import fixed, unit_said
from sootsayer.console import compare_texts as t
from sootsayer.console.names import Names
from sootsayer.console.paper import BLANK, HEADING, QUIET, STRONG, Line, Page, page
from sootsayer.console.readings_page import number, point_said
from sootsayer.console.readings_plot import plot_rows
from sootsayer.console.vocabulary import round_said
from sootsayer.console.words import confidence
from sootsayer.judgement.compare import Comparison, Figure
from sootsayer.judgement.compare_remains import Remains
from sootsayer.physics.measured import Measured

_DISTRUSTED = frozenset({Unlike.DISTRUSTED_BEFORE, Unlike.DISTRUSTED_AFTER})


@dataclass(frozen=True, slots=True)
class Told:
    """All that the page draws."""

    compared: Comparison
    remains: Remains
    flow: FlowPicture
    names: Names

    @property
    def rounds(self) -> dict[str, str]:
        compared = self.compared
        return {
            "from_round": round_said(compared.from_round),
            "to_round": round_said(compared.to_round),
        }


def compare_page(told: Told) -> Page:
    """The whole page."""
    return page([
        *_head(told), BLANK, *_know(told), *_picture(told), *_figures(told), BLANK, *_next(told),
        BLANK, Line(helped_said(told), style=STRONG), *remains_lines(told, indent=2),
    ])  # fmt: skip


def _head(told: Told) -> Iterator[Line]:
    compared = told.compared
    slots = {"case": compared.case, "vehicle": told.names.vehicle or say("vehicle"), **told.rounds}
    yield Line(say(t.HEADER, **slots), style=QUIET)
    works = [say(t.WORK, work=told.names.of(one.work), entry=one.entry) for one in compared.works]
    yield Line(say(t.DONE_BETWEEN, works=listed(works)) if works else say(t.NO_WORK), style=QUIET)


def _know(told: Told) -> Iterator[Line]:
    yield Line(say(t.KNOW, **told.rounds), style=HEADING)
    for change in told.compared.changes:
        yield from _change(change, told)
    for refusal in told.compared.refusals:
        yield from _refusal(refusal, told)
    if told.compared.changes:
        yield Line(say(t.BAND), indent=2, style=QUIET)
    elif not told.compared.refusals:
        yield Line(say(t.NOTHING_READ), indent=2)


def _change(change: Change, told: Told) -> Iterator[Line]:
    label = say(t.POINT, point=point_said(change.after.point))
    if change.before.point != change.after.point:
        points = {"point": point_said(change.after.point), "other": point_said(change.before.point)}
        label = say(t.TWO_POINTS, **points)
    pair = say(t.PAIR, before=with_band(change.brought), now=with_band(change.now))
    yield Line(label, indent=2, right=pair)
    yield Line(change_said(change), indent=4)
    zero = say(t.ZERO[change.zero_read], **told.rounds)
    slots = {"before": number(change.before.shown.value), "after": number(change.after.shown.value)}
    how = t.BY_FLOW if change.by_flow else t.RAW
    yield Line(say(how, **slots, zero=zero, **told.rounds), indent=4, style=QUIET)


def change_said(change: Change) -> Said:
    """Down or up by how much, to what share, and whether that is more than noise."""
    apart = change.difference
    by = {"by": number(abs(apart.value)), "band": number(2 * apart.sd)}
    moved = say(t.DOWN if apart.value < 0 else t.UP, **by)
    real = say(t.REAL if change.real else t.NOISE)
    if change.ratio is None:
        return say(t.NO_SHARE, change=moved, real=real)
    low, high = change.ratio.band
    slots = {"low": _share(max(low, 0.0)), "high": _share(high)}
    return say(t.TO_SHARE, change=moved, share=_share(change.ratio.value), **slots, real=real)


def with_band(found: Measured) -> Said:
    return say(t.NUMBER, value=number(found.value), band=number(2 * found.sd))


def _share(ratio: float) -> str:
    return fixed(ratio * 100)


def _refusal(refusal: Refusal, told: Told) -> Iterator[Line]:
    point = point_said(refusal.slot.partition("@")[2])
    values = say(t.WAS, before=_shown(refusal.before), after=_shown(refusal.after))
    yield Line(say(t.NOT_COMPARED, point=point), indent=2, right=values)
    for reason in refusal.why:
        yield Line(say(t.UNLIKE[reason.value], **told.rounds), indent=4)
        if reason in _DISTRUSTED:
            yield Line(_failed(reason, refusal, told), indent=4)
    yield Line(instead_said(refusal.instead, told.names, told.rounds), indent=4)


def _shown(taken: Taken | None) -> Said:
    return say("-") if taken is None else shown(number(taken.shown.value))


def _failed(reason: Unlike, refusal: Refusal, told: Told) -> Said:
    side = refusal.before if reason is Unlike.DISTRUSTED_BEFORE else refusal.after
    tests = [told.names.of(test) for test in side.distrusted] if side is not None else []
    return say(t.FAILED, tests=listed(tests))


def instead_said(instead: tuple[str, ...], names: Names, rounds: dict[str, str]) -> Said:
    """What to read now, or that the earlier round is past mending."""
    if not instead:
        return say(t.TOO_LATE, **rounds)
    return say(t.INSTEAD, slots=listed([names.of(slot) for slot in instead]))


def _picture(told: Told) -> Iterator[Line]:
    if not told.flow.points:
        return
    yield BLANK
    yield Line(say(t.PICTURE, **told.rounds), style=HEADING)
    for row in plot_rows(told.flow, bars=True):
        yield Line(row, indent=2)
    yield Line(say(t.AXES), indent=2, style=QUIET)
    levels = [
        say(t.LEVEL, letter=letter, label=band.label)
        for letter, band in zip("abcdefgh", told.flow.bands, strict=False)
    ]
    if levels:
        yield Line(listed(levels), indent=2, style=QUIET)


def _figures(told: Told) -> Iterator[Line]:
    if not told.compared.figures:
        return
    yield BLANK
    yield Line(say(t.FIGURES), style=HEADING)
    fell = told.compared.outcome.helped in {Helped.WORKED, Helped.PARTLY}
    for figure in told.compared.figures:
        yield Line(say(t.FIGURE[figure.slot]), indent=2, right=_figure_pair(figure))
        if fell and not figure.fell:
            yield Line(say(t.UNMOVED[figure.slot]), indent=4)
    yield Line(say(t.WOULD_SHOW), indent=2)


def _figure_pair(figure: Figure) -> Said:
    unit = "" if figure.unit == "none" else figure.unit
    slots = {"before": number(figure.before.value), "after": number(figure.after.value)}
    return Said(say(t.FIGURE_PAIR, **slots, unit=unit_said(unit)).rstrip())


def _next(told: Told) -> Iterator[Line]:
    yield Line(say(t.NEXT), style=HEADING)
    wanted = dict.fromkeys(slot for each in told.compared.refusals for slot in each.instead)
    done = not wanted and not told.compared.outcome.because
    if done:
        yield Line(say(t.RECHECK), indent=2)
    if wanted:
        slots = listed([told.names.of(slot) for slot in wanted])
        yield Line(say(t.INSTEAD, slots=slots), indent=2)
    for reason in told.compared.outcome.because:
        if said := _do(reason, told):
            yield Line(said, indent=2)


def _do(reason: Because, told: Told) -> Said | None:
    if reason is Because.NOT_PROVEN:
        tests = listed([told.names.of(test) for test in told.compared.unsettled])
        key = "not-proven" if tests else "not-proven-bare"
        return say(t.DO[key], tests=tests, **told.rounds)
    return say(t.DO[reason.value]) if reason.value in t.DO else None


def helped_said(told: Told) -> Said:
    """The one sentence: worked, partly, not shown, worse, or refused."""
    found = told.compared.outcome
    because, after = Said(""), told.compared.after
    level = told.names.word(after.of, after.level or "")
    for reason in found.because:
        said = say(t.BECAUSE[reason.value], level=level, **told.rounds)
        because = say(t.AND, first=because, second=said) if because else said
    ratio = found.leading.ratio if found.leading is not None else None
    if ratio is None and found.helped.value in t.HELPED_NO_SHARE:
        return say(t.HELPED_NO_SHARE[found.helped.value], because=because)
    share = "" if ratio is None else _share(ratio.value)
    return say(t.HELPED[found.helped.value], because=because, share=share)


def remains_lines(told: Told, indent: int) -> Iterator[Line]:
    """Ash, conditions, cause, oil."""
    yield Line(say(t.REMAINS), style=HEADING)
    left = told.remains
    if left.ash is None:
        yield Line(say(t.ASH_UNKNOWN), indent=indent)
    else:
        yield Line(say(t.ASH, confidence=confidence(left.ash)), indent=indent)
    for one in left.conditions:
        slots = {"label": one.label, "confidence": confidence(one.confidence)}
        yield Line(say(t.CONDITION, **slots), indent=indent)
    for one in left.causes:
        slots = {"label": one.label, "confidence": confidence(one.confidence)}
        yield Line(say(t.CAUSE, **slots), indent=indent)
    if not left.causes:
        likely_none = left.no_cause >= 0.6
        said = say(t.NO_CAUSE, confidence=confidence(left.no_cause))
        yield Line(said if likely_none else say(t.CAUSE_OPEN), indent=indent)
    yield Line(say(t.OIL_READ if left.oil_read else t.OIL_OPEN, **told.rounds), indent=indent)
