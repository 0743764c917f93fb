"""The short way through a schema, beside the full validator that it saves."""

from __future__ import annotations

import json
import random
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from sootsayer.casework.no_entries import parse_case
from sootsayer.documents.nodes import plain
from sootsayer.documents.schema_sure import sure_test
from sootsayer.documents.yaml_source import read_document
from sootsayer.rulebook.shipped import shipped_cases, shipped_rules

FORMATS = ("case", "pack", "shop", "people", "words", "expected", "spreads")
NONSENSE: tuple[Any, ...] = (
    None,
    True,
    False,
    0,
    -1,
    1,
    1.0,
    2.5,
    10**30,
    "",
    "yes",
    "a b",
    "on",
    [],
    {},
    [1, 1],
    {"a": 1},
)
_PLAIN = st.none() | st.booleans() | st.integers(-3, 3) | st.floats(-3, 3) | st.sampled_from("abc")
DATA = st.recursive(
    _PLAIN,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from("abc"), inner),
    max_leaves=8,
)
_TYPES = ["null", "boolean", "string", "number", "integer", "array", "object"]
_SIZES = [f"{end}{of}" for end in ("min", "max") for of in ("Length", "Items", "Properties")]
_BOUNDS = ["minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum"]
_WORD = st.sampled_from("abc")


def _grown(inner: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    some = st.lists(inner, min_size=1, max_size=3)
    return st.fixed_dictionaries(
        {},
        optional={
            "type": st.sampled_from(_TYPES)
            | st.lists(st.sampled_from(_TYPES), min_size=1, unique=True),
            "enum": st.lists(_PLAIN, min_size=1, max_size=3),
            "const": _PLAIN,
            "required": st.lists(_WORD, max_size=2, unique=True),
            "dependentRequired": st.dictionaries(_WORD, st.lists(_WORD, max_size=2, unique=True)),
            "pattern": st.sampled_from(["^a$", "[ab]", "c"]),
            "properties": st.dictionaries(_WORD, inner, max_size=3),
            "patternProperties": st.dictionaries(_WORD, inner, max_size=1),
            "additionalProperties": inner | st.booleans(),
            "propertyNames": inner,
            "items": inner,
            "anyOf": some,
            "allOf": some,
            "oneOf": some,
            "not": inner,
            "uniqueItems": st.booleans(),
            "$ref": st.sampled_from(["#/$defs/a", "#/$defs/b"]),
            "title": st.just("a"),
            **{each: st.integers(0, 3) for each in _SIZES},
            **{each: st.integers(-2, 2) for each in _BOUNDS},
        },
    )


SCHEMAS: st.SearchStrategy[Any] = st.recursive(st.just({}) | st.booleans(), _grown, max_leaves=6)


def _schema(name: str) -> dict[str, Any]:
    read: dict[str, Any] = json.loads(
        (shipped_rules() / "schema" / f"{name}.schema.json").read_text()
    )
    return read


@cache
def _samples() -> list[Any]:
    """Right documents of each kind that is shipped or kept as a golden file."""
    tests = Path(__file__).parent.parent
    files = [*shipped_rules().glob("*.yaml"), *tests.rglob("shop.yaml")]
    files += [*shipped_cases().rglob("*.expected.yaml"), *(tests / "rulebook").rglob("*.yaml")]
    found = [plain(read_document(file).root) for file in files[:200] if "bad" not in str(file)]
    cases = shipped_cases().glob("*.yaml")
    return found + [plain(parse_case(file.read_bytes(), file.name).root) for file in cases]


def _changed(data: Any, chance: random.Random) -> Any:
    """A copy with something somewhere in it replaced, left out or added."""
    steps: list[tuple[Any, Any]] = []

    def walk(node: Any) -> Any:
        copy: Any = node
        if isinstance(node, dict):
            copy = {key: walk(value) for key, value in node.items()}
        elif isinstance(node, list):
            copy = [walk(value) for value in node]
        if copy and isinstance(copy, dict | list):
            steps.extend(
                (copy, key) for key in (copy if isinstance(copy, dict) else range(len(copy)))
            )
        return copy

    root = walk(data)
    for _ in range(chance.randint(1, 2)):
        holder, key = chance.choice(steps)
        what = chance.random()
        if what < 0.6:
            holder[key] = chance.choice(NONSENSE)
        elif isinstance(holder, dict):
            if what < 0.8:
                holder.pop(key, None)
            else:
                holder[chance.choice(["a", "A b", "kind", "basis", "when", "--"])] = chance.choice(
                    NONSENSE
                )
        else:
            holder.append(chance.choice(NONSENSE))
    return root


def _fits(validator: Draft202012Validator, sure: Callable[[Any], bool], data: Any) -> bool:
    """Whether it is sure; fails where it is sure and wrong."""
    said = sure(data)
    assert not said or validator.is_valid(data)
    return said


def test_every_shipped_file_takes_the_short_way() -> None:
    """What is right is surely right: no pack, case or setting of ours needs the full validator."""
    pack, case = sure_test(_schema("pack")), sure_test(_schema("case"))
    for file in shipped_rules().glob("*.yaml"):
        assert pack(plain(read_document(file).root)), file.name
    for file in shipped_cases().glob("*.yaml"):
        assert case(plain(parse_case(file.read_bytes(), file.name).root)), file.name


@pytest.mark.parametrize("name", FORMATS)
def test_a_spoiled_file_is_never_surely_right(name: str) -> None:
    """Of thousands of documents with something changed, none is sure that the validator refuses."""
    schema, chance = _schema(name), random.Random(name)
    sure, validator = sure_test(schema), Draft202012Validator(schema)
    samples = [each for each in _samples() if len(str(each)) < 6000]
    own = [each for each in samples if validator.is_valid(each)] or samples
    outcomes = {_fits(validator, sure, _changed(chance.choice(own), chance)) for _ in range(400)}
    assert False in outcomes


@settings(deadline=None, max_examples=600)
@given(SCHEMAS, SCHEMAS, SCHEMAS, DATA)
def test_sure_of_any_schema_means_valid(root: Any, a: Any, b: Any, data: Any) -> None:
    """For any schema, with keywords that are known here and others, sure data is valid."""
    if not isinstance(root, dict):
        return
    schema = {**root, "$defs": {"a": a, "b": b}}
    try:
        said = sure_test(schema)(data)
    except RecursionError:
        return  # a schema that refers to itself and nothing else; the validator ends so too
    assert not said or Draft202012Validator(schema).is_valid(data)


def test_the_word_of_a_text_is_not_its_truth() -> None:
    """1, 1.0 and true are different things, as in the validator."""
    sure = sure_test({"enum": [1, "yes", True]})
    assert all(map(sure, (1, "yes", True)))
    assert not any(map(sure, (1.0, False, [1])))
    assert not sure_test({"const": 1})(True)
    assert not sure_test({"type": "number"})(True)
