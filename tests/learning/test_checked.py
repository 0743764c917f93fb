"""The check of a rulebook, whatever is wrong with it."""

from __future__ import annotations

import json
import random
import tempfile
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.commands.opened import as_text
from sootsayer.console.rules_check_json import checked_json
from sootsayer.console.rules_check_junit import junit
from sootsayer.console.rules_check_page import coverage_lines, remark_lines, summary_lines
from sootsayer.learning.checked import check_rulebook
from sootsayer.rulebook.review.remark import Concern, Weight
from sootsayer.rulebook.shipped import shipped_rules
from sootsayer.rulebook.shop_file import read_shop
from tests.rulebook.bad_packs import GOLDEN, SHOP
from tests.rulebook.review.small import small
from tests.rulebook.test_hostile_packs import DATA, broken

MOVED = """\
pack: shop-own
format: 1
title: Our own numbers
uses: [pressure-sensing]
basis: {kind: shop, source: Twelve cases of 2031}
overrides:
- {of: dp-rest-max, at: default, was: 5 mbar, now: 6 mbar, why: Two good gauges agree}
"""
FINDING = """\
findings:
  shop-zero-off:
    says: The reading at rest is far from zero
    when: {dp@rest: {outside: [-5, dp-rest-max]}}
    proofs:
    - {given: {dp@rest: 5.5}, PROOF}
    - {given: {dp@rest: 7}, then: true}
    - {given: {dp@rest: 1}, then: false}
    - {given: {}, then: unknown}
"""


@settings(deadline=None, max_examples=60)
@given(st.randoms(use_true_random=False))
def test_no_broken_pack_stops_the_check(chance: random.Random) -> None:
    """A pack broken at random is checked to the end, and told on screen, as JSON and as JUnit."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "one-of-everything.yaml"
        path.write_text(json.dumps(broken(DATA, chance)), encoding="utf-8")
        checked = check_rulebook([Path(folder)])
        assert (checked.rulebook is None) == any(
            each.concern is Concern.READING for each in checked.remarks
        )
        assert all(each.problem.what and each.problem.instead for each in checked.remarks)
        json.loads(as_text(checked_json(checked)))
        ElementTree.fromstring(junit(checked).encode())
        told = remark_lines(checked.remarks)
        assert not any("\x1b" in line or "\u202e" in line for line in told)
        assert summary_lines(checked)
        assert coverage_lines(checked.shown, cases=False, whole=True) or not checked.shown


def test_a_golden_pack_with_its_shop() -> None:
    """Of the made-up packs the one interlock that no check can clear is found, and no more."""
    checked = check_rulebook([GOLDEN, SHOP / "packs"], shop=read_shop(SHOP))
    assert [each.problem.what for each in checked.remarks if each.weight is Weight.ERROR] == [
        'nothing can clear "pressure-bearable": no check gives air@idle'
    ]
    assert {each.concern for each in checked.remarks} >= {Concern.RETIRED}


def test_stale_and_missing_words(tmp_path: Path) -> None:
    """A translation of an older text is a warning, one of nothing too, missing ones are counted."""
    (tmp_path / "small.yaml").write_text(small(), encoding="utf-8")
    words = tmp_path / "words" / "xx"
    words.mkdir(parents=True)
    (words / "small.yaml").write_text(
        "words: small\nformat: 1\nlanguage: xx\ntexts:\n"
        '  high: {says: {of: "00000000", text: Hoch}}\n'
        '  gone: {says: {of: "00000000", text: Weg}}\n',
        encoding="utf-8",
    )
    checked = check_rulebook([tmp_path], words=[tmp_path])
    said = [(each.weight, each.problem.what) for each in checked.remarks]
    assert said[0][0] is Weight.WARNING
    assert 'this translates an older text of "high", says: it is stale' in said[0][1]
    assert 'there is no text "says" of "gone"' in said[1][1]
    assert said[2][0] is Weight.NOTE
    assert "texts have no words in xx" in said[2][1]


def test_a_setting_of_the_shop_that_fits_nothing(tmp_path: Path) -> None:
    """What shop.yaml names that no pack has is an error at its line."""
    (tmp_path / "rules").mkdir()
    (tmp_path / "rules" / "small.yaml").write_text(small(), encoding="utf-8")
    (tmp_path / "shop.yaml").write_text(
        "format: 1\nlimits: {dp-mux: {value: 9 mbar, source: our gauge}}\n", encoding="utf-8"
    )
    checked = check_rulebook([tmp_path / "rules"], shop=read_shop(tmp_path))
    (remark,) = checked.remarks
    assert remark.problem.place.line == 2
    assert remark.problem.instead == 'did you mean "dp-max"?'


@pytest.mark.parametrize(("beside", "errors"), [("", 0), ("then: true", 1), ("then: false", 0)])
def test_a_proof_is_held_to_the_numbers_it_was_written_for(
    tmp_path: Path, beside: str, errors: int
) -> None:
    """A shop that moves a threshold makes no shipped proof wrong; one in its own pack is held to
    the moved number."""
    pack = tmp_path / "shop-own.yaml"
    pack.write_text(MOVED, encoding="utf-8")
    if beside:
        more = FINDING.replace("PROOF", beside)
        pack.write_text(MOVED + more, encoding="utf-8")
    remarks = check_rulebook([shipped_rules(), tmp_path]).remarks
    wrong = [each.problem for each in remarks if each.weight is Weight.ERROR]
    assert len(wrong) == errors, wrong
    assert all(each.place.file.endswith("shop-own.yaml") for each in wrong)
