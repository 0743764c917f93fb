"""A copy of records to hand over: the chosen ones whole, of the others the digests alone.

The chain of the copy is the chain of the ledger, down to the same head. Before anything is
written, the texts are searched for everybody that people.yaml knows.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from shutil import rmtree
from typing import Any

from sootsayer.casework.people import Person
from sootsayer.catalogue import say
from sootsayer.documents.writing import CannotWrite, reason_of, replace_file
from sootsayer.ledger.folder import EXPORT, KEPT, Ledger
from sootsayer.ledger.kept import keep_texts, kept_text
from sootsayer.ledger.model import Record
from sootsayer.ledger.parts import OUTCOME, texts_named
from sootsayer.ledger.reading import records
from sootsayer.ledger.seal import closed, line_of
from sootsayer.ledger.withholding import Pattern, patterns_of


@dataclass(frozen=True, slots=True)
class Named:
    """A text that names somebody: in which record, of which case the person is, and what."""

    number: int
    case: str
    what: str


class NamesSomebody(Exception):  # noqa: N818 (says what the records do)
    """The records may not be handed over so; nothing was written."""

    def __init__(self, found: Named) -> None:
        self.found = found
        super().__init__(f"record {found.number}")


@dataclass(frozen=True, slots=True)
class Exported:
    """How many records are whole in the copy, and of how many only the digest is."""

    whole: int
    closed: int


def export(
    ledger: Ledger, folder: Path, wanted: Collection[int] | None, people: Mapping[str, Person]
) -> Exported:
    """Write the copy. `wanted`: numbers; their outcomes come along; None for all records.

    Raises NamesSomebody, CannotWrite, Lost and Refused.
    """
    lines, digests, whole, shut = list[str](), set[str](), 0, 0
    search = _Search(people)
    for record in records(ledger):
        if wanted is None or record.number in wanted or _is_outcome_of(record, wanted):
            search.through(record)
            digests.update(texts_named(record.body))
            lines.append(_whole(record))
            whole += 1
        else:
            lines.append(closed(record.line).decode())
            shut += 1
    texts = [kept_text(ledger, digest) for digest in sorted(digests)]
    with _new_folder(folder):
        copy = Ledger(folder, folder / EXPORT)
        keep_texts(copy, texts)
        replace_file(copy.file, "".join(f"{line}\n" for line in lines), new=True)
    return Exported(whole, shut)


def _whole(record: Record) -> str:
    line = record.line
    if line.body is None:
        return closed(line).decode()
    return line_of(line.body, line.number, line.previous)[0].decode()


def _is_outcome_of(record: Record, wanted: Collection[int]) -> bool:
    of = record.body.get("of")
    return record.kind == OUTCOME and isinstance(of, dict) and of.get("number") in wanted


@contextmanager
def _new_folder(folder: Path) -> Iterator[None]:
    """A new folder, or an empty one; as before where the copy cannot be written whole, so that it
    can be tried again there. Raises CannotWrite."""
    try:
        was_there = folder.exists()
        if was_there and any(folder.iterdir()):
            raise CannotWrite(folder, say("there is something in it already"))
    except OSError as error:
        raise CannotWrite(folder, reason_of(error)) from None
    except ValueError:
        raise CannotWrite(folder, say("this is no name of a folder")) from None
    try:
        (folder / KEPT).mkdir(parents=True, exist_ok=True)
        yield
    except BaseException as trouble:
        _empty(folder)
        if not was_there:
            with suppress(OSError):
                folder.rmdir()
        if isinstance(trouble, OSError):
            raise CannotWrite(folder, reason_of(trouble)) from None
        raise


def _empty(folder: Path) -> None:
    """Take away what was written of a copy that is not whole."""
    with suppress(OSError):
        for path in folder.iterdir():
            rmtree(path) if path.is_dir() else path.unlink()


class _Search:
    """Everybody who is known, looked for in everything that a record says but its verdict, which
    holds words of the rulebook and readings alone."""

    def __init__(self, people: Mapping[str, Person]) -> None:
        self._people = [
            (case, key, pattern)
            for case, person in people.items()
            for key, pattern in _keyed(person)
        ]

    def through(self, record: Record) -> None:
        """Raises NamesSomebody."""
        told = "\n".join(_texts({k: v for k, v in record.body.items() if k != "verdict"}))
        bare = _bare(told)
        for case, key, pattern in self._people:
            if key in bare and pattern.found.search(told):
                raise NamesSomebody(Named(record.number, case, pattern.instead.strip("()")))


def _keyed(person: Person) -> Iterator[tuple[str, Pattern]]:
    """Each pattern with a cheap test that lets most texts pass: the signs alone, all in a row."""
    for said in (person.name, person.plate, person.chassis_number):
        for pattern in patterns_of(None, [_only(person, said)])[1:]:
            yield _bare(said)[-6:] if said == person.chassis_number else _bare(said), pattern


def _only(person: Person, said: str) -> Person:
    """The person with nothing but this."""
    return Person(
        person.name if said == person.name else "",
        person.plate if said == person.plate else "",
        person.chassis_number if said == person.chassis_number else "",
    )


def _bare(said: str) -> str:
    return re.sub(r"[\W_]", "", said).casefold()


def _texts(found: Any) -> Iterator[str]:
    """Every text in it, keys too."""
    if isinstance(found, str):
        yield found
    elif isinstance(found, dict):
        for key, value in found.items():
            yield key
            yield from _texts(value)
    elif isinstance(found, list):
        for each in found:
            yield from _texts(each)
