"""Sentences for schema errors: what is wrong, and what would be right."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from sootsayer.documents.faults import shorten
from sootsayer.documents.problems import did_you_mean

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError

_KINDS = {
    "string": "a text",
    "number": "a number",
    "integer": "a whole number",
    "boolean": "true or false",
    "array": "a list",
    "object": "a mapping (key: value)",
    "null": "nothing",
}
_MOST_LISTED = 12
_ALTERNATIVES = re.compile(r"\^?\(?(?:\?:)?([\w -]+(?:\|[\w -]+)*)\)?\$?")


def name_of(path: Sequence[str | int]) -> str:
    """What a message calls a node: `"minutes"`, `item 2 of "gives"`, `the file`."""
    if not path:
        return "the file"
    last = path[-1]
    if isinstance(last, str):
        return f'"{shorten(last)}"'
    parent = f" of {name_of(path[:-1])}" if len(path) > 1 else ""
    return f"item {last + 1}{parent}"


def described(value: object) -> str:
    """A value in words: `the text "abc"`, `the number 3`, `a list`, `a mapping`."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return f'the text "{shorten(value)}"'
    if isinstance(value, (int, float)):
        return f"the number {value}"
    return "a list" if isinstance(value, list) else "a mapping"


def listed(values: Iterable[object]) -> str:
    """`a, b or c`, in the order given; cut after twelve."""
    names = [_written(value) for value in values]
    if len(names) > _MOST_LISTED:
        return ", ".join([*names[:_MOST_LISTED], "…"])
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} or {names[-1]}"


def _written(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value)


def kinds(value: str | list[str]) -> str:
    """The value of `type` in words."""
    names = [value] if isinstance(value, str) else value
    return listed(_KINDS.get(name, name) for name in names)


def sentence(error: ValidationError, name: str) -> str:
    """What is wrong with the node called `name`."""
    value: Any = error.instance
    limit: Any = error.validator_value
    told = {
        "minimum": f"is {value}, less than {limit}",
        "maximum": f"is {value}, more than {limit}",
        "exclusiveMinimum": f"is {value}, not more than {limit}",
        "exclusiveMaximum": f"is {value}, not less than {limit}",
        "multipleOf": f"is {value}, no multiple of {limit}",
        "minLength": "is empty" if limit == 1 else f"is shorter than {limit} characters",
        "maxLength": f"is longer than {limit} characters",
        "minItems": "is an empty list" if limit == 1 else f"has fewer than {limit} items",
        "maxItems": f"has more than {limit} items",
        "uniqueItems": "names one thing twice",
        "minProperties": "is empty" if limit == 1 else f"has fewer than {limit} keys",
        "maxProperties": f"has more than {limit} keys",
        "contains": "lacks an item that it needs",
        "not": f"must not be {described(value)}",
        "unevaluatedProperties": "has a key that is not known here",
    }
    keyword = str(error.validator)
    if keyword == "type":
        return f"{name} is {described(value)}, not {kinds(limit)}"
    if keyword in ("enum", "const"):
        return f"{name} cannot be {described(value)}"
    if keyword == "pattern":
        return f"{name} is {described(value)}, which is not how it is written"
    if error.schema is False or error.validator is None:
        # jsonschema does not say which key: `name` is the mapping around it.
        return f"{name} holds a key that has no place here"
    return f"{name} {told.get(keyword, 'does not fit here')}"


def remedy(error: ValidationError) -> str:
    """What would be right, unless the schema says it itself."""
    limit: Any = error.validator_value
    keyword = str(error.validator)
    if keyword == "type":
        return _remedy_for_kind(error.instance, limit)
    if keyword == "const":
        return f"write {_written(limit)}"
    if keyword == "enum":
        return _choice(error.instance, limit)
    if keyword == "pattern":
        return f"write it to the pattern {limit}"
    if error.schema is False or error.validator is None:
        return "remove it"
    told = {
        "minimum": f"write {limit} or more",
        "maximum": f"write {limit} or less",
        "exclusiveMinimum": f"write more than {limit}",
        "exclusiveMaximum": f"write less than {limit}",
        "multipleOf": f"write a multiple of {limit}",
        "minLength": "write a text",
        "maxLength": f"shorten it to {limit} characters",
        "minItems": f"write at least {limit}",
        "maxItems": f"keep at most {limit}",
        "uniqueItems": "keep one of the two",
        "minProperties": f"write at least {limit}",
        "maxProperties": f"keep at most {limit}",
        "not": "write something else",
        "unevaluatedProperties": "remove it",
    }
    return told.get(keyword, "compare with the reference page of this format")


