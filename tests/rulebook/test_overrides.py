"""A shop's own numbers in place of a pack's, and what a shop's pack may and may not do."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.documents.nodes import Node
from sootsayer.documents.problems import Refused
from sootsayer.documents.yaml_source import parse_document
from sootsayer.rulebook.compiled import load_rulebook, shipped_rules
from sootsayer.rulebook.desk import Desk
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.names import Names
from sootsayer.rulebook.pack_file import read_packs
from sootsayer.rulebook.paths import same, written
from sootsayer.rulebook.shops_packs import ids_are_told_apart
from tests.rulebook.bad_packs import GOLDEN, SHOP, problems_of, said

PLAIN = load_rulebook([GOLDEN]).model
HEAD = """\
pack: shop-own
format: 1
title: Our own numbers
uses: [one-of-everything]
basis: {kind: shop, source: Four cases of 2031}
"""


def overriding(*lines: str) -> str:
    return HEAD + "overrides:\n" + "".join(f"  - {{{line}, why: So}}\n" for line in lines)


def with_shop(folder: Path, text: str) -> Model:
    (folder / "shop-own.yaml").write_text(text, encoding="utf-8")
    return load_rulebook([folder, GOLDEN]).model


def told(folder: Path, text: str) -> list[str]:
    return [said(each, folder) for each in problems_of(folder, {"shop-own": text})]


def test_golden_overrides_are_in_force() -> None:
    """Limits, priors, links, shifts and ages take the shop's numbers; nothing else changes."""
    model = load_rulebook([GOLDEN, SHOP / "packs"]).model
    limit = model.limits["dp-rest-max"]
    assert (limit.default, limit.unit, limit.basis.source) == (6.0, "mbar", "2031-03-14-a")
    assert model.faults["soot-overload"].prior == pytest.approx(0.12)
    assert model.evidence["restriction"].seen_with["soot-overload"] == pytest.approx(
        (0.001, 0.149, 0.85)
    )
    assert model.evidence["restriction"].otherwise == PLAIN.evidence["restriction"].otherwise
    assert [shift.times for shift in model.faults["short-trips"].shifts] == [4.0, 1.5]
    assert model.interlocks["oil-good"].within_minutes == 30
    assert model.findings == PLAIN.findings


def test_golden_overrides_are_told() -> None:
    """Every override is in the model: both numbers as written, why, how we know, and where."""
    model = load_rulebook([GOLDEN, SHOP / "packs"]).model
    found = {(each.of, *each.path): (each.was, each.now) for each in model.overrides}
    assert found == {
        ("dp-rest-max", "default"): ("5 mbar", "6 mbar"),
        ("oil-good", "within"): ("60 minutes", "30 minutes"),
        ("restriction", "seen with", "soot-overload"): (
            "{low: 0.1, normal: 9.9, raised: 90}",
            "{low: 0.1, normal: 14.9, raised: 85}",
        ),
        ("short-trips", "shifts", "1", "times"): ("3", "4"),
        ("soot-overload", "prior"): ("0.1", "12 of 100"),
    }
    assert all(
        each.why and each.basis.source and each.pack == "shop-own" for each in model.overrides
    )
    assert all(each.place.file.endswith("shop-own.yaml") for each in model.overrides)


def test_a_changed_link_stands_where_the_shop_wrote_it() -> None:
    """The place and the basis of a link that a shop changed are the shop's."""
    evidence = load_rulebook([GOLDEN, SHOP / "packs"]).model.evidence["restriction"]
    assert evidence.places["soot-overload"].file.endswith("shop-own.yaml")
    assert evidence.bases["soot-overload"].source == "Twelve cases of 2031"
    assert evidence.bases[""].source == ""


def test_a_shops_pack_adds_links_to_what_is_shipped() -> None:
    """A fault of a shop's own is linked with a finding that another pack owns."""
    evidence = load_rulebook([GOLDEN, SHOP / "packs"]).model.evidence["tried-too-often"]
    assert set(evidence.seen_with) == {"shop-hose-rubs", "short-trips", "soot-overload"}


def test_logic_knows_an_override_by_its_effect(tmp_path: Path) -> None:
    """An override gives the digest of logic that the number itself would have given."""
    by_override = with_shop(
        tmp_path, overriding("of: dp-rest-max, at: default, was: 5 mbar, now: 6 mbar")
    )
    text = (GOLDEN / "one-of-everything.yaml").read_text(encoding="utf-8")
    there = tmp_path / "there"
    there.mkdir()
    for old, new in (
        ("default: 5 mbar", "default: 6 mbar"),
        (
            '{kind: published, source: "A handbook, page 3"}',
            "{kind: shop, source: Four cases of 2031}",
        ),
    ):
        assert text.count(old) == 1
        text = text.replace(old, new)
    (there / "one-of-everything.yaml").write_text(text, encoding="utf-8")
    by_hand = load_rulebook([there]).model
    assert by_override.digests.logic == by_hand.digests.logic != PLAIN.digests.logic
    assert by_override.digests.words != by_hand.digests.words


