"""`otherwise` is what is seen where no listed fault is present: sound vehicles, and rare others."""

from __future__ import annotations

import pytest

from sootsayer.learning.none_listed import none_listed, unlisted
from tests.laws.making_cases import rulebook

SOUND = (0.98, 0.02)


def test_nothing_else_is_sound() -> None:
    """Where every simulated fault is listed, sound vehicles alone say it."""
    assert none_listed(SOUND, {}, {}) == pytest.approx(SOUND)


def test_an_unlisted_fault_counts_as_often_as_it_comes() -> None:
    """Of 100 vehicles without a listed fault, five have another that nearly always shows it."""
    found = none_listed(SOUND, {"other": (0.1, 0.9)}, {"other": 0.05})
    assert found == pytest.approx((0.95 * 0.98 + 0.05 * 0.1, 0.95 * 0.02 + 0.05 * 0.9))


def test_two_unlisted_faults_share_the_rest() -> None:
    """They are weighed by their odds, and the whole adds to 1."""
    found = none_listed(SOUND, {"a": (0.0, 1.0), "b": (1.0, 0.0)}, {"a": 0.2, "b": 0.2})
    assert sum(found) == pytest.approx(1.0)
    assert found[1] == pytest.approx((0.02 + 0.25) / 1.5)


def test_linked_and_hidden_faults_are_not_among_them() -> None:
    """A fault that the block links, or that hides what the block's family shows, is listed."""
    model = rulebook().model
    linked = next(iter(model.evidence["restriction"].seen_with))
    hider = next(f.id for f in model.faults.values() if "restriction" in f.hides)
    other = next(
        f.id
        for f in model.faults.values()
        if f.id not in model.evidence["restriction"].seen_with and "restriction" not in f.hides
    )
    counted = [("restriction", fault) for fault in (linked, hider, other)]
    assert unlisted(model, "restriction", [*counted, ("sensor-zero", linked)]) == [other]