def _remedy_for_kind(value: object, wanted: str | list[str]) -> str:
    names = [wanted] if isinstance(wanted, str) else wanted
    number = "number" in names or "integer" in names
    if "string" in names and isinstance(value, (bool, int, float)):
        return f'quote it: "{_written(value)}"'
    if number and isinstance(value, str) and re.fullmatch(r"-?[0-9]+,[0-9]+", value):
        return f"write {value.replace(',', '.')}"
    if names == ["array"] and not isinstance(value, (list, dict)):
        return f"write a list: [{shorten(_written(value))}]"
    if number and isinstance(value, str) and re.fullmatch(r"[+.0-9][0-9.eE_+-]*", value):
        return "write the number with digits and at most one point, as 0.5 or 12"
    return f"write {kinds(wanted)}"


def _choice(value: object, allowed: Sequence[object]) -> str:
    meant = (
        did_you_mean(value, [_written(item) for item in allowed])
        if (isinstance(value, str))
        else ""
    )
    choices = f"write {listed(allowed)}"
    return f"{meant} {choices}" if meant else choices


def allowed_keys(schema: Any) -> tuple[list[str], list[str]]:
    """(the keys, the patterns of keys) that a schema of a mapping lists."""
    if not isinstance(schema, dict):
        return [], []
    return list(schema.get("properties", {})), list(schema.get("patternProperties", {}))


def unknown_keys(
    instance: Mapping[str, object], known: Sequence[str], patterns: Sequence[str]
) -> list[str]:
    """The keys that are neither known nor match a pattern, in their order."""
    return [
        key
        for key in instance
        if key not in known and not any(re.search(pattern, key) for pattern in patterns)
    ]


def unknown_key(
    key: str,
    known: Sequence[str],
    patterns: Sequence[str],
    instance: Mapping[str, object],
    own: str,
) -> tuple[str, str]:
    """What and instead for a key that has no place in its mapping."""
    words = [*known, *(word for pattern in patterns for word in _words_of(pattern))]
    meant = did_you_mean(key, words)
    what = f'"{shorten(key)}" is not known here'
    if own or meant:
        return what, " ".join(part for part in (meant, own) if part)
    open_keys = [word for word in words if word not in instance]
    if open_keys:
        return what, f"remove it, or write one of: {listed(open_keys)}"
    if patterns and not words:
        return what, f"write keys to the pattern {listed(patterns)}"
    return what, "remove it"


def _words_of(pattern: str) -> list[str]:
    """The words of a pattern that only lists them, `^(idle|rest)$`."""
    found = _ALTERNATIVES.fullmatch(pattern)
    return found.group(1).split("|") if found else []


def missing_partners(
    instance: Mapping[str, object], partners: Mapping[str, Sequence[str]]
) -> list[tuple[str, str]]:
    """(the key given, the key that must go with it and is not there), from `dependentRequired`."""
    return [
        (key, partner)
        for key, needed in partners.items()
        if key in instance
        for partner in needed
        if partner not in instance
    ]


def missing_key(key: str, name: str, schema: Any) -> tuple[str, str]:
    """What and instead for a key that a mapping needs."""
    properties = schema.get("properties", {}) if isinstance(schema, dict) else {}
    of_key = properties.get(key)
    hint = of_key.get("x-instead") if isinstance(of_key, dict) else None
    return f'{name} lacks the key "{key}"', f"add {key}: " + (f"({hint})" if hint else "…")


def only_kind(errors: Iterable[ValidationError]) -> bool:
    """Whether the branch is wrong in nothing but its kind or its fixed words."""
    return all(error.validator in ("type", "enum", "const", "pattern") for error in errors)


def no_branch(error: ValidationError, name: str) -> tuple[str, str]:
    """What and instead where no branch has even the right kind."""
    wanted: list[str] = []
    choices: list[object] = []
    for item in error.context or ():
        if list(item.path):
            continue
        value: Any = item.validator_value
        if item.validator == "type":
            wanted += [value] if isinstance(value, str) else value
        elif item.validator == "enum":
            choices += value
        elif item.validator == "const":
            choices.append(value)
    what = f"{name} cannot be {described(error.instance)}"
    choices = list(dict.fromkeys(choices))
    if isinstance(error.instance, str) and choices:
        meant = did_you_mean(error.instance, [_written(item) for item in choices])
        if meant:
            return what, f"{meant} write {listed(choices)}"
    if not wanted and not choices:
        return f"{name} is {described(error.instance)}, which is not how it is written", (
            "compare with the reference page of this format"
        )
    kinds_wanted = [_KINDS.get(kind, kind) for kind in dict.fromkeys(wanted)]
    return what, f"write {listed([*choices, *kinds_wanted])}"
