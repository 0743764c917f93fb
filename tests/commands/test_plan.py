"""`sootsayer plan`: a page or JSON of any case, and a new shop's file that is never overwritten."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from sootsayer.commands.main import main
from sootsayer.commands.new_shop import new_shop
from sootsayer.rulebook.compiled import load_rulebook, shipped_rules
from sootsayer.rulebook.shop_file import read_shop
from sootsayer.rulebook.shop_fit import fitted
from tests.judgement.plan_cases import planning
from tests.laws.demonstrations import NAMES

SETTINGS = "format: 1\ncurrency: EUR\nlabour rate: 60\n"
PACK = """\
pack: shop-work
format: 1
title: Work of our own
uses: [soot, ash, clean-in-place]
basis: {kind: shop, source: Nine cases of 2031}
remedies:
  shop-outside:
    label: Clean it outside
    does: Send it away
    cures: {soot-overload: 0.9, ash-full: 0.9}
    minutes: {from: 120, to: 180}
    parts: {from: 300, to: 400}
    tell the customer: It is back on Friday
  shop-fluid:
    label: Fluid into the filter
    does: Put the fluid in
    cures: {soot-overload: 0.5}
    by action: [clean-in-place]
    minutes: 90
    parts: {from: 25, to: 35}
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "shop.yaml").write_text(SETTINGS, encoding="utf-8")
    (tmp_path / "packs").mkdir()
    (tmp_path / "packs" / "shop-work.yaml").write_text(PACK, encoding="utf-8")
    return tmp_path


