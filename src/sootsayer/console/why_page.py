"""The page that answers why, and why not: what we know, why, what next."""

from __future__ import annotations

from itertools import groupby

from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.console import judge_bits as bits
from sootsayer.console import why_texts as t
from sootsayer.console.names import Names
from sootsayer.console.paper import BLANK, HEADING, QUIET, STRONG, Line, Page, page
from sootsayer.console.why_kinds import kind_lines
from sootsayer.console.why_steps import step_lines
from sootsayer.console.words import (
    BAR_CELLS,
    channel_said,
    confidence,
    gauge,
    level_said,
    per_cent,
    permitted_said,
    value_said,
)
from sootsayer.engine.conditions import Value
from sootsayer.judgement.verdict import ChannelState, Permitted
from sootsayer.judgement.why_answer import ThingKind, WhyAnswer, WhyCheck, WhyLink

_STATED = {ThingKind.INTERLOCK, ThingKind.ACTION}
_UNCHANGING = {ThingKind.CHECK, ThingKind.LIMIT, ThingKind.SIGNAL}
_DERIVED = {ThingKind.FINDING, ThingKind.INTERLOCK, ThingKind.SLOT, ThingKind.CODE}


def why_page(answer: WhyAnswer, names: Names) -> Page:
    """The page for one answer."""
    header = say(t.HEADER, case=answer.case, entry=answer.as_of_entry, thing=answer.thing)
    bands = [
        [Line(header, style=QUIET)],
        _band(t.KNOW, _know(answer, names)),
        _band(t.WHY, _why(answer, names)),
        _band(t.NEXT, _next(answer)),
    ]
    lines: list[Line] = []
    for band in filter(None, bands):
        lines += [*band, BLANK]
    return page(lines[:-1])


def _band(title: str, lines: list[Line]) -> list[Line]:
    """A band, left out where it has nothing to say (a check has no why)."""
    return [Line(say(title), style=HEADING), *lines] if lines else []


def _know(answer: WhyAnswer, names: Names) -> list[Line]:
    lines = [_thing(answer)]
    said: list[Said] = []
    if answer.missing is not None:
        said.append(say(t.MISSING[answer.missing.value]))
    if answer.borderline:
        said.append(say(t.BORDERLINE))
    if answer.set_aside is not None:
        template = t.SET_ASIDE if answer.would_be else t.SET_ASIDE_BARE
        channel, would_be = names.of(answer.set_aside), level_said(answer.would_be)
        said.append(say(template, channel=channel, would_be=would_be))
    lines += [Line(text, indent=2) for text in said]
    if answer.permission is not None:
        lines += _hurts(answer)
    if answer.check is not None:
        check = answer.check
        text = say(t.CHECK, minutes=f"{check.minutes:g}", where=check.where)
        lines += [Line(text, indent=2), *_caution(check, 2)]
    return lines


def _thing(answer: WhyAnswer) -> Line:
    slots = {"thing": answer.thing, "label": answer.label}
    if answer.kind is ThingKind.FAULT and isinstance(answer.value, float):
        text = say(t.THING["fault"], **slots, value=confidence(answer.value))
        gauged = gauge(answer.value)
        return Line(text, indent=2, style=STRONG, right=gauged, bar=BAR_CELLS)
    value = _value(answer.kind, answer.value, answer.unit)
    return Line(say(t.THING[answer.kind.value], **slots, value=value), indent=2, style=STRONG)


def _value(kind: ThingKind, value: Value, unit: str | None) -> Said:
    """A value in the words of its kind."""
    if kind in _STATED:
        permitted = next((state for state in Permitted if state.value == value), None)
        return permitted_said(permitted) if permitted else value_said(value)
    if kind is ThingKind.CHANNEL:
        channel = next((state for state in ChannelState if state.value == value), None)
        return channel_said(channel) if channel else value_said(value)
    if kind is ThingKind.FAULT and isinstance(value, float):
        return say(t.SURE, word=confidence(value), number=shown(per_cent(value).strip()))
    return value_said(value, unit)


