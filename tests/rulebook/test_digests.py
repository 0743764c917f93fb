"""What a rulebook is known by: its logic and its words, and nothing else."""

from __future__ import annotations

import json
import random
import tempfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.documents.nodes import plain
from sootsayer.documents.yaml_source import read_document
from sootsayer.rulebook.compiled import load_rulebook
from sootsayer.rulebook.model import Model
from tests.rulebook.bad_packs import GOLDEN
from tests.rulebook.dumps import dump

TEXT = (GOLDEN / "one-of-everything.yaml").read_text(encoding="utf-8")
MODEL = load_rulebook([GOLDEN]).model


def model_of(packs: dict[str, str]) -> Model:
    with tempfile.TemporaryDirectory() as folder:
        for name, text in packs.items():
            (Path(folder) / f"{name}.yaml").write_text(text, encoding="utf-8")
        return load_rulebook([Path(folder)]).model


def changed(old: str, new: str) -> Model:
    assert TEXT.count(old) == 1, old
    return model_of({"one-of-everything": TEXT.replace(old, new)})


def pack_data() -> dict[str, Any]:
    data = plain(read_document(GOLDEN / "one-of-everything.yaml").root)
    assert isinstance(data, dict)
    return data


def shuffled(data: Any, chance: random.Random) -> Any:
    """The same pack with the keys of every mapping, and its evidence blocks, in other order."""
    if isinstance(data, dict):
        keys = list(data)
        chance.shuffle(keys)
        found = {key: shuffled(data[key], chance) for key in keys}
        if isinstance(found.get("evidence"), list):
            chance.shuffle(found["evidence"])
        return found
    return [shuffled(each, chance) for each in data] if isinstance(data, list) else data


@settings(deadline=None, max_examples=15)
@given(st.randoms(use_true_random=False))
def test_order_of_items_changes_nothing(chance: random.Random) -> None:
    """Items in any order, and in another notation, read to the same model and digests."""
    text = json.dumps(shuffled(pack_data(), chance))
    assert dump(model_of({"one-of-everything": text}), places=False) == dump(MODEL, places=False)


@pytest.mark.parametrize(("upper", "lower"), [("one", "two"), ("two", "one")])
def test_order_of_packs_changes_nothing(upper: str, lower: str) -> None:
    """Spread over two packs, whichever comes first, the rulebook has the same digests."""
    data = pack_data()
    above = {key: data[key] for key in ("points", "channels", "signals", "limits", "faults")}
    below = {
        key: data[key]
        for key in (
            *("checks", "findings", "families", "evidence", "actions", "interlocks"),
            *("quantities", "remedies", "retired", "opening", "order"),
        )
    }
    head = {"format": 1, "title": "Half", "basis": data["basis"]}
    packs = {
        upper: json.dumps({"pack": upper, "uses": [lower], **head, **above}),
        lower: json.dumps({"pack": lower, "uses": [upper], **head, **below}),
    }
    assert model_of(packs).digests == MODEL.digests


def test_evidence_is_merged_across_packs() -> None:
    """A link that another pack adds is the same rulebook as the link in the owner's pack."""
    link = "short-trips: often, soot-overload: 19 of 20"
    assert TEXT.count(link) == 1
    rest = TEXT.replace(link, "short-trips: often")
    more = (
        "pack: more\nformat: 1\ntitle: More\nuses: [one-of-everything]\nevidence:\n"
        "  - finding: tried-too-often\n    seen with: {soot-overload: 19 of 20}\n"
        "    basis: {kind: shop, source: Nine cases of 2031, note: few}\n"
    )
    assert model_of({"one-of-everything": rest, "more": more}).digests == MODEL.digests


