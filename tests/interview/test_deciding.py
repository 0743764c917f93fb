"""When asking is over."""

from __future__ import annotations

import pytest

from sootsayer.interview.choosing import Scored, ranked
from sootsayer.interview.deciding import certainty_gain, worth
from sootsayer.interview.scoring import Scorer
from tests.interview.making import bundle, independent, scorer, shown

TABLE = independent({"a": 0.4, "b": 0.1})


def certainty(of: Scorer, *seen: object, **rest: object) -> float:
    made = bundle(*seen, **rest)  # type: ignore[arg-type]
    return certainty_gain(of, Scored(made, of.gain(made)))


def test_certainty_by_hand() -> None:
    """One fault of 0.4 and a finding seen with it 0.9, otherwise 0.1: `none` leads with 0.6 now,
    and what leads afterwards is right 0.54 + 0.36 of the time."""
    assert certainty(scorer(independent({"a": 0.4})), shown("x", 0.1, {"a": 0.9})) == (
        pytest.approx(0.3)
    )


def test_an_answer_that_changes_no_leader_gains_nothing() -> None:
    """Where the same thing leads whatever is answered, nothing is gained in certainty although
    something is told."""
    weak = shown("x", 0.1, {"a": 0.12})
    assert scorer(TABLE).gain(bundle(weak)) > 0.0
    assert certainty(scorer(TABLE), weak) == pytest.approx(0.0, abs=1e-12)


def test_asking_goes_on_while_a_check_is_worth_its_minutes() -> None:
    """It says which check, what it gains, and how many minutes are still worth spending."""
    of = scorer(TABLE)
    useful = bundle(shown("x", 0.1, {"a": 0.9}), minutes=5, name="useful")
    futile = bundle(shown("y", 0.1, {"b": 0.11}), minutes=60, name="futile")
    found = worth(of, ranked(of, [useful, futile]))
    assert (found.check, found.go_on, found.minutes) == ("useful", True, 5)
    assert found.certainty > 0.1
    assert found.bits == of.gain(useful)


def test_asking_ends_and_says_what_would_be_gained() -> None:
    """Where nothing is worth its minutes, the best is named all the same, with its gain."""
    of = scorer(TABLE)
    futile = bundle(shown("y", 0.1, {"b": 0.11}), minutes=60, name="futile")
    found = worth(of, ranked(of, [futile]))
    assert (found.check, found.go_on, found.minutes) == ("futile", False, 0)
    assert found.bits > 0.0


def test_with_everything_clear_bits_alone_are_no_reason() -> None:
    """Once every kind is clear, a check that only tells something is not worth its minutes."""
    of = scorer(independent({"a": 0.99}))
    idle = bundle(shown("x", 0.1, {"a": 0.3}), minutes=0.1, name="idle")
    assert of.all_clear
    assert not worth(of, ranked(of, [idle])).go_on


def test_nothing_left() -> None:
    """Without any check there is nothing to gain."""
    assert worth(scorer(TABLE), []).go_on is False
