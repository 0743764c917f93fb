"""The cases of a folder: which are open, and how far each is. Needs no rulebook."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from sootsayer.casework.no_entries import parse_case
from sootsayer.catalogue import Said, say, say_count
from sootsayer.catalogue_numbers import moment_of
from sootsayer.console import ask_texts as t
from sootsayer.documents.nodes import Document, Listing, Mapping, Scalar
from sootsayer.documents.problems import Refused
from sootsayer.documents.reading import read_bytes

SUFFIX = ".yaml"
PEOPLE = "people.yaml"


@dataclass(frozen=True, slots=True)
class Shelved:
    """One case file; `id` is None where it cannot be read as a case. `last`: when the newest
    entry was made, as written."""

    path: Path
    id: str | None
    label: str = ""
    entries: int = 0
    last: str = ""
    closed: bool = False


def shelved(folder: Path) -> list[Shelved]:
    """Every case of the folder by file name; none where there is no folder."""
    files = sorted(file for file in folder.glob("*" + SUFFIX) if file.name != PEOPLE)
    return [_shelved(file) for file in files]


def _shelved(path: Path) -> Shelved:
    try:
        document = parse_case(read_bytes(path, str(path)), str(path))
    except (Refused, OSError):
        return Shelved(path, None)
    listed = document.root.get("entries")
    entries = (
        [each for each in listed if isinstance(each, Mapping)]
        if isinstance(listed, Listing)
        else []
    )
    vehicle = document.root.get("vehicle")
    label = _text(vehicle, "label") if isinstance(vehicle, Mapping) else ""
    return Shelved(
        path,
        _id(document),
        label,
        len(entries),
        _text(entries[-1], "at") if entries else "",
        any("outcome" in entry for entry in entries),
    )


def _id(document: Document) -> str | None:
    return _text(document.root, "case") or None


def _text(node: Mapping, key: str) -> str:
    value = node.get(key)
    return value.text if isinstance(value, Scalar) else ""


def case_line(number: int, case: Shelved) -> Said:
    """One open case in the list that is chosen from."""
    entries = say(t.NO_ENTRIES)
    if case.entries:
        one, many = t.ENTRIES
        entries = say_count(one, many, count=case.entries)
    slots = {"number": number, "case": case.id or "", "label": case.label, "entries": entries}
    if not case.last:
        return say(t.OPEN_CASE, **slots)
    return say(t.OPEN_CASE_LAST, **slots, time=moment_of(case.last))
