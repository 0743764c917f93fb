"""What the shipped remedies say: every fault has one, none is without steps, proof and price."""

from __future__ import annotations

from functools import lru_cache

import pytest

from sootsayer.rulebook.compiled import Rulebook, load_rulebook, shipped_rules
from sootsayer.rulebook.model import Model


@lru_cache(maxsize=1)
def rulebook() -> Rulebook:
    return load_rulebook([shipped_rules()])


def model() -> Model:
    return rulebook().model


def test_every_fault_has_a_remedy() -> None:
    """Each fault is cured by some work, at least every third time."""
    assert len(model().remedies) >= 24
    best = {
        fault: max(r.cures.get(fault, 0.0) for r in model().remedies.values())
        for fault in model().faults
    }
    assert {fault: chance for fault, chance in best.items() if chance < 0.33} == {}


@pytest.mark.parametrize("name", sorted(rulebook().model.remedies))
def test_a_remedy_says_how_and_how_to_tell(name: str) -> None:
    """Steps in order, readings that verify it, when to look again, words for the customer."""
    remedy = model().remedies[name]
    assert remedy.steps
    assert remedy.verify_by
    assert remedy.rechecks
    assert remedy.tell_the_customer
    assert remedy.parts is not None
    assert remedy.minutes.lowest <= remedy.minutes.highest


def test_hot_work_goes_by_its_permission() -> None:
    """Burning, fluid and replacing are never proposed without the action that guards them."""
    for remedy, action in (
        ("regenerate-on-the-road", "road-regeneration"),
        ("regenerate-standing", "parked-regeneration"),
        ("clean-in-place-with-fluid", "clean-in-place"),
        ("clean-off-the-vehicle", "open-hot-parts"),
        ("fit-another-filter", "replace-filter"),
        ("refit-missing-filter", "replace-filter"),
    ):
        assert action in model().remedies[remedy].by_actions


def test_no_work_in_the_vehicle_cures_ash() -> None:
    """Burning takes no ash and fluid hardly any; washing off the vehicle and a new filter do."""
    chances = {n: r.cures.get("ash-full", 0.0) for n, r in model().remedies.items()}
    assert chances["regenerate-standing"] == chances["regenerate-on-the-road"] == 0
    assert chances["clean-in-place-with-fluid"] <= 0.2
    assert min(chances["clean-off-the-vehicle"], chances["fit-another-filter"]) >= 0.6


def test_broken_and_missing_filters_are_only_replaced() -> None:
    """Nothing but another filter mends a core that is cracked, molten or gone."""
    for fault in ("core-breached", "fine-crack", "core-removed"):
        cured_by = {n for n, r in model().remedies.items() if fault in r.cures}
        assert cured_by <= {"fit-another-filter", "refit-missing-filter"}
        assert cured_by