def test_comments_and_formatting_change_nothing() -> None:
    """A comment, an empty line and other quotes leave both digests as they are."""
    model = changed("faults:\n", "\n# A remark\nfaults:   # and another\n")
    assert model.digests == MODEL.digests
    assert changed("label: Short trips", 'label: "Short trips"').digests == MODEL.digests


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("label: Short trips", "label: Many short trips"),
        ("says: The pressure is bearable", "says: The pressure can be borne"),
        ("caution: Hot parts", "caution: Hot parts and gas"),
        ("caution: Keep to the speed limit", "caution: Keep to the law"),
        ("steps: [Fill the tank above a quarter, ", "steps: ["),
        ("resets: [The trip counter]", "resets: [The counter]"),
        ("note: to be looked up", "note: looked up"),
        ("then: [Read the pressure again, Ask", "then: [Read the pressure once more, Ask"),
        ("why: The same in other words", "why: The same"),
        ('says: "First of all, about', 'says: "First, about'),
        ('asks: "What is the differential pressure?"', 'asks: "What is it?"'),
        ("shown as: [DPF pressure, Filter dP]", "shown as: [DPF pressure]"),
    ],
)
def test_words_change_only_the_digest_of_words(old: str, new: str) -> None:
    """A text is in the digest of words, and neither in that of logic nor in a revision."""
    digests = changed(old, new).digests
    assert digests.words != MODEL.digests.words
    assert digests.logic == MODEL.digests.logic


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("default: 5 mbar", "default: 6 mbar"),
        ("prior: sometimes", "prior: often"),
        ("times: 1.5", "times: 1.6"),
        ("minutes: 5.5", "minutes: 6"),
        ("within: 60 minutes", "within: 2 hours"),
        ("nearest first: [sensor-stuck, hose-leaks]", "nearest first: [hose-leaks, sensor-stuck]"),
        (
            "members: [restriction-at-2500, restriction-at-idle]",
            "members: [restriction-at-idle, restriction-at-2500]",
        ),
        ("step: 1, error: 2", "step: 1, error: 3"),
        ("in round: arrival", "in round: after-clean"),
        ("by action: [drive-on], applies", "applies"),
        (
            "order: [ask-oil, read-dp-running, read-dp-at-rest]",
            "order: [ask-oil, read-dp-at-rest, read-dp-running]",
        ),
        ("minutes: {from: 30,", "minutes: {from: 35,"),
        ("parts: {from: 0, to: 0}", "parts: {from: 0, to: 5}"),
        ("days: 1", "days: 2"),
        ("needs mended: [sensor-stuck]", "needs mended: []"),
        ("hides fault: [hose-leaks]", "hides fault: []"),
        ("{after km: 50}", "{after km: 60}"),
        ("fills with: soot", "fills with: ash"),
        ("resistance-low: resistance@idle", "resistance-low: resistance@2500"),
    ],
)
def test_logic_changes_only_the_digest_of_logic(old: str, new: str) -> None:
    """Whatever can change a verdict is in the digest of logic alone."""
    digests = changed(old, new).digests
    assert digests.logic != MODEL.digests.logic
    assert digests.words == MODEL.digests.words


def test_proofs_are_in_no_digest() -> None:
    """A proof is an example: another number in it changes nothing."""
    model = changed("{given: {dp@rest: 1}, then: false}", "{given: {dp@rest: 2}, then: false}")
    assert model.digests == MODEL.digests
    holds = changed("{given: {dp@idle: 20, air@idle: 40}", "{given: {dp@idle: 21, air@idle: 40}")
    assert holds.digests == MODEL.digests
    applies = changed("{oil-smells: not fitted}, then", "{oil-smells: yes}, then")
    assert applies.digests == MODEL.digests
    assert model.findings["dp-not-zero"].revision == MODEL.findings["dp-not-zero"].revision


def test_a_revision_is_of_one_rule() -> None:
    """A changed rule has another revision; no other rule has."""
    model = changed("outside: [-5, dp-rest-max]", "outside: [-6, dp-rest-max]")
    differing = [
        name
        for name, finding in model.findings.items()
        if finding.revision != MODEL.findings[name].revision
    ]
    assert differing == ["dp-not-zero"]
    assert [each.revision for each in model.faults.values()] == [
        each.revision for each in MODEL.faults.values()
    ]
    assert all(len(each.revision) == 8 for each in model.interlocks.values())


def test_equal_numbers_are_equal_logic() -> None:
    """`3 of 100` and 0.03 are one number, and so are 1 and 1.0."""
    assert changed("prior: 3 of 100", "prior: 0.03").digests == MODEL.digests
    assert changed("minutes: 2,", "minutes: 2.0,").digests == MODEL.digests
