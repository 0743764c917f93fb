"""The order in which checks are proposed."""

from __future__ import annotations

from random import Random

import pytest

from sootsayer.belief.network import Kind
from sootsayer.interview.bundles import Bundle, bundles
from sootsayer.interview.choosing import DECIDED_AMONG, ranked
from sootsayer.interview.scoring import Scorer
from tests.interview.making import bundle, independent, scorer, shown
from tests.interview.worlds import codes, said, seen

TABLE = independent({"a": 0.3, "b": 0.2, "c": 0.4})
STRONG, WEAK = shown("strong", 0.1, {"a": 0.9}), shown("weak", 0.1, {"a": 0.3})
MUTE = shown("mute", 0.3)


def names(*offered: Bundle) -> list[str]:
    return [each.bundle.first for each in ranked(scorer(TABLE), offered)]


def test_the_most_useful_a_minute_comes_first() -> None:
    """A weak check that takes a minute goes before a strong one that takes an hour."""
    dear = bundle(STRONG, minutes=60, name="dear")
    cheap = bundle(WEAK, minutes=1, name="cheap")
    assert names(dear, cheap) == ["cheap", "dear"]
    assert names(bundle(STRONG, minutes=1, name="strong"), cheap) == ["strong", "cheap"]


def test_what_tells_nothing_comes_last() -> None:
    """A check that yields nothing to go by stands behind all others, whatever it costs."""
    mute = bundle(MUTE, minutes=0.1, name="a-mute")
    assert names(mute, bundle(WEAK, minutes=50, name="weak")) == ["weak", "a-mute"]


@pytest.mark.parametrize("seed", range(6))
def test_ties_go_by_name_in_whatever_order_they_come(seed: int) -> None:
    """Checks that are worth the same stand by their ids, however they were offered."""
    many = [bundle(STRONG, minutes=2, name=f"check-{i}") for i in range(9)]
    Random(seed).shuffle(many)
    assert names(*many) == [f"check-{i}" for i in range(9)]


def test_a_first_step_stands_once_with_its_best() -> None:
    """Of a check by itself and the same as the first of a bundle, the better rate counts."""
    alone = bundle(WEAK, minutes=2, name="first")
    more = Bundle(("first", "then"), 3.0, bundle(STRONG).yields)
    (best,) = ranked(scorer(TABLE), [alone, more])
    assert best.bundle is more


def test_a_later_stage_must_be_worth_clearly_more() -> None:
    """A check further on that is only a little better a minute waits; one far better does not."""
    here = bundle(WEAK, minutes=1.0, name="here")
    little = Bundle(("further",), 0.9, here.yields, ahead=True)
    far = Bundle(("further",), 0.3, here.yields, ahead=True)
    assert names(here, little) == ["here", "further"]
    assert names(here, far) == ["further", "here"]


def test_the_best_are_put_in_order_by_what_a_verdict_shows() -> None:
    """Among the best by information, the one that brings down the faults' own uncertainty most
    a minute is first; all of these have that worked out, and no others."""
    offered = [bundle(shown(f"x{i}", 0.1, {"a": 0.3 + i / 20}), name=f"c{i}") for i in range(9)]
    order = ranked(scorer(TABLE), offered)
    drops = [each.drop_bits for each in order if each.drop_bits is not None]
    assert len(drops) == DECIDED_AMONG
    assert drops == sorted(drops, reverse=True)
    assert all(each.drop_bits is None for each in order[DECIDED_AMONG:])


def test_a_kind_that_is_clear_counts_little() -> None:
    """Of two checks that tell as much, the one about a kind that is not clear yet is first."""
    table = independent({"a": 0.05, "b": 0.3})
    kinds = {"a": Kind.MEASUREMENT, "b": Kind.CAUSE}
    clear = bundle(shown("x", 0.02, {"a": 0.98}), minutes=1, name="clear")
    unclear = bundle(shown("y", 0.3, {"b": 0.75}), minutes=1, name="unclear")
    order = ranked(Scorer(table, {}, kinds), [clear, unclear])
    assert order[0].gain_bits < order[1].gain_bits
    assert [each.bundle.first for each in order] == ["unclear", "clear"]


def test_findings_without_a_fault_in_common_are_added_up() -> None:
    """What tells of faults that have nothing to do with each other tells the sum of both."""
    one, two = shown("x", 0.1, {"a": 0.8}), shown("y", 0.2, {"b": 0.7})
    alone = [scorer(TABLE).gain(bundle(each)) for each in (one, two)]
    assert scorer(TABLE).gain(bundle(one, two)) == pytest.approx(sum(alone), abs=1e-12)


def test_more_outcomes_than_can_be_told_apart() -> None:
    """A long list of findings about one fault is scored on those that tell most: never more than
    there is to know, never less than the best of them alone, and in good time."""
    many = [shown(f"x{i}", 0.2, {"a": 0.3 + i / 40}) for i in range(20)]
    gain = scorer(TABLE).gain(bundle(*many))
    assert scorer(TABLE).gain(bundle(many[-1])) < gain < 0.8813  # entropy of 0.3


def test_a_case_proposes_what_was_not_asked_and_tells_something() -> None:
    """In a whole case, every proposal has a gain, and none was asked before."""
    case = seen(said("trips: short", "customer"), codes())
    order = ranked(case.scorer, bundles(case.now))
    first = {each.bundle.first for each in order}
    assert {"ask-smoke", "read-dp-at-rest"} <= first
    assert not first & {"ask-trips", "read-codes"}
    assert all(each.gain_bits > 0.0 for each in order)
