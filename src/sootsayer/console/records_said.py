"""Sentences on a kept verdict, from its JSON."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sootsayer.advice.permissions import DriveOn, Permitted
from sootsayer.catalogue import Said, say, shown
from sootsayer.catalogue_numbers import figure, moment_of
from sootsayer.console import records_texts as t
from sootsayer.console.vocabulary import kind_said, state_said
from sootsayer.console.words import (
    confidence,
    drive_said,
    level_said,
    per_cent,
    permitted_said,
    typed_said,
)
from sootsayer.ledger import headlines
from sootsayer.ledger.parts import mappings, part, text, whole
from sootsayer.ledger.replay_model import Change, Difference, Of

_ROWS = {Of.DRIVE: t.DRIVE_ROW, Of.LEADING: t.LEADS_ROW, Of.CONFIDENCE: t.CONFIDENCE_ROW}


def header(told: Mapping[str, Any], vehicle: str) -> Said:
    """Which vehicle, as of which entry."""
    slots = {"case": text(told, "case"), "vehicle": vehicle or say("vehicle")}
    entry = whole(told, "as_of", "entry")
    if not entry:
        return say(t.ADVISED_EMPTY, **slots)
    return say(t.ADVISED, **slots, entry=entry, time=time_said(text(told, "as_of", "time")))


def advised(told: Mapping[str, Any]) -> list[Said]:
    """Whether it may be driven, what leads of each kind, and the first of the work."""
    lines = [say(t.DRIVE, answer=drive_state(headlines.drive_on(told)))]
    return [*lines, *leads(told), first_work(told)]


def leads(told: Mapping[str, Any]) -> list[Said]:
    """Of each kind what leads, in words and per cent."""
    names, shares = headlines.labels(told), headlines.confidences(told)
    lines = []
    for kind, fault in headlines.leading(told).items():
        none = fault == headlines.NONE
        share = headlines.share(part(told, "none").get(kind)) if none else shares[fault]
        slots = {
            "kind": say(t.KIND[kind]),
            "confidence": confidence(share),
            "percent": shown(per_cent(share).strip()),
        }
        if none:
            lines.append(say(t.LEADS_NONE, **slots))
        else:
            lines.append(say(t.LEADS, **slots, label=names.get(fault, fault)))
    return lines


def first_work(told: Mapping[str, Any]) -> Said:
    planned = mappings(told.get("plan"))
    if not planned:
        return say(t.NO_WORK)
    first = planned[0]
    label = first.get("label") or first.get("remedy")
    return say(t.FIRST_WORK, label=label, state=state_said(str(first.get("state"))))


def drive_state(state: str) -> Said:
    try:
        return drive_said(DriveOn(state))
    except ValueError:
        return shown(state)


def permission(state: str) -> Said:
    try:
        return permitted_said(Permitted(state))
    except ValueError:
        return shown(state)


def time_said(moment: str) -> Said:
    """To the minute, as the clock at that place showed it."""
    return moment_of(moment)


def difference_said(each: Difference, told: Mapping[str, Any]) -> tuple[Said, Said, Said]:
    """One difference: what differs, then, today."""
    name = headlines.labels(told).get(each.id, each.id)
    then, now = (_value(each.of, value, told) for value in (each.then, each.now))
    what = kind_said(each.id) if each.of is Of.LEADING else name
    return say(_ROWS.get(each.of, t.ROW), what=what), then, now


def _value(of: Of, value: str, told: Mapping[str, Any]) -> Said:
    if not value:
        return say(t.ABSENT)
    if of is Of.CONFIDENCE:
        return shown(per_cent(float(value)).strip())
    if of is Of.LEADING:
        none = value == headlines.NONE
        return say(t.NOTHING_LEADS) if none else shown(headlines.labels(told).get(value, value))
    if of is Of.FINDING:
        return level_said(value) if value in {"true", "false"} else state_said(value)
    return typed_said(value) if of is Of.LIMIT else state_said(value)


def change_said(change: Change) -> Said:
    """A change of the rulebook or the settings: which, and from what to what."""
    thing = _thing(change)
    if not change.was and not change.is_:
        return thing
    if not change.was:
        return say(t.CHANGE_NEW, thing=thing, is_=_setting(change.is_))
    if not change.is_:
        return say(t.CHANGE_GONE, thing=thing, was=_setting(change.was))
    return say(t.CHANGE, thing=thing, was=_setting(change.was), is_=_setting(change.is_))


def _setting(told: str) -> Said:
    """A number, a range, a revision; or `there`, of what has none of them."""
    if told == "there":
        return say("there")
    low, mark, high = told.partition(" to ")
    if mark:
        return say("{low} to {high}", low=figure(low), high=figure(high))
    return typed_said(told)


def _thing(change: Change) -> Said:
    if change.section in t.SETTING:
        return say(t.SETTING[change.section])
    return say(t.OF_SECTION, section=say(t.SECTION[change.section]), id=change.id)
