"""Whether plain data surely fits a JSON Schema (draft 2020-12): yes, or nobody knows yet.

A file that is right, which nearly all are, needs no more. Only what is not surely right is given
to the full validator, which says what is wrong and takes half a second to be imported and asked.
The keywords here are those that our schemas use. One that is not known here makes it never sure.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import Any

Test = Callable[[Any], bool]
Schema = dict[str, Any]

_SAYS_NOTHING = frozenset({"$comment", "title", "description", "default", "examples", "x-instead"})
_OF_THE_ROOT = frozenset({"$schema", "$id", "$defs"})  # elsewhere they would move what is meant


def sure_test(schema: Schema) -> Test:
    """The test of one schema: True where data surely fits it. The test raises nothing."""
    return _Maker(schema).test(schema)


def _never(_: object) -> bool:
    return False


class _Maker:
    def __init__(self, root: Schema) -> None:
        self._root = root
        self._named: dict[str, Test] = {}

    def test(self, schema: object) -> Test:
        if schema is True:
            return lambda _: True
        if not isinstance(schema, dict):
            return _never
        tests = [*self._of_object(schema)]
        idle = _SAYS_NOTHING | _OF_OBJECTS | (_OF_THE_ROOT if schema is self._root else set())
        for keyword, wanted in schema.items():
            if keyword in idle:
                continue
            found = self._keyword(keyword, wanted)
            if found is None:
                return _never
            tests.append(found)
        return _all(tests)

    def _keyword(self, keyword: str, wanted: Any) -> Test | None:
        if keyword == "$ref":
            return self._reference(wanted)
        if keyword == "anyOf":
            branches = [self.test(each) for each in wanted]
            return lambda data: any(branch(data) for branch in branches)
        if keyword == "allOf":
            return _all([self.test(each) for each in wanted])
        if keyword == "items":
            each_item = self.test(wanted)
            return lambda data: not isinstance(data, list) or all(map(each_item, data))
        make = _PLAIN.get(keyword)
        return None if make is None else make(wanted)

    def _reference(self, name: str) -> Test:
        """By name and late, since a schema may refer to itself."""
        if not name.startswith("#/$defs/") or name.count("/") != 2 or "~" in name or "%" in name:
            return _never
        named, target = self._named, self._root.get("$defs", {}).get(name[len("#/$defs/") :])

        def test(data: object) -> bool:
            found = named.get(name)
            if found is None:
                found = named[name] = self.test(target)
            return found(data)

        return test

    def _of_object(self, schema: Schema) -> Iterable[Test]:
        """The keywords that speak of an object's keys, together: each key is looked up once."""
        if _OF_OBJECTS.isdisjoint(schema):
            return
        own = {key: self.test(each) for key, each in schema.get("properties", {}).items()}
        rest = self.test(schema.get("additionalProperties", True))
        closed = schema.get("additionalProperties") is False
        names = self.test(schema["propertyNames"]) if "propertyNames" in schema else None

        def test(data: object) -> bool:
            if not isinstance(data, dict):
                return True
            for key, value in data.items():
                found = own.get(key)
                if found is None:
                    if closed or not rest(value):
                        return False
                elif not found(value):
                    return False
            return names is None or all(map(names, data))

        yield test


_OF_OBJECTS = frozenset({"properties", "additionalProperties", "propertyNames"})


def _all(tests: list[Test]) -> Test:
    if len(tests) == 1:
        return tests[0]
    if len(tests) == 2:
        first, second = tests
        return lambda data: first(data) and second(data)
    return lambda data: all(test(data) for test in tests)


def _is_number(data: object) -> bool:
    return isinstance(data, int | float) and not isinstance(data, bool)


# A float without a fraction is an integer too; whoever writes one is sent to the full validator.
_TYPES: dict[str, Test] = {
    "null": lambda data: data is None,
    "boolean": lambda data: isinstance(data, bool),
    "string": lambda data: isinstance(data, str),
    "number": _is_number,
    "integer": lambda data: isinstance(data, int) and not isinstance(data, bool),
    "array": lambda data: isinstance(data, list),
    "object": lambda data: isinstance(data, dict),
}


def _type(wanted: str | list[str]) -> Test:
    kinds = [wanted] if isinstance(wanted, str) else wanted
    tests = [_TYPES.get(kind, _never) for kind in kinds]
    return tests[0] if len(tests) == 1 else lambda data: any(test(data) for test in tests)


def _enum(wanted: list[Any]) -> Test:
    """One of the texts, numbers or truths; 1, 1.0 and true are told apart, if more than needed."""
    known = {(type(each), each) for each in wanted if isinstance(each, str | int | float | bool)}
    return lambda data: isinstance(data, str | int | float | bool) and (type(data), data) in known


def _required(wanted: list[str]) -> Test:
    keys = frozenset(wanted)
    return lambda data: not isinstance(data, dict) or keys <= data.keys()


def _dependent(wanted: dict[str, list[str]]) -> Test:
    pairs = [(key, frozenset(partners)) for key, partners in wanted.items()]
    return lambda data: (
        not isinstance(data, dict)
        or all(key not in data or partners <= data.keys() for key, partners in pairs)
    )


def _pattern(wanted: str) -> Test:
    try:
        search = re.compile(wanted).search
    except re.error:
        return _never
    return lambda data: not isinstance(data, str) or search(data) is not None


def _sized(kind: type[Any], fits: Callable[[int, int], bool]) -> Callable[[int], Test]:
    return lambda wanted: lambda data: not isinstance(data, kind) or fits(len(data), wanted)


def _bound(fits: Callable[[Any, Any], bool]) -> Callable[[Any], Test]:
    return lambda wanted: lambda data: not _is_number(data) or fits(data, wanted)


_PLAIN: dict[str, Callable[[Any], Test]] = {
    "type": _type,
    "enum": _enum,
    "const": lambda wanted: _enum([wanted]),
    "required": _required,
    "dependentRequired": _dependent,
    "pattern": _pattern,
    "minLength": _sized(str, lambda size, least: size >= least),
    "maxLength": _sized(str, lambda size, most: size <= most),
    "minItems": _sized(list, lambda size, least: size >= least),
    "maxItems": _sized(list, lambda size, most: size <= most),
    "minProperties": _sized(dict, lambda size, least: size >= least),
    "maxProperties": _sized(dict, lambda size, most: size <= most),
    "minimum": _bound(lambda data, least: data >= least),
    "maximum": _bound(lambda data, most: data <= most),
    "exclusiveMinimum": _bound(lambda data, least: data > least),
    "exclusiveMaximum": _bound(lambda data, most: data < most),
}
