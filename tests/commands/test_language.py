"""Which language is spoken: the option, the variable, the shop, the locale, English."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from sootsayer.catalogue import language
from sootsayer.commands.main import COMMANDS, main
from sootsayer.commands.tongue import chosen, early, known_as, option
from sootsayer.console.output import fitting
from sootsayer.tongues import tongue as tongue_of

CASE = "sensor-offset"
FRENCH, ENGLISH = "Peut-il rouler ?", "May it be driven?"


@pytest.fixture(autouse=True)
def _alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No shop upward, and no language of the machine."""
    monkeypatch.chdir(tmp_path)
    for name in ("SOOTSAYER_SHOP", "SOOTSAYER_LANGUAGE", "LC_ALL", "LANG"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("LC_MESSAGES", "C")


def known() -> tuple[str, ...]:
    return ("en", "fr", "pt-BR")


@pytest.mark.parametrize(
    ("named", "variable", "shop", "locale", "spoken"),
    [
        ("fr", "en", "en", {"LANG": "en_GB.UTF-8"}, "fr"),
        (None, "fr", "en", {"LANG": "en_GB.UTF-8"}, "fr"),
        (None, None, "fr", {"LANG": "en_GB.UTF-8"}, "fr"),
        (None, None, None, {"LANG": "fr_CA.UTF-8"}, "fr"),
        (None, None, None, {"LC_MESSAGES": "fr_FR", "LANG": "en_US"}, "fr"),
        (None, None, None, {"LC_ALL": "C", "LANG": "fr_FR"}, "en"),
        (None, None, None, {"LC_ALL": "", "LANG": "fr_FR"}, "fr"),
        (None, None, None, {"LANG": "xx_YY.UTF-8"}, "en"),
        (None, None, None, {}, "en"),
        (None, "xx", None, {}, "en"),
        (None, "xx", "fr", {}, "fr"),
        (None, "", "fr", {}, "fr"),
        ("en", "fr", "fr", {"LANG": "fr_FR"}, "en"),
        (None, "pt_BR.UTF-8", None, {}, "pt-BR"),
        (None, "pt", None, {}, "en"),
    ],
)
def test_the_order(
    named: str | None, variable: str | None, shop: str | None, locale: dict[str, str], spoken: str
) -> None:
    """The first that is named and that there are words in; else English."""
    environ = locale | ({} if variable is None else {"SOOTSAYER_LANGUAGE": variable})
    assert chosen(named, shop, environ, known) == spoken


def test_english_looks_for_nothing() -> None:
    """Where English is named first, no folder of another language is looked into."""

    def looked() -> tuple[str, ...]:
        raise AssertionError

    assert chosen(None, None, {"LANG": "C.UTF-8"}, looked) == "en"
    assert chosen("en", "fr", {}, looked) == "en"


@pytest.mark.parametrize("wish", ["FR", "fr_FR.UTF-8@euro", "French_France.1252", "fr-be"])
def test_names_of_a_language(wish: str) -> None:
    """However a system writes it."""
    assert known_as(wish, known) == "fr"


def test_windows_names_its_locale(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where no variable is set, Windows is asked."""
    monkeypatch.setattr("sys.platform", "win32")
    monkeypatch.setattr("locale.getlocale", lambda: ("French_France", "1252"))
    assert chosen(None, None, {}, known) == "fr"
    monkeypatch.setattr("locale.getlocale", lambda: (None, None))
    assert chosen(None, None, {}, known) == "en"


def test_the_option_as_it_is_typed() -> None:
    """Found before anything is parsed: both forms, the last of several, not behind `--`."""
    assert option(["judge", "--language", "fr"], "--language") == "fr"
    assert option(["--language=en", "judge", "--language=fr"], "--language") == "fr"
    assert option(["judge", "--", "--language", "fr"], "--language") is None
    assert option(["judge", "--language"], "--language") is None
    assert option(["judge", "--language="], "--language") is None
    assert option(["judge", "--languages", "fr"], "--language") is None


@pytest.mark.parametrize(
    "settings",
    [
        "language: fr",
        'language: "fr"  # our own',
        "language: fr\r",
        "tools: [\nlanguage: fr",
    ],
)
def test_early_glances_at_the_shop(settings: str, tmp_path: Path) -> None:
    """Even where its settings are wrong, what it complains in is the shop's language."""
    below = tmp_path / "cases"
    below.mkdir()
    (tmp_path / "shop.yaml").write_text(f"format: 1\n{settings}\n", encoding="utf-8", newline="")
    assert early(["judge", "--shop", str(tmp_path)], {}) == "fr"
    assert early(["judge"], {"SOOTSAYER_SHOP": str(tmp_path)}) == "fr"
    assert early(["judge"], {}) == "fr"  # the nearest upward
    assert early(["judge", "--language", "en"], {}) == "en"


@pytest.mark.parametrize("shop", ["\0", "/nonexistent", "x" * 5000, "."])
def test_early_never_raises(shop: str) -> None:
    """A shop that is none is complained of later, in English."""
    assert early(["--shop", shop], {"LANG": "xx"}) == "en"


@pytest.mark.parametrize("arguments", [[], *([name] for name in COMMANDS)])
def test_help_is_french(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """Every help, its headings and its examples too, as wide as a screen at most."""
    assert main([*arguments, "--help", "--language", "fr"]) == 0
    out = capsys.readouterr().out.replace("\u00a0", " ")
    assert out.startswith("usage : sootsayer")
    assert "montrer cette aide et quitter" in out
    assert "exemple :" in out
    assert "show this help" not in out
    assert max(map(len, out.splitlines())) <= 80
    assert language() == "en"  # what one run speaks, the next does not


@pytest.mark.parametrize(
    ("arguments", "what"),
    [
        (["judge"], "il manque : DOSSIER"),
        (["judge", CASE, "--colour"], "--colour"),
        (["jugde"], "« jugde »"),
        (["compare", CASE, "--from"], "une valeur est attendue"),
        (["report", CASE, "--file", "--customer"], "ne va pas avec"),
        (["judge", "no/such.yaml"], "no/such.yaml"),
    ],
)
def test_wrong_usage_is_told_in_french(
    arguments: list[str], what: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """What argparse finds and what the program finds."""
    assert main([*arguments[:1], "--language=fr", *arguments[1:]]) == 2
    err = capsys.readouterr().err
    assert what in err.replace("\u00a0", " ")
    assert "required" not in err
    assert "sootsayer\u00a0:" in err


def test_a_language_without_words_is_refused(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """One named by the option is; one of the machine is passed over."""
    assert main(["judge", CASE, "--language", "xx"]) == 2
    assert "en, fr" in capsys.readouterr().err
    monkeypatch.setenv("SOOTSAYER_LANGUAGE", "xx")
    assert main(["judge", CASE]) == 0
    assert ENGLISH in capsys.readouterr().out


@pytest.mark.parametrize("before", [True, False])
def test_the_option_may_stand_before_the_command(
    before: bool, capsys: pytest.CaptureFixture[str]
) -> None:
    """`sootsayer --language fr judge CASE` speaks French, packs too."""
    spoken = ["--language", "fr"]
    arguments = [*spoken, "judge", CASE] if before else ["judge", CASE, *spoken]
    assert main(arguments) == 0
    out = capsys.readouterr().out.replace("\u00a0", " ")
    assert FRENCH in out
    assert "pression" in out


def test_the_shop_decides_and_the_variable_overrules(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A shop that says nothing leaves it to the locale."""
    shop = tmp_path / "shop.yaml"
    for text, variable, locale, words in (
        ("format: 1\nlanguage: fr\n", "", "en_GB", FRENCH),
        ("format: 1\nlanguage: fr\n", "en", "en_GB", ENGLISH),
        ("format: 1\n", "", "fr_FR", FRENCH),
        ("format: 1\nlanguage: en\n", "", "fr_FR", ENGLISH),
    ):
        shop.write_text(text, encoding="utf-8")
        monkeypatch.setenv("SOOTSAYER_LANGUAGE", variable)
        monkeypatch.setenv("LC_MESSAGES", locale)
        assert main(["judge", CASE]) == 0
        assert words in capsys.readouterr().out.replace("\u00a0", " ")


def test_customers_page_in_another_language(capsys: pytest.CaptureFixture[str]) -> None:
    """The customer reads French, the file is English, and each sheet says which it is in."""
    assert main(["report", CASE, "--customer-language", "fr"]) == 0
    customer, file = capsys.readouterr().out.split("</article>")[:2]
    assert '<html lang="en">' in customer
    assert '<article id="customer" lang="fr"' in customer
    assert "Votre véhicule" in customer
    assert "lang=" not in file
    assert "rulebook" in file.casefold()
    assert main(["report", CASE, "--customer-language", "fr", "--customer"]) == 0
    out = capsys.readouterr().out
    assert '<html lang="fr">' in out
    assert out.count("lang=") == 1
    assert main(["report", CASE, "--language", "fr", "--customer-language", "en"]) == 0
    out = capsys.readouterr().out
    assert '<html lang="fr">' in out
    assert 'lang="en"' in out
    assert "Your vehicle" in out


def test_customers_language_without_words(capsys: pytest.CaptureFixture[str]) -> None:
    """It is refused before anything is written."""
    assert main(["report", CASE, "--customer-language", "xx", "-o", "r.html"]) == 2
    assert "en, fr" in capsys.readouterr().err
    assert not Path("r.html").exists()


def test_french_on_a_terminal_that_knows_ascii_alone(capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing becomes a question mark: letters lose their accents, quotes and spaces are plain."""
    assert main(["judge", CASE, "--language", "fr", "--more"]) == 0
    out = capsys.readouterr().out
    folded = fitting(out, "ascii")
    assert folded.count("?") == out.count("?")
    assert "defaut" in folded
    assert main(["report", CASE, "--language", "fr", "--text"]) == 0
    out = capsys.readouterr().out
    assert fitting(out, "ascii").count("?") == out.count("?")


def test_a_broken_catalogue_breaks_nothing(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """With the program's catalogue torn the packs still speak French, and the program English."""
    torn = tmp_path / "fr" / "LC_MESSAGES" / "sootsayer.mo"
    torn.parent.mkdir(parents=True)
    torn.write_bytes(b"\xde\x12\x04\x95 torn")
    monkeypatch.setattr("sootsayer.tongues.WORDS", tmp_path)
    tongue_of.cache_clear()
    try:
        assert main(["judge", CASE, "--language", "fr"]) == 0
        out = capsys.readouterr().out
        assert ENGLISH in out
        assert "pression" in out
    finally:
        tongue_of.cache_clear()


def test_json_is_french_in_its_texts_alone(capsys: pytest.CaptureFixture[str]) -> None:
    """Keys and ids are the same; a label is French, in ASCII."""
    told = {}
    for spoken in ("en", "fr"):
        assert main(["judge", CASE, "--json", "--language", spoken]) == 0
        out = capsys.readouterr().out
        assert out.isascii()
        told[spoken] = json.loads(out)
    assert told["en"].keys() == told["fr"].keys()
    first = [told[spoken]["faults"][0] for spoken in ("en", "fr")]
    assert first[0]["id"] == first[1]["id"]
    assert first[0]["label"] != first[1]["label"]


def test_a_shop_language_without_words_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """With its place, the line, and what there is; the command goes on in English."""
    Path("shop.yaml").write_text("format: 1\nlanguage: de\n", encoding="utf-8")
    assert main(["cases", "list"]) == 0
    out, err = capsys.readouterr()
    assert "No open case" in out
    assert 'shop.yaml:2:11: warning: there are no words in the language "de" yet' in err
    assert "language: de" in err
    assert "→ write one of: en, fr; meanwhile the language is en" in err
    Path("shop.yaml").write_text("format: 1\nlanguage: fr\n", encoding="utf-8")
    assert main(["cases", "list"]) == 0
    assert capsys.readouterr().err == ""