ITEM = "of: dp-rest-max, at: default"
BAD = {
    ITEM + ", was: 4 mbar, now: 6 mbar": [
        "7:41: the number beneath has moved: this replaces 4 mbar, and the pack says 5 mbar "
        "(one-of-everything.yaml:34:58) | look at your number again; if it still holds, write "
        "`was: 5 mbar`"
    ],
    "of: dp-rest-mx, at: default, was: 5 mbar, now: 6 mbar": [
        '7:10: there is no "dp-rest-mx" to override | did you mean "dp-rest-max"?'
    ],
    "of: dp-rest-max, at: defalt, was: 5 mbar, now: 6 mbar": [
        '7:27: "dp-rest-max" has no "defalt" | did you mean "default"?'
    ],
    "of: dp-rest-max, at: [default, more], was: 5 mbar, now: 6 mbar": [
        '7:37: "dp-rest-max → default" holds nothing more | leave this key out'
    ],
    "of: short-trips, at: [shifts, 3, times], was: 3, now: 6": [
        '7:36: "short-trips → shifts" is a list of 2, and has no "3" | count from 1 to 2'
    ],
    ITEM + ", was: 5 mbar, now: 5  mbar": ["7:54: this override changes nothing | leave it out"],
    ITEM + ", was: 5 mbar, now: much": ['7:54: "much" is no number | write a number in its place'],
    ITEM + ", was: 5 mbar, now: 6 mbra": [
        '7:54: "6 mbra" is not a number with a unit that is known | write a number and its unit, '
        "such as `5 mbar`"
    ],
    ITEM + ", was: 5 mbar": ['7:5: item 1 of "overrides" lacks the key "now" | add now: …'],
    "of: oil-good, at: says, was: The oil does not smell of fuel, now: Good": [
        '7:24: what stands there in "oil-good" is no number (one-of-everything.yaml:117:20) | '
        "override numbers only: limits, frequencies, spreads, minutes, ages, prices"
    ],
    "of: drive-on, at: needs, was: [oil-good], now: []": [
        '7:10: "drive-on" is an action, and what an action needs is not overridden | leave it out'
    ],
    "of: dp-not-nought, at: when, was: 1, now: 2": [
        '7:10: "dp-not-nought" is retired (one-of-everything.yaml:151:3): The same in other '
        'words | write "dp-not-zero"'
    ],
    "of: dp-not-zero, at: [seen with, soot-overload], was: often, now: always": [
        '7:28: "dp-not-zero" has no evidence, and so no "seen with" | name the family or finding '
        "that the evidence block names"
    ],
    "of: soot-overload, at: prior, was: 0.1, now: 1.2": [
        "7:51: a frequency of 1.2 leaves no room for doubt | write a number above 0 and below 1; "
        "`never` is 0.01 and `always` is 0.97"
    ],
    "of: ask-oil, at: minutes, was: 1, now: -1": [
        '7:45: "minutes" is -1, not more than 0 | write more than 0'
    ],
}


@pytest.mark.parametrize("line", sorted(BAD))
def test_a_bad_override_is_refused_where_the_shop_wrote_it(line: str, tmp_path: Path) -> None:
    """Each bad override is refused at its place, with what would be right."""
    assert told(tmp_path, overriding(line)) == [f"shop-own.yaml:{each}" for each in BAD[line]]


def test_two_overrides_of_one_number_are_refused(tmp_path: Path) -> None:
    """One number has one override, whether it is named itself or with what holds it."""
    line = (
        "of: restriction, at: [seen with, soot-overload], was: {low: 0.1, normal: 9.9, raised: 90}"
    )
    found = told(
        tmp_path,
        overriding(
            f"{line}, now: {{low: 0.1, normal: 14.9, raised: 85}}",
            "of: restriction, at: [seen with, soot-overload, raised], was: 90, now: 80",
        ),
    )
    assert found == [
        'shop-own.yaml:8:5: "restriction" is overridden twice here, first at '
        "shop-own.yaml:7:5 | keep one of the two"
    ]


