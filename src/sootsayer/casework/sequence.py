"""What entries owe each other: corrections, rounds, and the outcome that closes a case."""

from __future__ import annotations

from dataclasses import replace

from sootsayer.casework.collector import Collector, text_of
from sootsayer.casework.model import Entry
from sootsayer.catalogue import say
from sootsayer.documents.nodes import Mapping
from sootsayer.rulebook.model import Lasts, Model


def in_sequence(
    alone: list[tuple[Entry, Mapping]], model: Model, collector: Collector
) -> tuple[Entry, ...]:
    """The entries with round and source of each correction filled in; problems are noted."""
    done: list[Entry] = []
    roots: dict[int, Entry] = {}
    outcome: int | None = None
    for entry, node in alone:
        if entry.corrects is not None:
            entry = _correction(entry, node, roots, len(alone), collector)
        elif outcome is not None:
            _after_outcome(entry, node, outcome, collector)
        roots[entry.number] = entry if entry.corrects is None else roots[entry.corrects]
        done.append(entry)
        _check_round(entry, node, model, collector)
        if outcome is None and entry.outcome is not None:
            outcome = entry.number
    return tuple(done)


def _correction(
    entry: Entry, node: Mapping, roots: dict[int, Entry], count: int, collector: Collector
) -> Entry:
    """The correction with the round and source of the entry it goes back to."""
    number = entry.corrects
    root = roots.get(number) if number is not None else None
    if root is None:
        collector.add(
            node["corrects"],
            _why_not(entry, count),
            say("write the number of an earlier entry, 1 to {last}", last=entry.number - 1)
            if entry.number > 1
            else say("the first entry corrects nothing; leave `corrects` out"),
        )
        # by itself from here on, so that what follows can still be checked
        return replace(entry, corrects=None)
    _check_same_kind(entry, node, root, collector)
    for key, held in (("round", root.round), ("source", root.source.value)):
        if key in node and text_of(node[key]) != held:
            collector.add(
                node[key],
                _held_other(entry.number, root.number, key, held),
                say("leave `{key}` out; for a new reading leave `corrects` out", key=key),
            )
    return replace(entry, round=root.round, source=root.source)


def _why_not(entry: Entry, count: int) -> str:
    number = entry.corrects or 0
    slots = {"entry": entry.number, "other": number}
    if number == entry.number:
        return say("entry {entry} corrects entry {other}, which is itself", **slots)
    if entry.number < number <= count:
        return say("entry {entry} corrects entry {other}, which comes later", **slots)
    return say("entry {entry} corrects entry {other}, which does not exist", **slots)


def _held_other(entry: int, other: int, key: str, held: str | None) -> str:
    slots = {"entry": entry, "other": other, "key": key}
    if not held:
        return say("entry {entry} corrects entry {other}, whose {key} is not given", **slots)
    return say("entry {entry} corrects entry {other}, whose {key} is {held}", held=held, **slots)


def _check_same_kind(entry: Entry, node: Mapping, root: Entry, collector: Collector) -> None:
    """Work corrects work, an outcome an outcome, a reading something that has readings."""
    pairs = (
        ("work", entry.work is not None, root.work is not None),
        ("outcome", entry.outcome is not None, root.outcome is not None),
        ("facts", "facts" in node or "none" in node, bool(root.said) or root.codes is not None),
        ("codes", entry.codes is not None, bool(root.said) or root.codes is not None),
    )
    for key, corrects, corrected in pairs:
        if corrects and not corrected:
            named = key if key in node else "none"
            collector.add(
                node.key_places[named],
                _has_none(root.number, key),
                say("leave `corrects` out"),
            )


def _has_none(number: int, key: str) -> str:
    if key == "work":
        return say("entry {number} has no work to correct", number=number)
    if key == "outcome":
        return say("entry {number} has no outcome to correct", number=number)
    return say("entry {number} has no readings to correct", number=number)


def _after_outcome(entry: Entry, node: Mapping, outcome: int, collector: Collector) -> None:
    """A closed case takes notes and corrections only."""
    for key in ("facts", "none", "codes", "work"):
        if key in node:
            collector.add(
                node.key_places[key],
                say(
                    "entry {outcome} closed this case, entry {entry} adds to it",
                    outcome=outcome,
                    entry=entry.number,
                ),
                say("begin a new case, or correct an entry with `corrects`"),
            )
            return
    if "outcome" in node:
        collector.add(
            node.key_places["outcome"],
            say("entry {number} already gave the outcome", number=outcome),
            say("add `corrects: {number}` to change it", number=outcome),
        )


def _check_round(entry: Entry, node: Mapping, model: Model, collector: Collector) -> None:
    """A reading belongs to a round."""
    if entry.round is not None or "round" in node or entry.corrects is not None:
        return
    readings = [
        one.slot
        for one in entry.said
        if model.signals[one.slot.partition("@")[0]].lasts is Lasts.ROUND
    ]
    if readings or entry.codes is not None:
        what = (
            say("{slot} was read in no round", slot=readings[0])
            if readings
            else say("a list of codes was read in no round")
        )
        collector.add(node, what, say("add `round: arrival`, or the round it was"))
