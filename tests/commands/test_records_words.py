"""`records replay` says what differs in words of the language in force; JSON keeps ids."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from sootsayer.catalogue import speaking
from sootsayer.commands.main import main
from sootsayer.console.records_called import Called, called_by
from sootsayer.console.records_said import change_said, difference_said
from sootsayer.ledger.replay_model import Change, Difference, Of

Capture = pytest.CaptureFixture[str]
RESTRICTION = {
    "en": ("Restriction of the filter, hot, at idle", "normal", "raised"),
    "fr": ("Perte de charge du filtre, à chaud, au ralenti", "normale", "élevée"),
}


@pytest.fixture(autouse=True)
def alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)


def replayed(made_in: str, drawn_in: str, capsys: Capture, *more: str) -> str:
    """A record made in one language, replayed in another with a limit that has moved since."""
    shop = Path("shop")
    shop.mkdir(exist_ok=True)
    (shop / "shop.yaml").write_text("format: 1\n", encoding="utf-8")
    keep = ["records", "keep", "sensor-offset", "--by", "tech-1", "--as-advised"]
    assert main([*keep, "--shop", "shop", "--language", made_in]) == 0
    limit = "limits:\n  dp-rest-max: {value: 60 mbar, source: own}\n"
    (shop / "shop.yaml").write_text("format: 1\n" + limit, encoding="utf-8")
    capsys.readouterr()
    replay = ["records", "replay", "1", "--more", "--shop", "shop", "--language", drawn_in]
    assert main([*replay, *more]) == 0
    return capsys.readouterr().out


@pytest.mark.parametrize("made_in", ["en", "fr"])
@pytest.mark.parametrize("drawn_in", ["en", "fr"])
def test_findings_and_levels_in_words(made_in: str, drawn_in: str, capsys: Capture) -> None:
    """The finding's text and its levels as they are said, whatever language it was made in."""
    out = replayed(made_in, drawn_in, capsys)
    says, then, now = RESTRICTION[drawn_in]
    assert re.search(rf"^  {says} +{then} +{now}$", out, re.M)
    for word in RESTRICTION["en" if drawn_in == "fr" else "fr"]:
        assert not re.search(rf"\b{word}\b", out)
    assert "[dp-rest-max]" in out


def test_json_keeps_ids(capsys: Capture) -> None:
    """The differences are the same bytes in both languages, levels as ids."""
    told = {}
    for drawn_in in ("en", "fr"):
        plain = json.loads(replayed("fr", drawn_in, capsys, "--json"))
        told[drawn_in] = plain["today"]["differences"]
    assert told["en"] == told["fr"]
    assert {"of": "finding", "id": "restriction-at-idle", "then": "normal", "now": "raised"} in [
        {key: each[key] for key in ("of", "id", "then", "now")} for each in told["fr"]
    ]


def test_the_first_that_knows_a_thing_names_it() -> None:
    """A thing of one rulebook alone has its name from there; a level without words stays."""
    older = Called({"gone": "What is gone", "both": "Older"}, {"both": {"low": "basse"}})
    newer = Called({"both": "Newer"}, {"both": {}})
    called = called_by(newer, older)
    assert (called.of("gone"), called.of("both"), called.of("odd")) == (
        "What is gone", "Newer", "odd",
    )  # fmt: skip
    assert (called.level("both", "low"), called_by(older, newer).level("both", "low")) == (
        "low", "basse",
    )  # fmt: skip
    assert called.with_id("gone") == '"What is gone" [gone]'
    assert called.with_id("odd") == "odd"


def test_settings_of_a_shop_in_words() -> None:
    """Tools and chances by what they are called, numbers as the language writes them."""
    called = Called({"blocked": "Filtre colmaté", "clean": "Nettoyage"})
    with speaking("fr"):
        tools = change_said(Change("shop tools", "tools", "gauge, scan tool", "lamp"), called)
        chances = change_said(Change("shop chances", "clean", "", "blocked 0.85"), called)
        opening = change_said(Change("opening", "opening", "", ""), called)
    assert "manomètre, outil de diagnostic" in tools
    assert "« Nettoyage » [clean]" in chances.replace("\u00a0", " ")
    assert "Filtre colmaté 0,85" in chances
    assert "opening" not in opening


def test_a_finding_that_says_nothing() -> None:
    """Set aside and unknown are states, and no levels."""
    each = Difference(Of.FINDING, "x", "set-aside", "unknown")
    with speaking("fr"):
        assert difference_said(each, Called())[1:] == ("écarté", "inconnu")