@pytest.mark.parametrize("name", NAMES)
def test_every_demonstration_case_has_a_plan(
    name: str, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A page with exit code 0 and nothing on stderr; and JSON that says the same order."""
    assert main(["plan", name, "--more", "--shop", str(folder)]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert "What next" in out
    assert main(["plan", name, "--shop", str(folder), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    labels = {each["remedy"]: each["label"] for each in told["plan"]}
    places = [out.index(labels[remedy]) for remedy in told["planning"]["order"]]
    assert labels.keys() >= {"shop-outside", "shop-fluid"}
    assert all(place > 0 for place in places)


@pytest.mark.parametrize("name", NAMES)
def test_a_plan_takes_three_screens(
    name: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without --more, at 80 columns, no more than three screens of 24 lines; nothing is wider."""
    monkeypatch.setenv("COLUMNS", "80")
    assert main(["plan", name]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) <= 72
    assert max(map(len, lines)) <= 80


def test_where_nothing_is_likely_no_work_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """After a good repair the page names work for the case that, and tells the steps of none."""
    assert main(["plan", "ash-after-motorway"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "What next: no work" in out
    assert "Only if something is wrong after all" in out
    assert "Tell the customer" not in out


def test_work_on_a_part_is_told_while_the_rest_waits(capsys: pytest.CaptureFixture[str]) -> None:
    """The instrument first; what repairs the rest is named with the checks that would settle it."""
    assert main(["plan", "three-at-once"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "this mends a part already" in out
    assert "1. Learn the sensor's zero" in out
    assert "To be settled first, for" in out


def test_a_fault_that_no_open_work_mends_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    """A filter soaked with oil, while nothing that would mend it may be done."""
    assert main(["plan", "turbo-oil-in-filter"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "Nothing that may be done now mends it: Filter soaked with oil." in out


def test_a_wish_to_remove_is_declined_on_plan_and_verdict(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """In one sentence, with the lawful work by its name; the verdict's short page keeps to its
    screen."""
    assert main(["plan", "asked-to-remove"]) == 0
    plan = " ".join(capsys.readouterr().out.split())
    assert "That is not done here" in plan
    assert "The lawful way: Put the software back as it was made" in plan
    for more in ([], ["--more"]):
        assert main(["judge", "asked-to-remove", *more]) == 0
        out = capsys.readouterr().out
        told = " ".join(out.split())
        assert "is asked for: not done here. The lawful work: Put the software back" in told
        assert "sootsayer plan asked-to-remove" in told
        assert more or len(out.splitlines()) <= 24


def test_what_is_not_permitted_is_named_and_never_told(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Of the fluid, which waits for much, the page says why, and not how."""
    assert main(["plan", "blocked-by-short-trips", "--more", "--shop", str(folder)]) == 0
    out = capsys.readouterr().out
    assert "Fluid into the filter (shop-fluid)" in out
    assert "Put the fluid in" not in out
    assert "Send it away" in out


@pytest.mark.parametrize(
    ("settings", "complaint"),
    [
        ("prices: {shop-outside: -3}\n", "less than 0"),
        ("prices: {shop-outside: 40 USD}\n", "a currency of its own"),
        ("chances: {shop-outside: {soot-overload: 1.2}}\n", "no chance that"),
        ("prices: {shop-outsid: 3}\n", 'did you mean "shop-outside"'),
        ("times: {shop-outside: 0}\n", "not more than 0"),
        ("unrepaired: 0\n", "less than 1"),
    ],
)
def test_a_bad_shop_file_is_refused(
    settings: str, complaint: str, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A negative price, two currencies, a chance above 1 and an unknown remedy: exit 2."""
    (folder / "shop.yaml").write_text(SETTINGS + settings, encoding="utf-8")
    assert main(["plan", "blocked-by-short-trips", "--shop", str(folder)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert complaint in err


def test_two_currencies_are_refused(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A list of currencies is one too many."""
    (folder / "shop.yaml").write_text("format: 1\ncurrency: [EUR, USD]\n", encoding="utf-8")
    assert main(["plan", "blocked-by-short-trips", "--shop", str(folder)]) == 2
    assert "a shop reckons in one currency" in capsys.readouterr().err


def test_a_new_shops_file_is_taken_by_the_loader(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """It is read as it is, knows no price, and names every remedy of the rulebook."""
    assert main(["plan", "--new-shop", str(tmp_path / "shop.yaml")]) == 0
    assert "Written" in capsys.readouterr().out
    model = load_rulebook([shipped_rules()]).model
    shop = fitted(read_shop(tmp_path), model)
    assert (shop.labour_rate, shop.prices, shop.times, shop.chances) == (None, {}, {}, {})
    text = (tmp_path / "shop.yaml").read_text(encoding="utf-8")
    assert all(f"#   {remedy}: " in text for remedy in model.remedies)


def test_every_comment_of_a_new_shops_file_can_be_taken_away(tmp_path: Path) -> None:
    """With the # away from every key, the loader takes the file, and has every number."""
    model = planning().model
    keys = (
        "name",
        "currency",
        "labour rate",
        "unrepaired",
        "tools",
        "prices",
        "times",
        "chances",
        "  ",
    )
    lines = []
    for line in new_shop(model).splitlines():
        bare = line.removeprefix("# ") if not line.startswith("#   ") else line[2:]
        wanted = line.startswith("# ") and bare.startswith(tuple(f"{key}:" for key in keys[:-1]))
        inside = line.startswith("#   ")
        lines.append(bare if wanted or inside else line)
    (tmp_path / "shop.yaml").write_text("\n".join(lines) + "\n", encoding="utf-8")
    shop = fitted(read_shop(tmp_path), model)
    assert set(shop.prices) == set(shop.times) == set(shop.chances) == set(model.remedies)
    assert (shop.labour_rate, shop.unrepaired) == (85, 10)


def test_a_new_shops_file_is_never_written_over(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What is there stays as it is, byte for byte, and the exit code is 2."""
    there = tmp_path / "shop.yaml"
    there.write_text("format: 1\nname: Ours\n", encoding="utf-8")
    assert main(["plan", "--new-shop", str(there)]) == 2
    assert "is there already" in capsys.readouterr().err
    assert there.read_text(encoding="utf-8") == "format: 1\nname: Ours\n"
    assert main(["plan", "--new-shop", str(tmp_path / "no" / "such" / "shop.yaml")]) == 2
    assert "cannot be written" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("arguments", "complaint"),
    [
        (["plan"], "no case is named"),
        (["plan", "blocked-by-short-trips", "--new-shop", "x.yaml"], "plans nothing"),
        (["plan", "no-such-case"], "no-such-case"),
        (["plan", "blocked-by-short-trips", "--language", "qq"], "no words"),
    ],
)
def test_wrong_usage_is_said(
    arguments: list[str], complaint: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit 2, on stderr, in plain words."""
    assert main(arguments) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert complaint in err


def test_another_language_is_spoken(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Words of the shop's own, of a remedy and what to tell the customer."""
    import hashlib

    def of(text: str) -> str:
        return hashlib.sha256(text.encode()).hexdigest()[:8]

    words = folder / "words" / "de"
    words.mkdir(parents=True)
    (words / "shop-work.yaml").write_text(
        "words: shop-work\nformat: 1\nlanguage: de\ntexts:\n  shop-outside:\n"
        f'    label: {{of: "{of("Clean it outside")}", text: Auswärts reinigen}}\n'
        f'    tell the customer: {{of: "{of("It is back on Friday")}", text: Freitag zurück}}\n',
        encoding="utf-8",
    )
    arguments = ["plan", "blocked-by-short-trips", "--shop", str(folder), "--language", "de"]
    assert main(arguments) == 0
    out = capsys.readouterr().out
    assert "Auswärts reinigen" in out
    assert "Freitag zurück" in out
    shutil.rmtree(words)
