"""The end of the page of why: entries, rules, and all that the thing rests on or leads to."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby

from sootsayer.catalogue import Said, say, say_count, shown
from sootsayer.console import judge_bits as bits
from sootsayer.console import why_texts as t
from sootsayer.console.names import Names
from sootsayer.console.paper import QUIET, Line
from sootsayer.console.vocabulary import basis_words_said
from sootsayer.console.why_kinds import fault_details, lock_details
from sootsayer.console.why_steps import step_lines
from sootsayer.console.words import (
    channel_said,
    confidence,
    per_cent,
    permitted_said,
    typed_said,
    value_said,
)
from sootsayer.engine.conditions import Value
from sootsayer.judgement.verdict import ChannelState, Permitted
from sootsayer.judgement.why_answer import Relation, ThingKind, WhyAnswer, WhyLink

SHOPS_OWN = "shop-"  # how the file of a shop's pack begins
_STATED = {ThingKind.INTERLOCK, ThingKind.ACTION}
# Of the faults that a thing has to do with, those below this are only counted.
_RULED_OUT = 0.05


def detail_lines(answer: WhyAnswer, names: Names) -> list[Line]:
    """Every entry once, then the rule, then other things."""
    lines: list[Line] = []
    if answer.fault is not None:
        lines += fault_details(answer.fault, names)
    if answer.applies is True and answer.applies_steps:
        lines += [Line(say(t.APPLIES), indent=2), *step_lines(answer.applies_steps, 4, names)]
    if answer.permission is not None:
        lines += lock_details(answer.permission, names)
    elif answer.grounds:
        lines.append(Line(say(t.RESTS_ON), indent=2))
        lines += [Line(bits.ground_full(ground, names), indent=4) for ground in answer.grounds]
    return lines + _rule(answer) + _of_the_shop(answer) + _related(answer, names)


def _of_the_shop(answer: WhyAnswer) -> list[Line]:
    """The shop's own numbers and links that had a part in it."""
    texts = [
        say(
            t.OVERRIDDEN,
            keys=" / ".join(each.path),
            was=typed_said(each.was),
            now=typed_said(each.now),
            why=each.why,
            file=each.rule.file,
            line=each.rule.line,
        )
        for each in answer.overrides
    ]
    said = answer.fault.said if answer.fault is not None else None
    for share in () if said is None else (*said.for_, *said.against):
        if share.link.file.startswith(SHOPS_OWN):
            place = share.link
            texts.append(say(t.SHOP_LINK, says=share.says, file=place.file, line=place.line))
    return [Line(text, indent=2) for text in texts]


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
        basis=basis_words_said(answer.basis),
    )
    return [Line(text, indent=2, style=QUIET)]


def _related(answer: WhyAnswer, names: Names) -> list[Line]:
    lines: list[Line] = []
    for relation, group in groupby(answer.related, key=lambda link: link.relation):
        links = [link for link in group if not _told(link, answer)]
        faults = all(link.kind is ThingKind.FAULT for link in links)
        if faults:
            links.sort(key=lambda link: (-_sure(link), link.id))
        named = [link for link in links if not faults or _sure(link) >= _RULED_OUT]
        if not links:
            continue
        lines.append(Line(say(t.RELATION[relation.value]), indent=2))
        lines += [Line(_link(link, answer.case, names), indent=4) for link in named]
        if len(links) > len(named):
            one, many = t.UNLIKELY if named else t.UNLIKELY_ALL
            lines.append(Line(say_count(one, many, count=len(links) - len(named)), indent=4))
    return lines


def _told(link: WhyLink, answer: WhyAnswer) -> bool:
    """A finding that the page has weighed already."""
    if answer.fault is None or link.relation is not Relation.SPEAKS_FOR:
        return False
    said = answer.fault.said
    return link.id in {item.finding for item in (*said.for_, *said.against)}


def _sure(link: WhyLink) -> float:
    return link.value if isinstance(link.value, float) else 0.0


def _link(link: WhyLink, case: str, names: Names) -> Said:
    """Another thing; of an action also where its caution stands, since here it is only named."""
    slots = {"label": link.label, "id": link.id}
    if link.relation is Relation.NEEDED_BY:
        value = thing_value(link.kind, link.value, link.unit, names.words_of(link.id))
        return say(t.LINK_ACTION, **slots, value=value, case=case)
    if link.kind is ThingKind.REMEDY and link.value is None:
        return say(t.LINK_BARE, **slots)
    if link.kind is ThingKind.CHECK or (link.kind is ThingKind.SIGNAL and link.value is None):
        return say(t.LINK_BARE, **slots)
    value = thing_value(link.kind, link.value, link.unit, names.words_of(link.id))
    return say(t.LINK, **slots, value=value)


def thing_value(
    kind: ThingKind, value: Value, unit: str | None, words: Mapping[str, str] | None = None
) -> Said:
    """A value in the words of its kind; `words`: how its own declared words are said."""
    if kind is ThingKind.REMEDY:
        return say(t.WORK_STATE[str(value)]) if value in t.WORK_STATE else say(t.WORK_RULED_OUT)
    if kind in _STATED:
        permitted = next((state for state in Permitted if state.value == value), None)
        return permitted_said(permitted) if permitted else value_said(value)
    if kind is ThingKind.CHANNEL:
        channel = next((state for state in ChannelState if state.value == value), None)
        return channel_said(channel) if channel else value_said(value)
    if kind is ThingKind.FAULT and isinstance(value, float):
        return say(t.SURE, word=confidence(value), number=shown(per_cent(value).strip()))
    return value_said(value, unit, words)
