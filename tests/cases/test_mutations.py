"""The packs' proofs and the cases' expectations notice small damages to the rulebook."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.cases.mutating import drawn, every, run, shares, survivors

PAGE = Path(__file__).parents[2] / "docs" / "explanation" / "what-nothing-notices.md"
SAMPLE = 60
LEAST = 0.95
LEAST_OF_LINKS = 0.8


def listed() -> set[str]:
    """The mutations that the page lists, each with its reason."""
    rows = re.findall(r"^\| `(.+?)` \| (.+?) \|$", PAGE.read_text("utf-8"), re.MULTILINE)
    assert all(reason.strip() for _, reason in rows)
    return {name for name, _ in rows}


def test_there_are_mutations_of_every_kind() -> None:
    """Thresholds, levels, links, hiders, negations and interlocks."""
    assert {each.kind for each in every()} == {
        "threshold moved",
        "level swapped",
        "link dropped",
        "hides dropped",
        "negation flipped",
        "interlock removed",
    }


def test_a_sample_of_mutations_is_noticed() -> None:
    """Of a fixed sample nothing goes unnoticed but what the page lists."""
    left = {each.name for each in survivors(run(drawn(SAMPLE)))}
    assert left <= listed()


@pytest.mark.slow
def test_mutations_are_noticed() -> None:
    """At least 95 in 100 of every kind, 80 of dropped links; the page lists just the others."""
    found = run(list(range(len(every()))))
    assert {each.name for each in survivors(found)} == listed()
    for kind, (noticed, total) in shares(found).items():
        least = LEAST_OF_LINKS if kind == "link dropped" else LEAST
        assert noticed >= least * total, kind
