"""Names apart from cases."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.casework.people import (
    Person,
    erase_person,
    people_path,
    read_people,
    write_person,
)
from sootsayer.documents.problems import Refused


def test_written_read_and_erased(tmp_path: Path) -> None:
    """A person is kept beside the case, and erasing leaves nothing of it in the file."""
    path = people_path(tmp_path / "2031-03-14-a.yaml")
    assert path == tmp_path / "people.yaml"
    assert read_people(path) == {}
    first, second = Person('A "b": {c}, #d', "X-1", ""), Person("", "", "chassis\n1")
    write_person(path, "2031-03-14-a", first)
    write_person(path, "2031", second)
    assert read_people(path) == {"2031-03-14-a": first, "2031": second}
    assert erase_person(path, "2031-03-14-a")
    assert not erase_person(path, "2031-03-14-a")
    assert "X-1" not in path.read_text()
    assert read_people(path) == {"2031": second}
    assert erase_person(path, "2031")
    assert read_people(path) == {}


@pytest.mark.parametrize(
    "text", ["format: 2\npeople: {}\n", "people: {}\n", "format: 1\npeople: {a: {age: 3}}\n"]
)
def test_refused(tmp_path: Path, text: str) -> None:
    """A file of another shape is refused and not written over."""
    path = tmp_path / "people.yaml"
    path.write_text(text)
    with pytest.raises(Refused):
        write_person(path, "a", Person("x"))
    assert path.read_text() == text


def test_no_digest_reads_people() -> None:
    """No other module imports what reads people, but for what keeps them out of an export."""
    source = Path(__file__).parents[2] / "src" / "sootsayer"
    files = sorted(source.rglob("*.py"))
    assert len(files) > 10
    importing = [
        path.name
        for path in files
        if "casework.people" in path.read_text(encoding="utf-8") and "commands" not in path.parts
    ]
    assert importing == ["exporting.py", "withholding.py"]
