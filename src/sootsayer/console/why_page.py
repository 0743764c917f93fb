"""The page that answers why, and why not: what we know, why, what next."""

from __future__ import annotations

from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.catalogue_numbers import brief
from sootsayer.console import why_texts as t
from sootsayer.console.names import Names
from sootsayer.console.paper import BLANK, HEADING, QUIET, STRONG, Line, Page, page
from sootsayer.console.vocabulary import hurt_said, where_said
from sootsayer.console.why_details import detail_lines, thing_value
from sootsayer.console.why_kinds import kind_lines
from sootsayer.console.why_steps import step_lines
from sootsayer.console.why_work import work_known, work_next
from sootsayer.console.words import BAR_CELLS, confidence, gauge
from sootsayer.judgement.why_answer import Missing, ThingKind, WhyAnswer, WhyCheck
from sootsayer.judgement.would_change import WouldChange

_UNCHANGING = {ThingKind.CHECK, ThingKind.LIMIT, ThingKind.SIGNAL}
_DERIVED = {ThingKind.FINDING, ThingKind.INTERLOCK, ThingKind.SLOT, ThingKind.CODE}


def why_page(answer: WhyAnswer, names: Names) -> Page:
    """The page for one answer."""
    header = say(t.HEADER, case=answer.case, entry=answer.as_of_entry, thing=answer.thing)
    bands = [
        [Line(header, style=QUIET)],
        _band(t.KNOW, _know(answer, names)),
        _band(t.WHY, _why(answer, names)),
        _band(t.NEXT, _next(answer, names)),
        _band(t.DETAILS, detail_lines(answer, names)),
    ]
    lines: list[Line] = []
    for band in filter(None, bands):
        lines += [*band, BLANK]
    return page(lines[:-1])


def _band(title: str, lines: list[Line]) -> list[Line]:
    """A band, left out where it has nothing to say (a check has no why)."""
    return [Line(say(title), style=HEADING), *lines] if lines else []


def _know(answer: WhyAnswer, names: Names) -> list[Line]:
    lines = [_thing(answer, names)]
    said: list[Said] = []
    if answer.missing is not None and answer.set_aside is None:
        said.append(say(t.MISSING[answer.missing.value]))
    if answer.borderline:
        said.append(say(t.BORDERLINE))
    if answer.set_aside is not None:
        said.append(_set_aside(answer, answer.set_aside, names))
    lines += [Line(text, indent=2) for text in said]
    if answer.permission is not None:
        lines += _hurts(answer)
    if answer.remedy is not None:
        lines += work_known(answer.remedy, answer.case, names)
    if answer.check is not None:
        check = answer.check
        text = say(t.CHECK, minutes=brief(check.minutes), where=where_said(check.where))
        lines += [Line(text, indent=2), *_caution(check, 2)]
    return lines


def _set_aside(answer: WhyAnswer, channel: str, names: Names) -> Said:
    """For which instrument, and what it would say; of a fact, what was read."""
    slots = {"channel": names.of(channel), "case": answer.case, "id": channel}
    if not answer.would_be:
        return say(t.SET_ASIDE_BARE, **slots)
    if answer.kind in {ThingKind.SLOT, ThingKind.CODE}:
        would_be = names.typed(answer.thing, answer.would_be)
        return say(t.SET_ASIDE_SLOT, **slots, would_be=would_be)
    return say(t.SET_ASIDE, **slots, would_be=names.level(answer.thing, answer.would_be))


def _thing(answer: WhyAnswer, names: Names) -> Line:
    slots = {"thing": answer.thing, "label": answer.label}
    if answer.kind is ThingKind.FAULT and isinstance(answer.value, float):
        text = say(t.THING["fault"], **slots, value=confidence(answer.value))
        gauged = gauge(answer.value)
        return Line(text, indent=2, style=STRONG, right=gauged, bar=BAR_CELLS)
    words = names.words_of(answer.thing)
    value = thing_value(answer.kind, answer.value, answer.unit, words)
    return Line(say(t.THING[answer.kind.value], **slots, value=value), indent=2, style=STRONG)


