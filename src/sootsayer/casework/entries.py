"""One entry's node as an Entry, and what is wrong with it."""

from __future__ import annotations

import re
from datetime import UTC, datetime

from sootsayer.casework.collector import Collector, integer_of, mapping_of, text_of
from sootsayer.casework.model import (
    Absence,
    CodeList,
    Entry,
    Outcome,
    Said,
    Source,
    Vehicle,
)
from sootsayer.casework.moments import MomentRefused, read_moment
from sootsayer.casework.slots import find_signal
from sootsayer.casework.values import read_said
from sootsayer.catalogue import say
from sootsayer.documents.nodes import Listing, Mapping, Node, Scalar
from sootsayer.documents.problems import did_you_mean
from sootsayer.physics.units import UnitError, convert, read_number
from sootsayer.rulebook.model import Model

_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_CODE = re.compile(r"[PBCU][0-9A-F]{4}")
_MONITORS = {"run": True, "not run": False}  # not said
_SAYS_NOTHING = frozenset({"at", "by", "round", "source", "corrects"})
_SAYS = ("facts", "none", "codes", "work", "note", "outcome")


def read_entry(
    number: int, node: Mapping, model: Model, vehicle: Vehicle, collector: Collector
) -> Entry:
    """The entry as it stands alone; `round` and `source` of a correction are filled in later."""
    if set(node.items) <= _SAYS_NOTHING:
        collector.add(
            node, say("this entry says nothing"), say("add one of: {keys}", keys=", ".join(_SAYS))
        )
    return Entry(
        number=number,
        at=_at(node, collector),
        by=_id(node, "by", collector) or "",
        round=_id(node, "round", collector),
        source=_source(node, collector),
        said=_said(node, model, vehicle, collector),
        place=node.place,
        codes=_codes(node, collector),
        corrects=integer_of(node.get("corrects")),
        work=_id(node, "work", collector),
        note=text_of(node.get("note")),
        outcome=_outcome(node, model, collector),
    )


def _at(node: Mapping, collector: Collector) -> datetime:
    value = node.get("at")
    text = text_of(value)
    if value is not None and text is not None:
        try:
            return read_moment(text)
        except MomentRefused as refusal:
            collector.add(value, refusal.what, refusal.instead)
    return datetime.fromtimestamp(0, UTC)  # never seen: the case is refused


def _id(node: Mapping, key: str, collector: Collector) -> str | None:
    return _checked_id(node.get(key), key, collector)


def _checked_id(value: Node | None, key: str, collector: Collector) -> str | None:
    text = text_of(value)
    if value is None or text is None:
        return None
    if not _ID.fullmatch(text):
        near = "-".join(re.findall(r"[a-z0-9]+", text.lower()))
        collector.add(
            value,
            say('{key} "{text}" is not in lower case with dashes', key=key, text=text),
            say("write {name}", name=near) if near else say("write it like after-clean"),
        )
    return text


def _source(node: Mapping, collector: Collector) -> Source:
    value = node.get("source")
    text = text_of(value)
    if value is None or text is None:
        return Source.TECHNICIAN
    try:
        return Source(text)
    except ValueError:
        names = [source.value for source in Source]
        near = did_you_mean(text, names) or say("write one of: {known}", known=", ".join(names))
        collector.add(value, say('unknown source "{text}"', text=text), near)
        return Source.TECHNICIAN


def _said(node: Mapping, model: Model, vehicle: Vehicle, collector: Collector) -> tuple[Said, ...]:
    """Facts and absences by slot, so that their order in the file never matters."""
    facts, none = mapping_of(node.get("facts")), mapping_of(node.get("none"))
    said: list[Said] = []
    for slot, value in facts.items.items() if facts else ():
        place = facts.key_places[slot] if facts else value.place
        signal = find_signal(slot, place, model, collector)
        if signal is not None:
            one = read_said(slot, value, signal, vehicle, collector, model.signals)
            said.extend([one] if one else [])
    for slot, value in none.items.items() if none else ():
        place = none.key_places[slot] if none else value.place
        if facts and slot in facts:
            collector.add(
                place,
                say("{slot} has a value and a reason for none", slot=slot),
                say("leave one of the two out"),
            )
        signal = find_signal(slot, place, model, collector)
        absence = _absence(value, collector)
        if signal is not None and absence is not None:
            said.append(Said(slot, None, absence, absence.value, value.place))
    return tuple(sorted(said, key=lambda one: one.slot))


def _absence(value: Node, collector: Collector) -> Absence | None:
    text = text_of(value)
    if text is None:
        return None  # the schema says so
    try:
        return Absence(text)
    except ValueError:
        names = [absence.value for absence in Absence]
        near = did_you_mean(text, names) or say("write one of: {known}", known=", ".join(names))
        collector.add(value, say('"{text}" is no reason for having no value', text=text), near)
        return None


def _codes(node: Mapping, collector: Collector) -> CodeList | None:
    codes = mapping_of(node.get("codes"))
    if codes is None:
        return None
    return CodeList(
        complete=text_of(codes.get("read")) == "complete",
        codes=_code_names(codes.get("list"), collector),
        place=codes.place,
        monitors_run=_MONITORS.get(text_of(codes.get("monitors")) or ""),
        distance_km=_distance(codes.get("distance since clearing"), collector),
        warm_ups=integer_of(codes.get("warm-ups")),
    )


def _code_names(node: Node | None, collector: Collector) -> tuple[str, ...]:
    names: set[str] = set()
    for item in node.items if isinstance(node, Listing) else ():
        text = text_of(item)
        if text is None:
            continue
        if _CODE.fullmatch(text):
            names.add(text)
        else:
            better = text.strip().upper()
            instead = (
                say("write {name}", name=better)
                if _CODE.fullmatch(better)
                else say("write it like P2463")
            )
            collector.add(item, say('"{text}" is no trouble code', text=text), instead)
    return tuple(sorted(names))


def _distance(node: Node | None, collector: Collector) -> float | None:
    if not isinstance(node, Scalar):
        return None
    try:
        number = read_number(node.text)
        distance = convert(number.value, number.unit or "km", "km")
    except UnitError as error:
        what = say("distance since clearing: {what}", what=error.what)
        collector.add(node, what, error.instead)
        return None
    if not 0 <= distance <= 10_000_000:
        what = say("{text} is no distance driven", text=node.text)
        collector.add(node, what, say("write it like 420 km"))
    return distance


def _outcome(node: Mapping, model: Model, collector: Collector) -> Outcome | None:
    outcome = mapping_of(node.get("outcome"))
    if outcome is None:
        return None
    faults = outcome.get("faults")
    for item in faults.items if isinstance(faults, Listing) else ():
        name = text_of(item)
        if name is not None and name not in model.faults:
            near = did_you_mean(name, model.faults) or say("name a fault of the rulebook")
            collector.lacks(item, say('unknown fault "{name}"', name=name), near, fault=True)
    cured = outcome.get("cured by")
    works = [
        _checked_id(item, "work", collector)
        for item in (cured.items if isinstance(cured, Listing) else ())
    ]
    return Outcome(
        faults=_texts(faults),
        cured_by=tuple(work for work in works if work),
        proved_by=text_of(outcome.get("proved by")) or "",
    )


def _texts(node: Node | None) -> tuple[str, ...]:
    items = node.items if isinstance(node, Listing) else ()
    return tuple(text for text in (text_of(item) for item in items) if text is not None)
