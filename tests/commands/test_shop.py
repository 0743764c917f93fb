"""The shop's own folder through the commands: found, counted, shown, and left alone."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from sootsayer.commands.main import main
from sootsayer.rulebook.compiled import load_rulebook, shipped_rules
from sootsayer.rulebook.words import text_digest

CASE = "leaking-front-hose"
SETTINGS = """format: 1
name: North Yard
limits:
  soot-in-place-max: {value: 40 g, source: Agreed in the yard}
"""
PACK = """pack: shop-town
format: 1
title: What the yard has learned of town vans
uses: [duty-cycle]
basis: {kind: shop, source: 2031-03-14-a}
overrides:
- {of: short-trip-duty, at: prior, was: PRIOR, now: 0.7, why: Most vans here are couriers}
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    folder = tmp_path / "yard"
    (folder / "packs").mkdir(parents=True)
    (folder / "shop.yaml").write_text(SETTINGS, "utf-8")
    return folder


def with_pack(shop: Path, text: str) -> None:
    (shop / "packs" / "shop-town.yaml").write_text(text, "utf-8")


def prior_as_written() -> str:
    """The number as it stands in the shipped pack, so that moving it there breaks nothing here."""
    return str(load_rulebook([shipped_rules()]).model.faults["short-trip-duty"].prior)


def told(capsys: pytest.CaptureFixture[str], *arguments: str) -> Any:
    assert main([*arguments, "--json"]) == 0
    return json.loads(capsys.readouterr().out)


def limit(verdict: Any) -> tuple[float, str]:
    used = next(u for u in verdict["limits"] if u["id"] == "soot-in-place-max")
    return used["value"], used["from"]


def confidence(verdict: Any, fault: str) -> float:
    found: float = next(f["confidence"] for f in verdict["faults"] if f["id"] == fault)
    return found


def test_without_a_shop(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The shipped rulebook alone, and the verdict says that no shop was used."""
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)
    verdict = told(capsys, "judge", CASE)
    assert verdict["shop"] is None
    assert limit(verdict)[1] == "pack"


def test_found_by_option_by_variable_and_upward(
    shop: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """All three ways find it; the option before the variable before the folder one stands in."""
    by_option = told(capsys, "judge", CASE, "--shop", str(shop))
    assert limit(by_option) == (40, "shop")
    monkeypatch.setenv("SOOTSAYER_SHOP", str(shop))
    assert told(capsys, "judge", CASE) == by_option
    monkeypatch.delenv("SOOTSAYER_SHOP")
    monkeypatch.chdir(shop / "packs")
    assert told(capsys, "judge", CASE) == by_option
    assert by_option["shop"]


def test_a_vehicles_own_limit_comes_before_the_shops(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The case that states its vehicle's ceiling keeps it."""
    verdict = told(capsys, "judge", "blocked-by-short-trips", "--shop", str(shop))
    assert limit(verdict)[1] == "vehicle"


def test_a_shops_pack_changes_a_verdict_and_shows(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """An override moves a confidence; the verdict and why tell of it, with its place."""
    plain = told(capsys, "judge", CASE, "--shop", str(shop))
    with_pack(shop, PACK.replace("PRIOR", prior_as_written()))
    verdict = told(capsys, "judge", CASE, "--shop", str(shop))
    fault = "short-trip-duty"
    assert confidence(verdict, fault) > confidence(plain, fault)
    assert verdict["rulebook"] != plain["rulebook"]
    assert [(o["of"], o["now"]) for o in verdict["overrides"]] == [(fault, "0.7")]
    assert main(["why", CASE, fault, "--shop", str(shop)]) == 0
    page = " ".join(capsys.readouterr().out.split())
    assert "The shop's own number (prior): 0.7 in place of" in page
    assert "shop-town.yaml:7" in page


def test_a_number_that_moved_beneath_is_refused(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """An upgrade that changed the number stops, and shows both."""
    with_pack(shop, PACK.replace("PRIOR", "0.123"))
    assert main(["judge", CASE, "--shop", str(shop)]) == 2
    said = capsys.readouterr().err
    assert "shop-town.yaml:7:" in said
    assert "0.123" in said
    assert prior_as_written() in said


def test_a_case_of_the_shop_by_its_id(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """An id is looked for in the shop's cases before the demonstration cases."""
    (shop / "cases").mkdir()
    text = (
        "case: yard-1\nformat: 1\nvehicle: {label: 1.6 L car}\nentries:\n"
        "- {at: 2031-03-14T09:00+01:00, by: tech-1, note: came in on a hook}\n"
    )
    (shop / "cases" / "yard-1.yaml").write_text(text, "utf-8")
    assert told(capsys, "judge", "yard-1", "--shop", str(shop))["case"] == "yard-1"


def test_judging_leaves_the_folder_alone(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing in it is written, made or touched."""
    with_pack(shop, PACK.replace("PRIOR", prior_as_written()))

    def picture() -> list[tuple[str, float, bytes]]:
        files = sorted(path for path in shop.rglob("*") if path.is_file())
        return [(str(p), p.stat().st_mtime_ns, p.read_bytes()) for p in files]

    before = picture()
    assert before
    main(["judge", CASE, "--shop", str(shop)])
    main(["why", CASE, "short-trip-duty", "--shop", str(shop)])
    capsys.readouterr()
    assert picture() == before


def test_a_shop_that_is_none(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A folder without shop.yaml, named as one, is refused with what to do."""
    assert main(["judge", CASE, "--shop", str(tmp_path)]) == 2
    assert "shop.yaml" in capsys.readouterr().err


def test_a_shops_words_are_shown(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A text with a translation is shown in it; what has none stands as it was written."""
    label = load_rulebook([shipped_rules()]).model.faults["front-hose-leaks"].label
    folder = shop / "words" / "xx"
    folder.mkdir(parents=True)
    text = (
        "words: hoses\nformat: 1\nlanguage: xx\ntexts:\n"
        f"  front-hose-leaks:\n    label: {{of: {text_digest(label)}, text: Hosus leakus}}\n"
    )
    (folder / "hoses.yaml").write_text(text, "utf-8")
    assert main(["judge", CASE, "--shop", str(shop), "--language", "xx"]) == 0
    page = capsys.readouterr().out
    assert "Hosus leakus" in page
    assert label not in page
    assert "May it be driven?" in page


def test_a_language_without_words_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    """It says which languages there are."""
    assert main(["judge", CASE, "--language", "qq"]) == 2
    said = capsys.readouterr().err
    assert '"qq"' in said
    assert "one of: en, fr" in said
