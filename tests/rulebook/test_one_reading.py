"""Law 6 in lint: what one reading alone can decide counts once."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.rulebook.bad_packs import HEAD, problems_of

PROOFS = "proofs: [{given: {}, then: true}, {given: {}, then: false}, {given: {}, then: unknown}]"


def pack(one: str, other: str, more: str = "", *, family: bool = False) -> str:
    """Two findings with evidence on the readings of the golden pack."""
    findings = "".join(
        f"  {name}: {{says: {name}, when: {when}, {PROOFS}{more if name == 'other' else ''}}}\n"
        for name, when in (("one", one), ("other", other))
    )
    families = "families:\n  both: [one, other]\n" if family else ""
    evidence = "".join(
        f"  - finding: {name}\n    seen with: {{soot-overload: often}}\n    otherwise: rarely\n"
        for name in (["both"] if family else ["one", "other"])
    )
    return f"{HEAD}findings:\n{findings}{families}evidence:\n{evidence}"


LOW = "{air@idle: {below: 30}}"


@pytest.mark.parametrize(
    "other",
    [
        "{air@idle: {below: 20}}",
        "{air@idle: {below: air-min}}",
        "{not: {air@idle: {above: 30}}}",
        "{any: [{air@idle: {below: 20}}, {air@2500: {below: 90}}]}",
        # Only false can be decided by the one reading: still decided.
        "{all: [{air@idle: {below: 20}}, {air@2500: {below: 90}}]}",
        "{at least: 1, of: [{air@idle: {below: 20}}, {air@2500: {below: 90}}]}",
        # Through another finding.
        "{one: true}",
    ],
)
def test_one_reading_that_decides_both_is_refused(other: str, tmp_path: Path) -> None:
    """Two findings of different families that one reading can decide are refused."""
    found = problems_of(tmp_path, {"bad": pack(LOW, other)})
    assert len(found) == 1
    assert "one reading, air@idle, can decide both" in found[0].what


@pytest.mark.parametrize(
    "other",
    [
        "{air@2500: {below: 90}}",
        "{air@idle: {below: air@2500}}",
        "{air@idle: {below: {of: air@2500, times: 0.5}}}",
        "{at least: 2, of: [{air@2500: {below: 90}}, {air@idle: {below: 20}}, {code: P0101}]}",
        "{code: P0101}",
    ],
)
def test_findings_that_need_more_than_one_reading_stand(other: str, tmp_path: Path) -> None:
    """Where no single reading decides both, nothing is said."""
    assert problems_of(tmp_path, {"bad": pack(LOW, other)}) == []


def test_a_family_counts_once(tmp_path: Path) -> None:
    """Members of one family may share a reading: one of them speaks."""
    assert problems_of(tmp_path, {"bad": pack(LOW, "{air@idle: {below: 20}}", family=True)}) == []


def test_a_reason_is_enough(tmp_path: Path) -> None:
    """`apart because` on one of the two is enough."""
    more = ", apart because: They see different things"
    assert problems_of(tmp_path, {"bad": pack(LOW, "{air@idle: {below: 20}}", more)}) == []


def test_what_must_first_apply_is_not_decided(tmp_path: Path) -> None:
    """A finding whose `applies when` waits for another fact is not decided by this reading."""
    more = ", applies when: {additive: full}"
    assert problems_of(tmp_path, {"bad": pack(LOW, "{air@idle: {below: 20}}", more)}) == []