def _hurts(answer: WhyAnswer) -> list[Line]:
    permission = answer.permission
    if permission is None:
        return []
    lines: list[Line] = []
    if permission.hurts:
        hurts = listed([hurt_said(hurt) for hurt in permission.hurts])
        lines.append(Line(say(t.HURTS, hurts=hurts), indent=2))
    if permission.caution:
        lines.append(Line(say(t.CAUTION, caution=permission.caution), indent=2))
    return lines


def _why(answer: WhyAnswer, names: Names) -> list[Line]:
    """What decided it, in short; entries, rules and all that bears on it come last."""
    lines = kind_lines(answer, names)
    if answer.applies is not True:
        heading = t.NOT_APPLIES if answer.applies is False else t.MAYBE_APPLIES
        lines += [Line(say(heading), indent=2), *step_lines(answer.applies_steps, 4, names)]
    lines += step_lines(answer.steps, 2, names, answer.thing)
    if not answer.grounds and answer.kind in _DERIVED:
        lines.append(Line(say(t.NO_GROUNDS), indent=2))
    return lines


def _next(answer: WhyAnswer, names: Names) -> list[Line]:
    """The unknown facts that could change it, each with the checks that tell it."""
    if answer.kind is ThingKind.CHECK:
        return []  # what it tells stands below
    if answer.remedy is not None:
        return work_next(answer.remedy)
    lines: list[Line] = []
    told: set[str] = set()
    for item in answer.unknown:
        if item.missing is Missing.SET_ASIDE:
            continue  # to read it again through the same instrument tells nothing
        missing = say(t.MISSING_SHORT[item.missing.value])
        text = say(t.UNKNOWN, label=item.label, slot=item.slot, missing=missing)
        lines.append(Line(text, indent=4))
        for check in item.checks:
            lines += _check(check, again=check.id in told)
            told.add(check.id)
        if not item.checks:
            lines.append(Line(say(t.UNKNOWN_NO_CHECK), indent=6))
    if lines:
        lines.insert(0, Line(say(t.COULD_CHANGE), indent=2))
    if answer.would_change is not None:
        lines += _would_change(answer.would_change, names)
    if answer.set_aside is not None:
        lines.append(Line(say(t.SET_ASIDE_NEXT), indent=2))
    elif not lines and answer.kind not in _UNCHANGING:
        lines = [Line(say(t.NOTHING_UNKNOWN), indent=2), Line(say(t.CORRECTABLE), indent=2)]
    return lines


def _would_change(change: WouldChange, names: Names) -> list[Line]:
    """The cheapest check that could change it, with its caution."""
    check = names.check(change.check)
    if check is None:
        return []
    slots = {
        "what": say(t.CHANGES[_what(change)]),
        "does": check.does,
        "check": check.id,
        "minutes": brief(change.minutes),
    }
    text = say(t.WOULD_CHANGE, **slots)
    if change.then:
        text = say(t.WOULD_CHANGE_STEP, **slots, then=listed([shown(i) for i in change.then]))
    lines = [Line(text, indent=2)]
    if check.caution:
        lines.append(Line(say(t.CAUTION, caution=check.caution), indent=4))
    return lines


def _what(change: WouldChange) -> str:
    if change.actions:
        return "both" if change.kinds else "action"
    return change.kinds[0] if len(change.kinds) == 1 else "several"


def _check(check: WhyCheck, *, again: bool) -> list[Line]:
    """A check with its caution, in full where it is first told of."""
    if again:
        return [Line(say(t.UNKNOWN_AGAIN, check=check.id), indent=6)]
    slots = {"does": check.does, "check": check.id, "minutes": brief(check.minutes)}
    return [Line(say(t.UNKNOWN_CHECK, **slots), indent=6), *_caution(check, 8)]


def _caution(check: WhyCheck, indent: int) -> list[Line]:
    return [Line(say(t.CAUTION, caution=check.caution), indent=indent)] if check.caution else []
