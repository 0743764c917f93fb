"""The published schemas."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from sootsayer.rulebook.compiled import shipped_rules
from tests.keys_page import EXPLAINED, PAGE, page

SCHEMAS = sorted((Path(shipped_rules()) / "schema").glob("*.json"))


def test_there_are_schemas() -> None:
    """The test below looks at something."""
    assert {"case", "pack", "verdict"} <= {path.name.partition(".")[0] for path in SCHEMAS}


@pytest.mark.parametrize("path", SCHEMAS, ids=lambda path: path.name)
def test_a_schema_is_itself_valid(path: Path) -> None:
    """Each is a JSON Schema of draft 2020-12; the loader takes that for granted."""
    schema = json.loads(path.read_text("utf-8"))
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(schema)


def test_the_page_of_keys_is_as_the_schemas() -> None:
    """The reference is written from the schemas, all of them, so it cannot drift: python -m
    tests.keys_page."""
    assert set(EXPLAINED) == {path.name.partition(".")[0] for path in SCHEMAS}
    assert PAGE.read_text(encoding="utf-8") == page()


@pytest.mark.parametrize("path", SCHEMAS, ids=lambda path: path.name)
def test_every_key_stands_on_the_page(path: Path) -> None:
    """No key of a format, at any depth that has a name, is missing from its part of the page."""
    name = path.name.partition(".")[0]
    part = page().split(f"\n## {name}\n")[1].split("\n## ")[0]
    schema = json.loads(path.read_text("utf-8"))
    named = [schema, *schema.get("$defs", {}).values()]
    keys = {key for each in named for key in each.get("properties", {})}
    assert keys
    assert {key for key in keys if f"`{key}`" not in part} == set()
