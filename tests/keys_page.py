"""Writes docs/reference/keys.md from the published schemas.

After a change of a schema: `python -m tests.keys_page`.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[1]
PAGE = ROOT / "docs" / "reference" / "keys.md"
SCHEMAS = ROOT / "rules" / "schema"
Schema = dict[str, Any]

# Each format with the page that explains it, in the order of the page.
EXPLAINED = {
    "case": "case-format.md",
    "people": "case-format.md",
    "pack": "pack-format.md",
    "shop": "shop-folder.md",
    "words": "words-format.md",
    "expected": "expected-format.md",
    "spreads": "spreads-format.md",
    "verdict": "verdict.md",
    "record": "record-format.md",
}
TOP = """\
# Every key of every format

<!-- Written from the schemas under rules/schema by `python -m tests.keys_page`. -->

What may stand in each file, as the published JSON Schemas (draft 2020-12, `rules/schema/`) have
it. A key in **bold** has to be there. What a key means, with examples, is told on the page that
each heading names; what stands in *italics* has a table or a line of its own further down in the
same format. What is no key of a format is refused, with the nearest one that is.
"""
KINDS = {
    "string": "text", "number": "number", "integer": "whole number", "boolean": "true or false",
    "null": "nothing", "object": "keys", "array": "list",
}  # fmt: skip
MOST_WORDS = 12  # of a choice, before the rest is counted


def page() -> str:
    """The page as it should be."""
    parts = [TOP]
    for name, explained in EXPLAINED.items():
        schema = json.loads((SCHEMAS / f"{name}.schema.json").read_text("utf-8"))
        parts.append(f"## {name}\n\nExplained in [{explained}]({explained}).\n")
        parts += _tables(schema)
    return "\n".join(parts)


def _tables(schema: Schema) -> Iterator[str]:
    """A table for the format itself, and one for each of its parts that has keys."""
    yield from _table(schema, "")
    for name, part in schema.get("$defs", {}).items():
        yield from _table(part, name)


def _table(schema: Schema, name: str) -> Iterator[str]:
    keys = schema.get("properties", {})
    if not keys:
        if name:
            yield f"**{name}**: {_holds(schema)}{_said(schema)}\n"
        return
    if name:
        yield f"### {name}\n"
    if schema.get("description"):
        yield f"{_plain(schema['description'])}\n"
    must = schema.get("required", [])
    rows = [
        f"| {_key(key, key in must)} | {_holds(each)} | {_says(each)} |"
        for key, each in keys.items()
    ]
    yield "\n".join(["| key | holds | |", "|---|---|---|", *rows]) + "\n"


def _key(key: str, must: bool) -> str:
    return f"**`{key}`**" if must else f"`{key}`"


def _holds(schema: Schema | bool) -> str:
    """What a value is, in words."""
    if isinstance(schema, bool):
        return "anything" if schema else "nothing"
    if "$ref" in schema:
        return f"*{schema['$ref'].rsplit('/', 1)[-1].replace('%20', ' ')}*"
    if "const" in schema:
        return f"`{schema['const']}`"
    if "enum" in schema:
        plain = [word if isinstance(word, str) else json.dumps(word) for word in schema["enum"]]
        words = [f"`{word}`" for word in plain]
        more = len(words) - MOST_WORDS
        return ", ".join(words[:MOST_WORDS]) + (f" and {more} more" if more > 0 else "")
    for several in ("oneOf", "anyOf"):
        if several in schema:
            return " or ".join(dict.fromkeys(_holds(each) for each in schema[several]))
    kinds = schema.get("type", "anything")
    kinds = kinds if isinstance(kinds, list) else [kinds]
    return " or ".join(_kind(kind, schema) for kind in kinds)


def _kind(kind: str, schema: Schema) -> str:
    if kind == "array" and "items" in schema:
        return f"list of {_holds(schema['items'])}"
    if kind == "object" and isinstance(schema.get("additionalProperties"), dict):
        return f"names, each with {_holds(schema['additionalProperties'])}"
    if kind in ("number", "integer"):
        return KINDS[kind] + _range(schema)
    return KINDS.get(kind, kind)


def _range(schema: Schema) -> str:
    words = {
        "minimum": "at least", "exclusiveMinimum": "above", "maximum": "at most",
        "exclusiveMaximum": "below",
    }  # fmt: skip
    told = [
        f"{word} {schema[key]:,}".replace(",", " ") for key, word in words.items() if key in schema
    ]
    return f" ({', '.join(told)})" if told else ""


def _says(schema: Schema | bool) -> str:
    """What the schema says of a key, and what it is without it."""
    if isinstance(schema, bool):
        return ""
    said = [_plain(schema["description"])] if schema.get("description") else []
    if "default" in schema:
        said.append(f"Else `{schema['default']}`.")
    return " ".join(said)


def _said(schema: Schema) -> str:
    return f". {_plain(schema['description'])}" if schema.get("description") else ""


def _plain(text: str) -> str:
    return text.replace("|", "\\|")


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8", newline="\n")
