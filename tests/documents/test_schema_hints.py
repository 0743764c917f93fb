"""What schemas say themselves of what would be right."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

from sootsayer.documents.schema_hints import HINTS, hint_said

SCHEMAS = sorted((Path(__file__).parents[2] / "rules" / "schema").glob("*.json"))


def hints_in(node: object) -> Iterator[str]:
    if isinstance(node, dict):
        if isinstance(node.get("x-instead"), str):
            yield node["x-instead"]
        for each in node.values():
            yield from hints_in(each)
    elif isinstance(node, list):
        for each in node:
            yield from hints_in(each)


def test_every_hint_of_ours_can_be_translated() -> None:
    """The hints of all shipped schemas, and no others, stand where translations are found."""
    found = {hint for schema in SCHEMAS for hint in hints_in(json.loads(schema.read_text("utf-8")))}
    assert found == set(HINTS)


def test_a_foreign_hint_is_no_template() -> None:
    """Braces of a schema that is none of ours are text."""
    assert hint_said("write {x: 1}\x1b") == "write {x: 1}\\x1b"
