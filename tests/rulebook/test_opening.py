"""What is asked first and the customary order: said by one pack, or by a shop's own instead."""

from __future__ import annotations

from pathlib import Path

from sootsayer.rulebook.compiled import load_rulebook
from tests.rulebook.bad_packs import GOLDEN

OWN = """\
pack: shop-visit
format: 1
title: How a visit goes here
uses: [one-of-everything]
signals:
  shop-key-left: {label: Key left, kind: yes-no, lasts: visit, asks: "Do you leave the key?"}
checks:
  shop-ask-key: {does: Ask for the key, where: counter, minutes: 1, gives: [shop-key-left]}
opening:
- {group: shop-key, says: "The key first", asks: [shop-ask-key, ask-oil]}
order: [shop-ask-key, read-dp-at-rest]
"""


def test_opening_and_order_are_read_as_they_stand() -> None:
    """Groups keep their order and their words, and the customary order is no sorted one."""
    model = load_rulebook([GOLDEN]).model
    (group,) = model.opening
    assert (group.id, group.checks) == ("first-of-all", ("ask-oil",))
    assert group.says == "First of all, about the oil"
    assert model.customary_order == ("ask-oil", "read-dp-running", "read-dp-at-rest")


def test_a_shops_own_stands_instead(tmp_path: Path) -> None:
    """A shop's pack with an opening and an order replaces the shipped ones, whole."""
    (tmp_path / "shop-visit.yaml").write_text(OWN, encoding="utf-8")
    model = load_rulebook([GOLDEN, tmp_path]).model
    assert [group.id for group in model.opening] == ["shop-key"]
    assert model.customary_order == ("shop-ask-key", "read-dp-at-rest")


def test_a_check_names_the_actions_that_it_takes() -> None:
    """`by action` of a check reads to the ids of actions; most checks take none."""
    checks = load_rulebook([GOLDEN]).model.checks
    assert checks["read-dp-running"].by_actions == ("drive-on",)
    assert checks["ask-oil"].by_actions == ()
