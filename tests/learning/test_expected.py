"""What is expected of a case: the file, and where a verdict differs from it."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.documents.problems import Refused
from sootsayer.judgement.judge import judge
from sootsayer.learning.expected import differences
from sootsayer.learning.expected_file import expected_path, read_expected
from tests.laws.demonstrations import closing_moment, demonstration
from tests.laws.making_cases import rulebook

RIGHT = """\
leading: {measurement: front-hose-leaks, condition: soot-overload}
  confidence: {front-hose-leaks: {at least: 0.9}}
  drive on: workshop-only
  instruments: {dp-sensor: distrusted}
  permissions: {parked-regeneration: blocked}
  blocked by: {parked-regeneration: [pressure-sensor-true]}
  filter well: not shown
"""
WRONG = {
    "leading: {measurement: none}": "leading measurement",
    "leading: {condition: open}": "leading condition",
    "confidence: {front-hose-leaks: {at most: 0.5}}": "confidence of front-hose-leaks",
    "no fault above: 0.3": "confidence of front-hose-leaks",
    "drive on: may-be-driven": "drive on",
    "permissions: {parked-regeneration: clear}": "permission parked-regeneration",
    "blocked by: {drive-on: [no-red-lamp]}": "interlock no-red-lamp of drive-on",
    "waits for: {parked-regeneration: [pressure-sensor-true]}": "interlock pressure-sensor-true",
    "blocked by: {drive-on: [coolant-warm]}": "interlock coolant-warm of drive-on",
    "instruments: {dp-sensor: proven}": "instrument dp-sensor",
    "filter well: shown": "filter well",
    "set aside: [trips-short]": "finding trips-short",
    "unknown: [trips-short]": "finding trips-short",
    "speaks for: {turbo-weak: [trips-short]}": "trips-short on turbo-weak",
    "speaks against: {front-hose-leaks: [front-hose-does-not-hold]}": "front-hose-does-not-hold",
    "refused: {dp@2500: [cold-after]}": "comparison of dp@2500",
    "comes back: {fit-another-filter: {soonest: 1, latest: 2}}": "return after fit-another-filter",
}


def stated(folder: Path, text: str) -> list[str]:
    """What the verdict of a demonstration differs in from an expectation of this text."""
    path = folder / "leaking-front-hose.yaml"
    path.write_text(f"case: leaking-front-hose\nformat: 1\nverdicts:\n- {text}\n", "utf-8")
    (expected,) = read_expected(path, rulebook().model)
    case = demonstration("leaking-front-hose")
    verdict = judge(case, rulebook(), now=closing_moment(case))
    return [each.what for each in differences(expected, verdict)]


def test_what_is_as_expected_differs_in_nothing(tmp_path: Path) -> None:
    """A true expectation of everything finds no difference."""
    assert stated(tmp_path, RIGHT) == []


@pytest.mark.parametrize("text", WRONG)
def test_every_field_can_differ(tmp_path: Path, text: str) -> None:
    """Each stated field that is not so is named, and nothing else."""
    found = stated(tmp_path, text)
    assert found
    assert found[0].startswith(WRONG[text])


@pytest.mark.parametrize(
    "text",
    [
        "leading: {measurement: front-hose-leak}",
        "leading: {cause: front-hose-leaks}",
        "confidence: {nobody: {at least: 0.1}}",
        "permissions: {fly: clear}",
        "instruments: {eye: proven}",
        "unknown: [nothing-such]",
        "speaks for: {front-hose-leaks: [nothing-such]}",
        "blocked by: {drive-on: [nothing-such]}",
        "refused: {dp: [cold-after]}",
        "refused: {dp@2500: [nothing-such]}",
        "compared: [dp@3000]",
        "comes back: {nothing-such: {soonest: 1, latest: 2}}",
    ],
)
def test_an_id_that_nobody_has_is_refused(tmp_path: Path, text: str) -> None:
    """A slip in an id is told with its place, for it would never be seen to differ."""
    with pytest.raises(Refused) as refused:
        stated(tmp_path, text)
    (problem,) = refused.value.problems
    assert problem.place.line == 4
    assert problem.what.startswith("there is no ")


def test_the_file_is_held_against_its_schema_and_name(tmp_path: Path) -> None:
    """An unknown key and another case's name are refused."""
    path = tmp_path / "other.yaml"
    path.write_text("case: leaking\nformat: 1\nverdicts:\n- {drive: no}\n", "utf-8")
    with pytest.raises(Refused) as refused:
        read_expected(path, rulebook().model)
    said = " ".join(problem.what for problem in refused.value.problems)
    assert "drive" in said
    assert "other.yaml" in said


def test_expectations_stand_beside_their_case() -> None:
    """In a folder of their own, under the case's name."""
    assert expected_path(Path("cases/a.yaml")) == Path("cases/expected/a.yaml")