def _hurts(answer: WhyAnswer) -> list[Line]:
    permission = answer.permission
    if permission is None:
        return []
    lines: list[Line] = []
    if permission.hurts:
        hurts = listed([shown(hurt) for hurt in permission.hurts])
        lines.append(Line(say(t.HURTS, hurts=hurts), indent=2))
    if permission.caution:
        lines.append(Line(say(t.CAUTION, caution=permission.caution), indent=2))
    return lines


def _why(answer: WhyAnswer, names: Names) -> list[Line]:
    lines = kind_lines(answer, names)
    if answer.applies is not True or answer.applies_steps:
        heading = {True: t.APPLIES, False: t.NOT_APPLIES, None: t.MAYBE_APPLIES}[answer.applies]
        lines += [Line(say(heading), indent=2), *step_lines(answer.applies_steps, 4)]
    lines += step_lines(answer.steps, 2)
    if answer.grounds:
        lines.append(Line(say(t.RESTS_ON), indent=2))
        lines += [Line(bits.ground_full(ground), indent=4) for ground in answer.grounds]
    elif answer.kind in _DERIVED:
        lines.append(Line(say(t.NO_GROUNDS), indent=2))
    return lines + _rule(answer)


def _rule(answer: WhyAnswer) -> list[Line]:
    if answer.rule is None:
        return []
    rule = answer.rule
    # What has no logic of its own (a limit, a check) has no revision, only a place.
    whole, bare = (t.RULE_BASIS, t.RULE) if rule.revision else (t.PLACE_BASIS, t.PLACE)
    text = say(
        whole if answer.basis else bare,
        id=answer.thing,
        file=rule.file,
        line=rule.line,
        revision=rule.revision,
        basis=answer.basis,
    )
    return [Line(text, indent=2, style=QUIET)]


def _next(answer: WhyAnswer) -> list[Line]:
    lines: list[Line] = []
    for item in answer.unknown:
        missing = say(t.MISSING_SHORT[item.missing.value])
        text = say(t.UNKNOWN, label=item.label, slot=item.slot, missing=missing)
        lines.append(Line(text, indent=4))
        for check in item.checks:
            slots = {"does": check.does, "check": check.id, "minutes": f"{check.minutes:g}"}
            lines += [Line(say(t.UNKNOWN_CHECK, **slots), indent=6), *_caution(check, 8)]
        if not item.checks:
            lines.append(Line(say(t.UNKNOWN_NO_CHECK), indent=6))
    if lines:
        lines.insert(0, Line(say(t.COULD_CHANGE), indent=2))
    elif answer.set_aside is not None:
        lines = [Line(say(t.SET_ASIDE_NEXT), indent=2)]
    elif answer.kind not in _UNCHANGING:
        lines = [Line(say(t.NOTHING_UNKNOWN), indent=2), Line(say(t.CORRECTABLE), indent=2)]
    return lines + _related(answer.related)


def _related(links: tuple[WhyLink, ...]) -> list[Line]:
    lines: list[Line] = []
    for relation, group in groupby(links, key=lambda link: link.relation):
        lines.append(Line(say(t.RELATION[relation.value]), indent=2))
        lines += [Line(_link(link), indent=4) for link in group]
    return lines


def _link(link: WhyLink) -> Said:
    slots = {"label": link.label, "id": link.id}
    if link.kind is ThingKind.CHECK or (link.kind is ThingKind.SIGNAL and link.value is None):
        return say(t.LINK_BARE, **slots)
    return say(t.LINK, **slots, value=_value(link.kind, link.value, link.unit))


def _caution(check: WhyCheck, indent: int) -> list[Line]:
    return [Line(say(t.CAUTION, caution=check.caution), indent=indent)] if check.caution else []
