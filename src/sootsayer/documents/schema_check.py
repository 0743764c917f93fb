"""A document against its JSON Schema (draft 2020-12), every error at the node at fault.

A subschema may carry `x-instead: "text"`: our annotation that says what would be right there.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Any

from sootsayer.catalogue import Said
from sootsayer.documents import schema_words as words
from sootsayer.documents.nodes import Document, Listing, Mapping, Node, Place, plain
from sootsayer.documents.problems import Problem
from sootsayer.documents.schema_hints import hint_said
from sootsayer.documents.schema_sure import Test, sure_test

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError

_tests: dict[int, tuple[dict[str, object], Test]] = {}
_MOST = 32  # there are ten; whoever makes new ones all the time shall not fill the memory

_BRANCHING = ("anyOf", "oneOf")
_STEPS_DOWN = ("properties", "patternProperties", "prefixItems")
_ENTERS = ("additionalProperties", "items", "contains", "unevaluatedProperties", "unevaluatedItems")


def check_schema(document: Document, schema: dict[str, object]) -> list[Problem]:
    """Every way in which `document` does not fit `schema`, in the order of the file.

    Raises nothing for any document. The schema is taken as right: ours are checked by tests,
    and checking one takes longer than a pack does.
    """
    data = plain(document.root)
    if _surely(schema)(data):
        return []
    # Imported here: it is most of a cold start, and a file that is right does without it.
    from jsonschema import Draft202012Validator

    validator = Draft202012Validator(schema)
    checker = _Checker(document, schema)
    problems: list[Problem] = []
    errors = list(validator.iter_errors(data))
    # Where the kind is wrong, nothing else that is said of the node helps.
    wrong_kind = {tuple(error.absolute_path) for error in errors if error.validator == "type"}
    for error in errors:
        if error.validator == "type" or tuple(error.absolute_path) not in wrong_kind:
            problems.extend(checker.problems(error))
    unique = dict.fromkeys(problems)
    return sorted(unique, key=lambda problem: (problem.place, problem.what))


def _surely(schema: dict[str, object]) -> Test:
    """The test of a schema, made once; the schema is kept with it, so that its id stays its own."""
    known = _tests.get(id(schema))
    if known is None:
        if len(_tests) >= _MOST:
            _tests.clear()
        known = _tests[id(schema)] = (schema, sure_test(schema))
    return known[1]


class _Checker:
    def __init__(self, document: Document, schema: dict[str, object]) -> None:
        self._document = document
        self._schema = schema

    def problems(self, error: ValidationError) -> Iterator[Problem]:
        """One problem for an error, more where several keys or a branch have theirs."""
        keyword = str(error.validator)
        if keyword in _BRANCHING and error.context:
            yield from self._branches(error)
        elif keyword == "additionalProperties":
            yield from self._unknown_keys(error)
        elif keyword == "required":
            # jsonschema makes one error of each missing key, without saying of which: all
            # are told each time, and the same problem twice is one.
            yield from self._missing_keys(error)
        elif keyword == "dependentRequired":
            yield from self._missing_partners(error)
        else:
            yield self._at(error, words.sentence(error, self._name(error)), words.remedy(error))

    def _branches(self, error: ValidationError) -> Iterator[Problem]:
        """What is wrong with the branch that was most likely meant."""
        best = best_branch(error)
        own = self._own_instead(error)
        shallow = all(not list(item.path) for item in best)
        if best and not (shallow and (own or words.only_kind(best))):
            for item in best:
                yield from self.problems(item)
            return
        what, instead = words.no_branch(error, self._name(error))
        yield self._at(error, what, instead)

    def _unknown_keys(self, error: ValidationError) -> Iterator[Problem]:
        node = self._node(error.absolute_path)
        known, patterns = words.allowed_keys(error.schema)
        own = self._own_instead(error)
        given: Any = error.instance
        for key in words.unknown_keys(given, known, patterns):
            place = self._key_place(node, key)
            what, instead = words.unknown_key(key, known, patterns, given, own)
            yield self._problem(place, what, instead)

    def _missing_keys(self, error: ValidationError) -> Iterator[Problem]:
        needed: Any = error.validator_value
        given: Any = error.instance
        for key in (key for key in needed if key not in given):
            what, instead = words.missing_key(key, self._name(error), error.schema)
            yield self._at(error, what, instead)

    def _missing_partners(self, error: ValidationError) -> Iterator[Problem]:
        given: Any = error.instance
        partners: Any = error.validator_value
        node = self._node(error.absolute_path)
        own = self._own_instead(error)
        for key, partner in words.missing_partners(given, partners):
            place = self._key_place(node, key)
            what = words.lacks_partner(key, partner)
            yield self._problem(place, what, own or words.add_key(partner))

    def _at(self, error: ValidationError, what: Said, instead: Said) -> Problem:
        return self._problem(self._place(error), what, self._own_instead(error) or instead)

    def _problem(self, place: Place, what: Said, instead: Said) -> Problem:
        lines = self._document.lines
        line = lines[place.line - 1] if 0 < place.line <= len(lines) else ""
        return Problem(place, what, instead, line)

    def _place(self, error: ValidationError) -> Place:
        node = self._node(error.absolute_path)
        if "propertyNames" in error.absolute_schema_path and isinstance(error.instance, str):
            return self._key_place(node, error.instance)
        return node.place

    @staticmethod
    def _key_place(node: Node, key: str) -> Place:
        return node.key_places.get(key, node.place) if isinstance(node, Mapping) else node.place

    def _node(self, path: Iterable[str | int]) -> Node:
        node: Node = self._document.root
        for step in path:
            if isinstance(node, Mapping):
                node = node.items[str(step)]
            elif isinstance(node, Listing):
                node = node.items[int(step)]
        return node

    def _name(self, error: ValidationError) -> Said:
        return words.name_of(list(error.absolute_path))

    def _own_instead(self, error: ValidationError) -> Said:
        """The nearest `x-instead` among the subschemas that speak about this very node."""
        found = ""
        schema: Any = self._schema
        path = list(error.absolute_schema_path)
        index = 0
        while index < len(path):
            found = _annotation(schema) or found
            step = path[index]
            if isinstance(schema, dict) and "$ref" in schema and str(step) not in schema:
                # jsonschema leaves the step out where a subschema is nothing but a reference.
                schema = _resolved(self._schema, schema["$ref"])
                continue
            if step == "$ref" and isinstance(schema, dict):
                schema = _resolved(self._schema, schema["$ref"])
                index += 1
                continue
            down = step in _STEPS_DOWN
            if down or step in _ENTERS:
                found = "" if index + 1 < len(path) else found
            schema = _step(schema, step)
            index += 1
            if down and index < len(path):
                schema = _step(schema, path[index])
                index += 1
        return hint_said(found)


def _annotation(schema: Any) -> str:
    return str(schema["x-instead"]) if isinstance(schema, dict) and "x-instead" in schema else ""


def _step(schema: Any, step: str | int) -> Any:
    if isinstance(schema, dict):
        return schema.get(str(step))
    if isinstance(schema, list) and isinstance(step, int) and step < len(schema):
        return schema[step]
    return None


def _resolved(root: Any, reference: str) -> Any:
    """A reference within the schema, `#/$defs/...`; None for any other."""
    if not reference.startswith("#"):
        return None
    schema = root
    for part in reference.removeprefix("#").split("/")[1:]:
        name = part.replace("~1", "/").replace("~0", "~")
        schema = _step(schema, int(name) if isinstance(schema, list) else name)
    return schema


def best_branch(error: ValidationError) -> Sequence[ValidationError]:
    """The errors of the branch that fits best: right kind first, then most of it right."""
    branches: dict[object, list[ValidationError]] = {}
    for item in error.context or ():
        branches.setdefault(item.schema_path[0], []).append(item)

    def misfit(items: list[ValidationError]) -> tuple[int, int, int]:
        here = [item for item in items if not list(item.path)]
        wrong_kind = any(item.validator in ("type", "const", "enum") for item in here)
        unlike = sum(_unlike(item) for item in here)
        return (2 if wrong_kind else 0, unlike, len(items))

    return min(branches.values(), key=misfit, default=[])


def _unlike(error: ValidationError) -> int:
    """How many keys of the node this error says are too many or missing."""
    if error.validator == "additionalProperties":
        given: Any = error.instance
        return len(words.unknown_keys(given, *words.allowed_keys(error.schema)))
    return 1 if error.validator == "required" else 0
