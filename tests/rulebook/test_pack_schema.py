"""The schema of packs: valid itself, complete, and pointing to what is wrong."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from sootsayer.documents.nodes import plain
from sootsayer.documents.yaml_source import read_document
from sootsayer.physics.units import UNITS
from sootsayer.rulebook.compiled import shipped_cases, shipped_rules
from sootsayer.rulebook.model import BasisKind, Where
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.permissions_from import STATES
from tests.rulebook.bad_packs import GOLDEN, HEAD, problems_of

SCHEMA: dict[str, Any] = json.loads(
    (shipped_rules() / "schema" / "pack.schema.json").read_text(encoding="utf-8")
)
DEFS = SCHEMA["$defs"]


def test_schema_is_a_schema() -> None:
    """The file is a valid schema of draft 2020-12, and says so."""
    Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_shipped_folders_are_there() -> None:
    """The rules and the cases are found, wherever the program runs from."""
    assert shipped_rules().is_dir()
    assert shipped_cases().is_dir()


def test_golden_pack_fits() -> None:
    """The pack with one of everything fits the schema, in a validator of its own."""
    data = plain(read_document(GOLDEN / "one-of-everything.yaml").root)
    assert list(Draft202012Validator(SCHEMA).iter_errors(data)) == []


def test_words_are_those_of_the_program() -> None:
    """Sections, units, kinds and states in the schema are exactly those that the code knows."""
    assert DEFS["unit"]["enum"] == ["none", *UNITS]
    assert {each.value for each in Section} <= set(SCHEMA["properties"])
    assert DEFS["basis"]["properties"]["kind"]["enum"] == [each.value for each in BasisKind]
    assert DEFS["check"]["properties"]["where"]["enum"] == [each.value for each in Where]
    states = DEFS["action"]["properties"]["states"]["items"]["properties"]["state"]
    assert states["enum"] == list(STATES)


def test_no_object_takes_any_key() -> None:
    """Every mapping in the schema with keys of its own says what else it takes."""
    for name, part in [("the pack", SCHEMA), *DEFS.items()]:
        if "properties" in part and name != "test":
            assert "additionalProperties" in part, name


def test_an_empty_section_says_nothing(tmp_path: Path) -> None:
    """A section may be there and empty."""
    assert problems_of(tmp_path, {"bad": f"{HEAD}limits: {{}}\nevidence: []\n"}) == []


@pytest.mark.parametrize(
    ("body", "places"),
    [
        ("limits:\n  most: {label: Most, defalt: 3 mbar}\n", ["7:9", "7:23"]),
        ("limit:\n  most: {label: Most, default: 3 mbar}\n", ["6:1"]),
        ('limits:\n  most: {label: "", default: 3 mbar}\n', ["7:17"]),
        ("limits:\n  most: {label: Most, default: 3, basis: {kind: rumour}}\n", ["7:49"]),
        (
            "checks:\n  look: {does: Look, where: outside, minutes: 0, gives: []}\n",
            ["7:29", "7:47", "7:57"],
        ),
        ("findings:\n  pressed: {says: Pressed, when: [{dp@rest: 3}]}\n", ["7:34"]),
        ("findings:\n  pressed: {says: Pressed, when: {dp@rest: [1, 3]}}\n", ["7:44"]),
        ("findings:\n  pressed: {says: Pressed, when: {at least: 2}}\n", None),
        ("findings:\n  pressed: {says: Pressed, when: {dp@rest: {between: [2]}}}\n", ["7:54"]),
        ("findings:\n  pressed: {says: Pressed, when: {dp@rest: {above: {times: 2}}}}\n", ["7:52"]),
        ("actions:\n  go: {does: Go, hurts if wrong: [people], needs: []}\n", ["7:7"]),
        ("faults:\n  worn: {label: Worn, kind: cause, prior: true}\n", ["7:43"]),
        (
            "faults:\n  worn: {label: Worn, kind: cuase, prior: often, applies when: always}\n",
            ["7:29", "7:64"],
        ),
        ("families:\n  one: restriction-at-idle\n", ["7:8"]),
        (
            "signals:\n  heat: {label: Heat, kind: number, unit: warm, possible: [0, 9]}\n",
            ["7:43"],
        ),
    ],
)
def test_wrong_shape_is_located(body: str, places: list[str] | None, tmp_path: Path) -> None:
    """What does not fit the schema is refused once, at its place, with what would be right."""
    found = problems_of(tmp_path, {"bad": HEAD + body})
    assert found
    assert all(each.what and each.instead for each in found)
    if places is not None:
        assert [f"{each.place.line}:{each.place.column}" for each in found] == places
