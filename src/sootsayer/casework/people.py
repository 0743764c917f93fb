"""Names, plates and chassis numbers, apart from the cases so that they can be erased.

`people.yaml` lies beside the cases, is part of no digest and is read by nothing else.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from sootsayer.casework.append import quoted
from sootsayer.casework.case_file import schema
from sootsayer.casework.collector import mapping_of, text_of
from sootsayer.documents.nodes import Mapping
from sootsayer.documents.problems import Refused
from sootsayer.documents.reading import read_bytes
from sootsayer.documents.schema_check import check_schema
from sootsayer.documents.writing import replace_file
from sootsayer.documents.yaml_source import parse_document

FILE_NAME = "people.yaml"


@dataclass(frozen=True, slots=True)
class Person:
    """Whose vehicle a case is about; "" where it is not known."""

    name: str = ""
    plate: str = ""
    chassis_number: str = ""


def people_path(case_path: Path) -> Path:
    """The people.yaml beside a case file."""
    return case_path.parent / FILE_NAME


def read_people(path: Path) -> dict[str, Person]:
    """Everyone by case id; none where there is no file. Raises documents.Refused."""
    return _read(path)[0]


def _read(path: Path) -> tuple[dict[str, Person], bytes | None]:
    """Everyone by case id, and the bytes that said so (None: there is no file)."""
    if not path.exists():
        return {}, None
    data = read_bytes(path, str(path))
    document = parse_document(data, str(path))
    problems = list(check_schema(document, schema("people")))
    if problems:
        raise Refused(problems)
    listed = mapping_of(document.root.get("people"))
    people = listed.items if listed else {}
    return {case: _person(mapping_of(node)) for case, node in people.items()}, data


def write_person(path: Path, case_id: str, person: Person) -> None:
    """Add or replace the person of one case. Raises documents.Refused and CannotWrite."""
    people, data = _read(path)
    _write(path, {**people, case_id: person}, data)


def erase_person(path: Path, case_id: str) -> bool:
    """Erase the person of one case; false where there was none. Raises as `write_person`."""
    people, data = _read(path)
    if case_id not in people:
        return False
    del people[case_id]
    _write(path, people, data)
    return True


def _person(node: Mapping | None) -> Person:
    if node is None:
        return Person()
    return Person(
        text_of(node.get("name")) or "",
        text_of(node.get("plate")) or "",
        text_of(node.get("chassis number")) or "",
    )


def _write(path: Path, people: dict[str, Person], was: bytes | None) -> None:
    """Write everyone of whom something is known, unless the file has changed since `was`."""
    lines = ["format: 1"]
    for case, person in sorted(people.items()):
        pairs = (
            ("name", person.name),
            ("plate", person.plate),
            ("chassis number", person.chassis_number),
        )
        said = ", ".join(f"{key}: {quoted(text)}" for key, text in pairs if text)
        if said:
            lines.append(f"  {quoted(case)}: {{{said}}}")
    lines.insert(1, "people:" if len(lines) > 1 else "people: {}")
    replace_file(path, "\n".join(lines) + "\n", was=was, new=was is None)