def test_an_override_names_the_pack_that_it_uses(tmp_path: Path) -> None:
    """A number of a pack that is not named under `uses` is not overridden."""
    text = overriding(f"{ITEM}, was: 5 mbar, now: 6 mbar").replace(
        "uses: [one-of-everything]\n", ""
    )
    assert told(tmp_path, text) == [
        'shop-own.yaml:6:10: "dp-rest-max" belongs to the pack "one-of-everything", which this '
        "pack does not say it uses | write `uses: [one-of-everything]` at the head of this pack"
    ]


def test_a_packs_own_number_needs_no_override(tmp_path: Path) -> None:
    """A shop's pack writes its own numbers where they stand."""
    text = overriding("of: shop-most, at: default, was: 3, now: 4")
    text += "limits:\n  shop-most: {label: Most, default: 3}\n"
    assert told(tmp_path, text) == [
        'shop-own.yaml:7:10: "shop-most" is this pack\'s own, and needs no override | '
        "write the number where it stands"
    ]


def test_a_shops_ids_say_so(tmp_path: Path) -> None:
    """Every id that a shop's pack declares, points and retired ones too, begins with shop-."""
    text = HEAD + (
        "points:\n  3000: {label: Fast, conditions: Held at 3000}\n"
        "limits:\n  most: {label: Most, default: 3}\nretired:\n  least: {why: Not wanted}\n"
    )
    assert [each.partition(" | ")[2] for each in told(tmp_path, text)] == [
        'write "shop-3000"',
        'write "shop-most"',
        'write "shop-least"',
    ]


def test_packs_in_a_shops_folder_say_so(tmp_path: Path) -> None:
    """A pack in the packs/ of a shop whose id does not begin with shop- is refused."""
    (tmp_path / "shop.yaml").write_text("format: 1\n", encoding="utf-8")
    folder = tmp_path / "packs"
    folder.mkdir()
    (found,) = problems_of(folder, {"ours": "pack: ours\nformat: 1\ntitle: Ours\n"})
    assert (found.place.line, found.instead) == (
        1,
        'name it "shop-ours", and its file shop-ours.yaml',
    )


def test_shipped_packs_are_no_shops(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A pack with a shop's id among the shipped ones is refused."""
    (tmp_path / "shop-own.yaml").write_text("pack: shop-own\nformat: 1\ntitle: Ours\n", "utf-8")
    desk = Desk(Names())
    packs = read_packs(desk, [tmp_path])
    monkeypatch.setattr("sootsayer.rulebook.shops_packs.shipped_rules", lambda: tmp_path)
    ids_are_told_apart(desk, packs)
    assert [each.instead for each in desk.problems] == [
        "move it into the folder packs/ of the shop"
    ]
    assert shipped_rules() != tmp_path


def test_a_second_fault_does_not_hide_the_first(tmp_path: Path) -> None:
    """All bad overrides are told in one run."""
    lines = sorted(line for line in BAD if line.startswith("of: dp-rest-max, at: default,"))
    alone = [each for line in lines for each in BAD[line]]
    assert len(told(tmp_path, overriding(*lines))) == len(alone) > 3


def node(text: str) -> Node:
    return parse_document(f"it: {text}\n".encode(), "it.yaml").root["it"]


@pytest.mark.parametrize(
    ("one", "other", "equal"),
    [
        ("5", "5.0", True),
        ("{a: 1, b: 2}", "{b: 2, a: 1.0}", True),
        ("5 mbar", '"5  mbar"', True),
        ("[1, 2]", "[2, 1]", False),
        ("1", "true", False),
        ("1", '"1"', False),
        ("[1]", "{a: 1}", False),
    ],
)
def test_what_was_written_is_compared_by_meaning(one: str, other: str, equal: bool) -> None:
    """Order of keys and spelling of a number do not count; kinds and order of lists do."""
    assert same(node(one), node(other)) is equal
    assert same(node(other), node(one)) is equal


@pytest.mark.parametrize("text", ["5 mbar", "[1, 2]", "{a: 1, b: [2, 3]}"])
def test_numbers_are_told_as_written(text: str) -> None:
    """A node is told in one line as it was written."""
    assert written(node(text)) == text


def test_the_golden_folder_of_packs_can_be_refused_whole(tmp_path: Path) -> None:
    """A refused override leaves no rulebook at all."""
    (tmp_path / "shop-own.yaml").write_text(
        overriding(f"{ITEM}, was: 1 mbar, now: 6 mbar"), encoding="utf-8"
    )
    with pytest.raises(Refused):
        load_rulebook([GOLDEN, tmp_path])
