"""Sentences for schema errors: what is wrong, and what would be right."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from sootsayer.catalogue import Said, say, shown
from sootsayer.documents.faults import shorten
from sootsayer.documents.problems import WRITE, did_you_mean, either
from sootsayer.documents.schema_hints import hint_said

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
# By keyword of JSON Schema. `name` is what a message calls the node.
_WRONG = {
    "minimum": "{name} is {value}, less than {limit}",
    "maximum": "{name} is {value}, more than {limit}",
    "exclusiveMinimum": "{name} is {value}, not more than {limit}",
    "exclusiveMaximum": "{name} is {value}, not less than {limit}",
    "multipleOf": "{name} is {value}, no multiple of {limit}",
    "minLength": "{name} is shorter than {limit} characters",
    "maxLength": "{name} is longer than {limit} characters",
    "minItems": "{name} has fewer than {limit} items",
    "maxItems": "{name} has more than {limit} items",
    "uniqueItems": "{name} names one thing twice",
    "minProperties": "{name} has fewer than {limit} keys",
    "maxProperties": "{name} has more than {limit} keys",
    "contains": "{name} lacks an item that it needs",
    "not": "{name} must not be {value}",
    "unevaluatedProperties": "{name} has a key that is not known here",
    "type": "{name} is {value}, not {kinds}",
    "enum": "{name} cannot be {value}",
    "const": "{name} cannot be {value}",
    "pattern": "{name} is {value}, which is not how it is written",
}
_WRONG_WHERE_ONE_IS_WANTED = {
    "minLength": "{name} is empty",
    "minItems": "{name} is an empty list",
    "minProperties": "{name} is empty",
}
_HELD_AGAINST_A_LIMIT = frozenset(
    {"minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum", "multipleOf"}
)
_NO_PLACE = "{name} holds a key that has no place here"
_NO_FIT = "{name} does not fit here"
_RIGHT = {
    "minimum": "write {limit} or more",
    "maximum": "write {limit} or less",
    "exclusiveMinimum": "write more than {limit}",
    "exclusiveMaximum": "write less than {limit}",
    "multipleOf": "write a multiple of {limit}",
    "minLength": "write a text",
    "maxLength": "shorten it to {limit} characters",
    "minItems": "write at least {limit}",
    "maxItems": "keep at most {limit}",
    "uniqueItems": "keep one of the two",
    "minProperties": "write at least {limit}",
    "maxProperties": "keep at most {limit}",
    "pattern": "write it to the pattern {limit}",
    "not": "write something else",
    "unevaluatedProperties": "remove it",
}
_REMOVE_IT = "remove it"
_COMPARE = "compare with the reference page of this format"
_MEANT_OR = "{meant} {instead}"
_MOST_LISTED = 12
_ALTERNATIVES = re.compile(r"\^?\(?(?:\?:)?([\w -]+(?:\|[\w -]+)*)\)?\$?")


def name_of(path: Sequence[str | int]) -> Said:
    """What a message calls a node: `"minutes"`, `item 2 of "gives"`, `the file`."""
    if not path:
        return say("the file")
    last = path[-1]
    if isinstance(last, str):
        return say('"{key}"', key=shorten(last))
    if len(path) == 1:
        return say("item {number}", number=last + 1)
    return say("item {number} of {whole}", number=last + 1, whole=name_of(path[:-1]))


def described(value: object) -> Said:
    """A value in words: `the text "abc"`, `the number 3`, `a list`, `a mapping`."""
    if isinstance(value, bool):
        return shown(_written(value))
    if isinstance(value, str):
        return say('the text "{text}"', text=shorten(value))
    if isinstance(value, (int, float)):
        return say("the number {number}", number=value)
    return say("a list") if isinstance(value, list) else say("a mapping")


def listed(values: Iterable[object]) -> Said:
    """`a, b or c`, in the order given; cut after twelve."""
    names = [shown(_written(value)) for value in values]
    if len(names) > _MOST_LISTED:
        return Said(", ".join([*names[:_MOST_LISTED], "…"]))
    return either(names)


def _written(value: object) -> str:
    """A value as YAML has it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    return value if isinstance(value, Said) else str(value)


def kinds(value: str | list[str]) -> Said:
    """The value of `type` in words."""
    return listed(_kind(name) for name in ([value] if isinstance(value, str) else value))


def _kind(name: str) -> Said:
    return say(_KINDS[name]) if name in _KINDS else shown(name)


