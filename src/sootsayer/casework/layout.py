"""The form that makes appending safe: entries last, unindented, one line each."""

from __future__ import annotations

from sootsayer.casework.collector import Collector
from sootsayer.catalogue import say
from sootsayer.documents.nodes import Document, Listing, Place


def check_layout(document: Document, collector: Collector) -> None:
    """Note every line after `entries:` that is no entry of one line.

    A case file grows by appending lines, so nothing may stand where the next entry goes.
    """
    key = document.root.key_places.get("entries")
    if key is None:
        return  # the schema says so
    if list(document.root.items)[-1] != "entries":
        after = [name for name in document.root.items if name != "entries"]
        for name in after:
            place = document.root.key_places[name]
            if place > key:
                collector.add(
                    place,
                    say('"{name}" stands after the entries', name=name),
                    say("move it above `entries:`, which is the last key"),
                )
        return
    if key.column != 1:
        collector.add(key, say("`entries:` is indented"), say("write it at the start of its line"))
    rest = document.lines[key.line - 1][key.column - 1 :].partition(":")[2].strip()
    if rest and not rest.startswith("#"):
        collector.add(
            key,
            say("entries stand beside `entries:`"),
            say("write each entry on a line of its own below"),
        )
        return
    _check_lines(document, collector, key)


def _check_lines(document: Document, collector: Collector, key: Place) -> None:
    entries = document.root["entries"]
    starts = {item.place.line for item in entries} if isinstance(entries, Listing) else set()
    for number, line in enumerate(document.lines[key.line :], start=key.line + 1):
        text = line.strip()
        if not text or text.startswith("#") or (line.startswith("- {") and number in starts):
            continue
        column = len(line) - len(line.lstrip()) + 1
        place = Place(document.file, number, column)
        if line[0].isspace() and text.startswith("- {"):
            collector.add(place, say("this entry is indented"), say("begin its line with `- {{`"))
        elif text.startswith("- {"):
            collector.add(
                place, say("this line is part of another entry"), say("close the entry above it")
            )
        elif text.startswith("-"):
            collector.add(
                place,
                say("this entry is not written on one line"),
                say("write it as `- {{at: ..., by: ...}}`"),
            )
        elif number - 1 in starts or line[0].isspace():
            collector.add(
                place,
                say("an entry goes on over more than one line"),
                say("write each entry on one line"),
            )
        else:
            collector.add(
                place, say("this line is no entry"), say("begin it with `- {{`, or with # to note")
            )
