"""Did you mean, and refusals in order."""

from __future__ import annotations

import pytest

from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem, Refused, did_you_mean


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        ("tite", 'did you mean "title"?'), ("Title", 'did you mean "title"?'),
        ("applies_when", 'did you mean "applies when"?'), ("DP", 'did you mean "dp"?'),
        ("applies-when", 'did you mean "applies when"?'), ("xyz", ""), ("", ""),
        ("t" * 1_000_000, ""),
    ],
)  # fmt: skip
def test_did_you_mean(word: str, meant: str) -> None:
    """A near name is offered, capitals and joints apart; a far one is not."""
    assert did_you_mean(word, ["title", "applies when", "dp"]) == meant


def test_refused_is_in_order() -> None:
    """Problems are kept by file, line and column."""
    places = [Place("b", 1, 1), Place("a", 10, 1), Place("a", 2, 9), Place("a", 2, 1)]
    refused = Refused(Problem(place, "what", "instead") for place in places)
    assert [problem.place for problem in refused.problems] == sorted(places)
