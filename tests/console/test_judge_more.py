"""The full page of a verdict."""

from __future__ import annotations

import pytest

from sootsayer.console.judge_more import judge_more_page
from sootsayer.console.screen import drawn
from tests.console import verdicts as v


def flat(name: str) -> str:
    make, names = v.ALL[name]
    return " ".join(drawn(judge_more_page(make(), names)).split())


@pytest.mark.parametrize("name", sorted(v.ALL))
def test_everything_said_has_its_rule_and_entries(name: str) -> None:
    """Every finding, fault and interlock stands with its rule's file and line, and its entries."""
    verdict = v.ALL[name][0]()
    text = flat(name)
    locks = [lock for item in verdict.permissions for lock in item.interlocks]
    rules = [finding.rule for finding in verdict.findings]
    rules += [fault.rule for fault in verdict.faults] + [lock.rule for lock in locks]
    assert rules
    for rule in rules:
        assert f"{rule.file}:{rule.line}, revision {rule.revision}" in text
    grounds = [ground for finding in verdict.findings for ground in finding.grounds]
    for ground in grounds + [ground for lock in locks for ground in lock.grounds]:
        assert f"entry {ground.entry}, line {ground.line}: {ground.label}" in text


@pytest.mark.parametrize("name", sorted(v.ALL))
def test_no_fault_candidate_limit_or_caution_is_left_out(name: str) -> None:
    """The full page leaves nothing out."""
    verdict = v.ALL[name][0]()
    text = flat(name)
    for fault in verdict.faults:
        assert f"{fault.label} ({fault.id})" in text
    for permission in verdict.permissions:
        assert f"Caution: {permission.caution}" in text
    for used in verdict.limits:
        assert f"{used.label} ({used.id})" in text
    assert "this vehicle's own 40 g" in text
    assert f"all other sets together {round(verdict.left_out * 100)} %" in text


def test_set_aside_and_borderline_are_marked() -> None:
    """A finding says that it is set aside, what it would be, and when it is borderline."""
    assert (
        "set aside: Differential pressure sensor and its hoses is distrusted; would be: raised"
        in flat("sensor-offset")
    )
    assert (
        "borderline, within its error of a limit; levels from the lowest: <1 %; <1 %; <1 %; "
        "8 %; 92 %" in flat("blocked-filter")
    )
