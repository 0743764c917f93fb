"""Schema errors, located, in our own words."""

from __future__ import annotations

import subprocess
import sys

import pytest

from sootsayer.documents.problems import Problem
from sootsayer.documents.schema_check import check_schema
from tests.documents.reading_aloud import read

TEXT = {"type": "string", "minLength": 1}
FORM = {"type": "object", "properties": {"does": TEXT, "minutes": {"type": "number"}},
        "required": ["does"], "additionalProperties": False}  # fmt: skip
SCHEMA: dict[str, object] = {
    "type": "object",
    "properties": {
        "title": {"$ref": "#/$defs/text"},
        "format": {"const": 1},
        "minutes": {"type": "number", "minimum": 1, "exclusiveMaximum": 100},
        "count": {"type": "integer", "multipleOf": 2},
        "kind": {"enum": ["condition", "cause", "measurement"]},
        "id": {"$ref": "#/$defs/id", "x-instead": "write small letters joined by hyphens"},
        "tools": {"type": "array", "items": TEXT, "minItems": 1, "maxItems": 3,
                  "uniqueItems": True},
        "checks": {"type": "object", "minProperties": 1, "additionalProperties": FORM},
        "limits": {"type": "object", "additionalProperties": {
            "type": "number", "x-instead": "write a number without its unit"}},
        "at": {"type": "object", "patternProperties": {"^(idle|rest)$": {"type": "number"}},
               "additionalProperties": False},
        "names": {"type": "object", "propertyNames": {"pattern": "^[a-z]+$"}},
        "prior": {"anyOf": [{"type": "number", "minimum": 0, "maximum": 1},
                            {"enum": ["often", "rarely"]},
                            {"type": "string", "pattern": "^[0-9]+ of [0-9]+$"}],
                  "x-instead": "write a share such as 0.3, 3 of 10, or a word"},
        "unit": {"anyOf": [{"enum": ["hPa", "kPa"]}, {"const": "none"}]},
        "rule": {"oneOf": [TEXT, FORM,
                           {"type": "object", "properties": {"all": {"type": "array"}},
                            "required": ["all"], "additionalProperties": False}]},
        "grade": {"type": "object", "dependentRequired": {"levels": ["at"]}},
        "flag": {"type": "boolean"},
        "word": {"not": {"enum": ["safe"]}},
    },
    "required": ["title", "format"],
    "additionalProperties": False,
    "$defs": {"text": TEXT, "id": {"type": "string", "pattern": "^[a-z]+(-[a-z]+)*$"}},
}  # fmt: skip
GOOD = "title: x\nformat: 1\n"

