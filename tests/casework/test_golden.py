"""The golden case, and the case that the reference shows."""

from __future__ import annotations

import json
import re
from dataclasses import asdict
from datetime import datetime
from enum import Enum
from pathlib import Path

from sootsayer.casework.append import line_of
from sootsayer.casework.case_file import read_case
from sootsayer.casework.facts import fact_sheet
from sootsayer.casework.people import Person, read_people
from tests.casework.support import MODEL, case_from

GOLDEN = Path(__file__).parent / "golden"
PAGE = Path(__file__).parents[2] / "docs" / "reference" / "case-format.md"


def _data(value: object) -> object:
    if isinstance(value, Enum):
        return value.value
    assert isinstance(value, datetime)
    return value.isoformat()


def _golden_text() -> str:
    case = read_case(GOLDEN / "case.yaml", MODEL, shown_as="case.yaml")
    both = {"case": asdict(case), "sheet": asdict(fact_sheet(case, MODEL))}
    return json.dumps(both, indent=1, ensure_ascii=False, sort_keys=True, default=_data) + "\n"


def test_golden_case() -> None:
    """Format 1 is read today as it was read when the golden file was made."""
    assert _golden_text() == (GOLDEN / "case.json").read_text(encoding="utf-8")


def test_golden_lines() -> None:
    """The golden case's entries, written again, are the same entries."""
    text = (GOLDEN / "case.yaml").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if line.startswith("- {")]
    case = read_case(GOLDEN / "case.yaml", MODEL)
    assert len(lines) == len(case.entries) == 10
    head = text[: text.index("- {")]
    again = case_from(head + "".join(f"{line_of(entry)}\n" for entry in case.entries))
    assert [line_of(entry) for entry in again.entries] == [line_of(entry) for entry in case.entries]
    assert [
        [(one.slot, one.value, one.absence) for one in entry.said] for entry in again.entries
    ] == [[(one.slot, one.value, one.absence) for one in entry.said] for entry in case.entries]


def test_golden_people() -> None:
    """The people file of format 1 is still read."""
    people = read_people(GOLDEN / "people.yaml")
    assert people == {"2031-03-14-a": Person("A. Customer", "XX 000", "0000")}


def test_the_page_shows_a_right_case() -> None:
    """The example of the reference page is a case without a problem."""
    block = re.search(r"```yaml\n(.*?)```", PAGE.read_text(encoding="utf-8"), re.DOTALL)
    assert block is not None
    case = case_from(block[1])
    assert len(case.entries) == 6
    assert case.closed


if __name__ == "__main__":  # makes the golden file again, for a person to compare
    (GOLDEN / "case.json").write_text(_golden_text(), encoding="utf-8")
