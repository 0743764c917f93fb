"""A per cent whose 100 is not known gives no soot mass and clears no interlock."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from sootsayer.advice.permissions import Permitted
from sootsayer.casework.case_file import case_of
from sootsayer.casework.no_entries import parse_case
from sootsayer.documents.problems import Refused
from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict import Verdict
from sootsayer.rulebook.compiled import Rulebook, load_rulebook, shipped_rules

PACK = """\
pack: shop-per-cent
format: 1
title: A soot figure in per cent
basis: {kind: memory}
signals:
  shop-soot-percent: {label: Soot figure in per cent, kind: number, unit: "%", possible: [0, 200], step: 1, error: 2, lasts: round}
checks:
  shop-read-soot-percent: {does: Read the soot figure in per cent, where: scan, minutes: 1, gives: [shop-soot-percent]}
"""  # noqa: E501
CASE = """\
case: per-cent
format: 1
vehicle: {{label: 2.0 L panel van, cylinders: 4, filter litres: 2.8}}
entries:
- {{at: 2031-03-14T09:02+01:00, by: tech-1, round: arrival, source: scan, facts: {{{facts}}}}}
"""
NOW = datetime(2031, 3, 14, 8, 5, tzinfo=UTC)


@pytest.fixture(scope="module")
def rulebook(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    """The shipped packs and one with a signal in per cent."""
    folder = tmp_path_factory.mktemp("packs")
    (folder / "shop-per-cent.yaml").write_text(PACK, encoding="utf-8")
    return load_rulebook([shipped_rules(), folder])


def verdict(rulebook: Rulebook, facts: str) -> Verdict:
    """The verdict on a case with these facts."""
    text = CASE.format(facts=facts)
    case = case_of(parse_case(text.encode(), "a.yaml"), rulebook.model)
    return judge(case, rulebook, now=NOW)


def soot_interlocks(rulebook: Rulebook) -> set[str]:
    """The interlocks that read a soot figure."""
    return {
        name.partition(":")[2]
        for name in rulebook.program.order
        if name.startswith("interlock:") and {"soot-shown"} & rulebook.program.reads(name)
    }


@pytest.mark.parametrize("figure", ["1 %", "100 %", "199 %"])
def test_a_per_cent_says_nothing_of_grams(rulebook: Rulebook, figure: str) -> None:
    """Whatever the figure, findings, faults, and permissions are as if it had not been read."""
    other = "boost-shortfall@pull: 20"
    without = verdict(rulebook, other)
    having = verdict(rulebook, f"{other}, shop-soot-percent: {figure}")
    assert having.permissions == without.permissions
    assert having.faults == without.faults
    assert having.drive_on == without.drive_on
    assert [f for f in having.findings if f.level is not None] == [
        f for f in without.findings if f.level is not None
    ]
    soot = soot_interlocks(rulebook)
    states = [
        i.state for p in having.permissions for i in (*p.interlocks, *p.named) if i.id in soot
    ]
    assert states
    assert Permitted.CLEAR not in states


def test_grams_do_say_something(rulebook: Rulebook) -> None:
    """The same figure in grams changes an interlock: the test above can fail."""
    assert soot_interlocks(rulebook)
    other = "boost-shortfall@pull: 20"
    without = verdict(rulebook, other)
    assert verdict(rulebook, f"{other}, soot-shown: 120 g").permissions != without.permissions


def test_a_per_cent_is_no_gram(rulebook: Rulebook) -> None:
    """Typed for the figure in grams it is refused, with the signal that it may belong to."""
    with pytest.raises(Refused) as caught:
        verdict(rulebook, "soot-shown: 55 %")
    (problem,) = caught.value.problems
    assert "whose 100 is not known is no g" in problem.instead
