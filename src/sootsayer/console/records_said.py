"""Sentences on a kept verdict, from its JSON."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sootsayer.advice.permissions import DriveOn, Permitted
from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.catalogue_numbers import figure, moment_of
from sootsayer.console import records_texts as t
from sootsayer.console.records_called import Called
from sootsayer.console.vocabulary import kind_said, state_said, tool_said
from sootsayer.console.words import (
    confidence,
    drive_said,
    per_cent,
    permitted_said,
    typed_said,
)
from sootsayer.ledger import headlines
from sootsayer.ledger.parts import mappings, part, text, whole
from sootsayer.ledger.replay_model import Change, Difference, Of

_NO_LEVELS = {"set-aside", "unknown"}  # what a finding says beside its levels
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


def difference_said(each: Difference, called: Called) -> tuple[Said, Said, Said]:
    """One difference: what differs, then, today."""
    then, now = (_value(each, value, called) for value in (each.then, each.now))
    what = kind_said(each.id) if each.of is Of.LEADING else called.of(each.id)
    return say(_ROWS.get(each.of, t.ROW), what=what), then, now


def _value(each: Difference, value: str, called: Called) -> Said:
    if not value:
        return say(t.ABSENT)
    if each.of is Of.CONFIDENCE:
        return shown(per_cent(float(value)).strip())
    if each.of is Of.LEADING:
        return say(t.NOTHING_LEADS) if value == headlines.NONE else called.of(value)
    if each.of is Of.FINDING:
        return state_said(value) if value in _NO_LEVELS else called.level(each.id, value)
    return typed_said(value) if each.of is Of.LIMIT else state_said(value)


def change_said(change: Change, called: Called) -> Said:
    """A change of the rulebook or the settings: which, and from what to what."""
    thing = _thing(change, called)
    was, is_ = (_setting(change.section, told, called) for told in (change.was, change.is_))
    if not was and not is_:
        return thing
    if not was:
        return say(t.CHANGE_NEW, thing=thing, is_=is_)
    if not is_:
        return say(t.CHANGE_GONE, thing=thing, was=was)
    return say(t.CHANGE, thing=thing, was=was, is_=is_)


def _setting(section: str, told: str, called: Called) -> Said:
    """A number, a range, a revision, a list; or `there`, of what has none of them."""
    if not told:
        return Said("")
    if told == "there":
        return say("there")
    parts = told.split(", ")
    if section == "shop tools":
        return Said(", ".join(tool_said(each) for each in parts))
    if section == "shop chances":
        return listed([_chance(each, called) for each in parts])
    low, mark, high = told.partition(" to ")
    if mark:
        return say("{low} to {high}", low=figure(low), high=figure(high))
    return typed_said(told)


def _chance(told: str, called: Called) -> Said:
    """A fault and the share of the times that it is cured."""
    fault, _, share = told.rpartition(" ")
    return say(t.CHANCE, fault=called.of(fault), share=figure(share))


def _thing(change: Change, called: Called) -> Said:
    if change.section in t.SETTING:
        return say(t.SETTING[change.section])
    section = say(t.SECTION[change.section])
    if change.section in t.ALONE:
        return section
    return say(t.OF_SECTION, section=section, id=called.with_id(change.id))