# A third line, its column, and pieces of what and instead.
WRONG = [
    ("minuts: 2", 1, '"minuts" is not known here', 'did you mean "minutes"?'),
    ("zzz: 2", 1, '"zzz" is not known here', "one of: minutes, count, kind"),
    ("minutes: two", 10, '"minutes" is the text "two", not a number', "write a number"),
    ("minutes: '2,5'", 10, "not a number", "write 2.5"),
    ("minutes: .nan", 10, "not a number", "write a number"),
    ("minutes: 1e3", 10, "not a number", "digits and at most one point"),
    ("minutes: 0", 10, '"minutes" is 0, less than 1', "write 1 or more"),
    ("minutes: 100", 10, '"minutes" is 100, not less than 100', "write less than 100"),
    ("count: 3", 8, "no multiple of 2", "multiple of 2"),
    ("count: 2.5", 8, "not a whole number", "write a whole number"),
    ("kind: conditon", 7, 'cannot be the text "conditon"', 'did you mean "condition"?'),
    ("kind: 7", 7, "cannot be the number 7", "condition, cause or measurement"),
    ("id: Big_Name", 5, '"id" is the text "Big_Name"', "small letters joined by hyphens"),
    ("id: 7", 5, '"id" is the number 7, not a text', "small letters joined by hyphens"),
    ("tools: []", 8, '"tools" is an empty list', "at least 1"),
    ("tools: [a, 7]", 12, 'item 2 of "tools" is the number 7', 'quote it: "7"'),
    ("tools: [a, '']", 12, 'item 2 of "tools" is empty', "write a text"),
    ("tools: [a, a]", 8, "names one thing twice", "keep one"),
    ("tools: [a, b, c, d]", 8, "more than 3 items", "at most 3"),
    ("tools: gauge", 8, 'the text "gauge", not a list', "[gauge]"),
    ("checks: {}", 9, '"checks" is empty', "at least 1"),
    ("checks: {x: {minutes: 1}}", 13, '"x" lacks the key "does"', "add does"),
    ("checks: {x: {does: y, minute: 1}}", 23, '"minute" is not known', 'did you mean "minutes"?'),
    ("checks: [a]", 9, "is a list, not a mapping", "mapping"),
    ("limits: {a: 5 g}", 13, 'the text "5 g"', "without its unit"),
    ("at: {idel: 1}", 6, '"idel" is not known', 'did you mean "idle"?'),
    ("at: {idle: x}", 12, "not a number", "number"),
    ("names: {ab: 1, C: 2}", 16, "not how it is written", "^[a-z]+$"),
    ("prior: oftn", 8, 'cannot be the text "oftn"', "a share such as 0.3"),
    ("prior: 2", 8, "", "a share such as 0.3"),
    ("unit: hpa", 7, 'cannot be the text "hpa"', 'did you mean "hPa"?'),
    ("unit: 7", 7, "cannot be the number 7", "hPa, kPa or none"),
    ("rule: 7", 7, "cannot be the number 7", "a text or a mapping"),
    ("rule: {does: x, minutes: y}", 26, '"minutes" is the text "y"', "write a number"),
    ("rule: {does: x, minuts: 1}", 17, '"minuts" is not known', "minutes"),
    ("rule: {all: x}", 13, '"all" is the text "x", not a list', "[x]"),
    ("grade: {levels: x}", 9, '"levels" stands without its "at"', "add at"),
    ("flag: yes", 7, "not true or false", "true or false"),
    ("word: safe", 7, 'must not be the text "safe"', "something else"),
]


def problems_of(text: str) -> list[Problem]:
    """The schema problems of a text that the loader accepts."""
    return check_schema(read(text), SCHEMA)


def test_nothing_wrong() -> None:
    """A document that fits has no problems."""
    text = GOOD + "prior: 3 of 10\nunit: none\nrule: {all: []}\nat: {idle: 1}\nflag: true\n"
    assert problems_of(text) == []


@pytest.mark.parametrize(("line", "column", "what", "instead"), WRONG, ids=[w[0] for w in WRONG])
def test_wrong(line: str, column: int, what: str, instead: str) -> None:
    """Each error is one problem at the node or key at fault, with what would be right."""
    (problem,) = problems_of(f"{GOOD}{line}\n")
    assert (problem.place.line, problem.place.column) == (3, column)
    assert what in problem.what
    assert instead in problem.instead
    assert problem.line == line


def test_every_error_in_order() -> None:
    """All errors are told in one run, in the order of the file."""
    problems = problems_of("zzz: 1\nkind: x\nminutes: 0\ntools: [1, 2]\n")
    assert [(p.place.line, p.place.column) for p in problems] == [
        (1, 1), (1, 1), (1, 1), (2, 7), (3, 10), (4, 9), (4, 12)]  # fmt: skip
    assert {p.what for p in problems[:3]} == {
        'the file lacks the key "title"', 'the file lacks the key "format"',
        '"zzz" is not known here'}  # fmt: skip


def test_nothing_of_pythons_own() -> None:
    """No sentence shows Python's way of writing values."""
    for line, *_ in WRONG:
        for problem in problems_of(f"{GOOD}{line}\n"):
            for text in (problem.what, problem.instead):
                assert not any(sign in text for sign in ("True", "None", "{'", "['", "u'"))


def test_import_stays_late() -> None:
    """Importing the check does not import jsonschema: that is most of a cold start."""
    program = "import sys, sootsayer.documents.schema_check; print('jsonschema' in sys.modules)"
    ended = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, timeout=60
    )
    assert ended.stdout.strip() == "False"
