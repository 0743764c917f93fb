"""The published schemas."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from sootsayer.rulebook.compiled import shipped_rules

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
