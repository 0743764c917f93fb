"""The page that answers why."""

from __future__ import annotations

import pytest

from sootsayer.console.screen import drawn
from sootsayer.console.why_page import why_page
from sootsayer.console.why_texts import MISSING, MISSING_SHORT, RELATION, TEST, THING
from sootsayer.engine.conditions import Op
from sootsayer.judgement.why_answer import Missing, Relation, ThingKind
from tests.console import answers
from tests.console.verdicts import NAMES


def flat(name: str) -> str:
    return " ".join(drawn(why_page(answers.ALL[name], NAMES)).split())


def test_every_member_has_its_sentence() -> None:
    """No kind, relation, absence or operator can come without its words."""
    assert set(THING) == {kind.value for kind in ThingKind}
    assert set(RELATION) == {relation.value for relation in Relation}
    assert set(MISSING) == set(MISSING_SHORT) == {missing.value for missing in Missing}
    assert set(TEST) == {op.value for op in Op} | {"one of", "known", "graded"}


@pytest.mark.parametrize("name", sorted(answers.ALL))
def test_width_is_kept(name: str) -> None:
    """No line is wider than the screen."""
    page = why_page(answers.ALL[name], NAMES)
    for width in (50, 80):
        assert max(map(len, drawn(page, width=width).splitlines())) <= width


def test_test_tells_value_seen_and_limit() -> None:
    """A test says what it saw, what the rule asks for, and which limit the number came from."""
    assert (
        "yes Differential pressure over the filter, at rest is 18 mbar; asked for: below -5 "
        "mbar or above 5 mbar (limit dp-rest-max)" in flat("finding-true")
    )


def test_unknown_fact_names_its_check_and_caution() -> None:
    """What could change the answer comes with the check that tells it, caution included."""
    text = flat("finding-open")
    assert "(dp@rest): not known (not asked)" in text
    assert "(read-dp-at-rest, 2 min) Caution: Keep clear of the fan." in text


def test_fault_tells_both_sides_prior_and_rule() -> None:
    """A fault's why has for and against with their worth, the prior, and file, line, revision."""
    text = flat("fault")
    assert "31 % without it, 55 % with it" in text
    assert "61 % without it, 55 % with it" in text
    assert "Before any finding: 40 %; 25 % as the rulebook writes it, shifted by facts." in text
    assert "soot-overload at pressure-sensing.yaml:61, revision 061c0ffe" in text


@pytest.mark.parametrize("name", ["action", "check"])
def test_caution_is_never_left_out(name: str) -> None:
    """Where an action or a check is talked of, its caution stands."""
    answer = answers.ALL[name]
    carried = answer.permission or answer.check
    assert carried is not None
    assert carried.caution
    assert f"Caution: {carried.caution}" in flat(name)
