"""The verdict's JSON: its schema, and one stored whole."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator, FormatChecker

from sootsayer.belief.weighing import BARE
from sootsayer.judgement import beliefs
from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict_json import as_json
from sootsayer.rulebook.compiled import shipped_rules
from tests.laws.demonstrations import A_FEW, closing_moment, demonstration
from tests.laws.making_cases import NOW, rulebook, some_case

SCHEMA = json.loads((Path(shipped_rules()) / "schema" / "verdict.schema.json").read_text("utf-8"))


def complaints(told: object) -> list[str]:
    checker = Draft202012Validator(SCHEMA, format_checker=FormatChecker())
    return [f"{list(e.absolute_path)}: {e.message}" for e in checker.iter_errors(told)]


@pytest.mark.parametrize("name", A_FEW)
def test_a_verdict_fits_its_schema(name: str) -> None:
    """Of every demonstration case, the JSON form is what the schema says."""
    case = demonstration(name)
    told = as_json(judge(case, rulebook(), now=closing_moment(case), planning=True))
    assert complaints(json.loads(json.dumps(told))) == []


def test_the_schema_can_refuse() -> None:
    """A confidence above one, an unknown state or a key too many is refused."""
    told = json.loads(json.dumps(as_json(judge(some_case([]), rulebook(), now=NOW, planning=True))))
    assert complaints(told) == []
    for broken in (
        {**told, "left_out": 1.5},
        {**told, "drive_on": {**told["drive_on"], "state": "safe"}},
        {**told, "extra": 1},
    ):
        assert complaints(broken)


def test_faults_are_sorted_and_rounded() -> None:
    """Faults come by confidence then id, and every probability has six decimals at most."""
    case = demonstration(A_FEW[0])
    told = as_json(judge(case, rulebook(), now=closing_moment(case), planning=True))
    faults = told["faults"]
    assert isinstance(faults, list)
    keys = [(-f["confidence"], f["id"]) for f in faults]
    assert keys == sorted(keys)
    assert all(round(f["confidence"], 6) == f["confidence"] for f in faults)


@pytest.mark.parametrize(
    ("found", "named"), [(3.0 + 1e-9, BARE), (3.0 - 1e-9, BARE), (3.1, "positive")]
)
def test_a_word_is_of_the_weight_that_is_shown(
    monkeypatch: pytest.MonkeyPatch, found: float, named: str
) -> None:
    """What rounding leaves behind the sixth decimal never changes the word beside the number: a
    weight told as 3 is on the edge, and takes the weaker word."""
    monkeypatch.setattr(beliefs, "weight", lambda *_: found)
    case = demonstration(A_FEW[0])
    told = judge(case, rulebook(), now=closing_moment(case), proposing=False)
    every = [each for fault in told.faults for each in (*fault.for_, *fault.against)]
    assert {(each.weight, each.word) for each in every} == {(round(found, 6), named)}