def sentence(error: ValidationError, name: str) -> Said:
    """What is wrong with the node called `name`."""
    value: Any = error.instance
    limit: Any = error.validator_value
    keyword = str(error.validator)
    if error.schema is False or error.validator is None:
        # jsonschema does not say which key: `name` is the mapping around it.
        return say(_NO_PLACE, name=name)
    if keyword == "type":
        return say(_WRONG["type"], name=name, value=described(value), kinds=kinds(limit))
    template = _WRONG.get(keyword, _NO_FIT)
    if limit == 1:
        template = _WRONG_WHERE_ONE_IS_WANTED.get(keyword, template)
    # What is held against a limit is a number; anything else is told in words, cut short.
    told = value if keyword in _HELD_AGAINST_A_LIMIT else described(value)
    return say(template, name=name, value=told, limit=limit)


def remedy(error: ValidationError) -> Said:
    """What would be right, unless the schema says it itself."""
    limit: Any = error.validator_value
    keyword = str(error.validator)
    if keyword == "type":
        return _remedy_for_kind(error.instance, limit)
    if keyword == "const":
        return say(WRITE, right=_written(limit))
    if keyword == "enum":
        return _choice(error.instance, limit)
    if error.schema is False or error.validator is None:
        return say(_REMOVE_IT)
    return say(_RIGHT.get(keyword, _COMPARE), limit=limit)


def _remedy_for_kind(value: object, wanted: str | list[str]) -> Said:
    names = [wanted] if isinstance(wanted, str) else wanted
    number = "number" in names or "integer" in names
    if "string" in names and isinstance(value, (bool, int, float)):
        return say('quote it: "{text}"', text=_written(value))
    if number and isinstance(value, str) and re.fullmatch(r"-?[0-9]+,[0-9]+", value):
        return say(WRITE, right=value.replace(",", "."))
    if names == ["array"] and not isinstance(value, (list, dict)):
        return say("write a list: [{item}]", item=shorten(_written(value)))
    if number and isinstance(value, str) and re.fullmatch(r"[+.0-9][0-9.eE_+-]*", value):
        return say("write the number with digits and at most one point, as 0.5 or 12")
    return say(WRITE, right=kinds(wanted))


def _choice(value: object, allowed: Sequence[object]) -> Said:
    choices = say(WRITE, right=listed(allowed))
    if not isinstance(value, str):
        return choices
    meant = did_you_mean(value, [_written(item) for item in allowed])
    return say(_MEANT_OR, meant=meant, instead=choices) if meant else choices


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
    own: Said,
) -> tuple[Said, Said]:
    """What and instead for a key that has no place in its mapping."""
    words = [*known, *(word for pattern in patterns for word in _words_of(pattern))]
    meant = did_you_mean(key, words)
    what = say('"{key}" is not known here', key=shorten(key))
    if own and meant:
        return what, say(_MEANT_OR, meant=meant, instead=own)
    if own or meant:
        return what, own or meant
    open_keys = [word for word in words if word not in instance]
    if open_keys:
        return what, say("remove it, or write one of: {keys}", keys=listed(open_keys))
    if patterns and not words:
        return what, say("write keys to the pattern {patterns}", patterns=listed(patterns))
    return what, say(_REMOVE_IT)


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


def missing_key(key: str, name: str, schema: Any) -> tuple[Said, Said]:
    """What and instead for a key that a mapping needs."""
    properties = schema.get("properties", {}) if isinstance(schema, dict) else {}
    of_key = properties.get(key)
    hint = of_key.get("x-instead") if isinstance(of_key, dict) else None
    what = say('{name} lacks the key "{key}"', name=name, key=key)
    if not hint:
        return what, add_key(key)
    return what, say("add {key}: ({hint})", key=key, hint=hint_said(str(hint)))


def add_key(key: str) -> Said:
    """What would be right where a key is missing and nothing more is known of it."""
    return say("add {key}: …", key=key)


def lacks_partner(key: str, partner: str) -> Said:
    """What is wrong with a key that must not stand alone."""
    return say('"{key}" stands without its "{partner}"', key=key, partner=partner)


def only_kind(errors: Iterable[ValidationError]) -> bool:
    """Whether the branch is wrong in nothing but its kind or its fixed words."""
    return all(error.validator in ("type", "enum", "const", "pattern") for error in errors)


def no_branch(error: ValidationError, name: str) -> tuple[Said, Said]:
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
    value = described(error.instance)
    what = say(_WRONG["enum"], name=name, value=value)
    choices = list(dict.fromkeys(choices))
    if isinstance(error.instance, str) and choices:
        meant = did_you_mean(error.instance, [_written(item) for item in choices])
        if meant:
            right = say(WRITE, right=listed(choices))
            return what, say(_MEANT_OR, meant=meant, instead=right)
    if not wanted and not choices:
        return say(_WRONG["pattern"], name=name, value=value), say(_COMPARE)
    right = listed([*choices, *(_kind(kind) for kind in dict.fromkeys(wanted))])
    return what, say(WRITE, right=right)
