"""Rounds and points as people call them, wherever one is typed."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from sootsayer.casework.case_file import read_case
from sootsayer.catalogue import speaking
from sootsayer.commands.main import main
from sootsayer.commands.naming_rounds import round_named, round_of_these, rounds_listed
from sootsayer.rulebook.compiled import load_rulebook
from sootsayer.rulebook.shipped import shipped_cases, shipped_rules

Capture = pytest.CaptureFixture[str]
ROUNDS = "estate-before-and-after"
AT = ("--at", "2031-04-02T15:00+02:00")


@pytest.fixture(autouse=True)
def alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)


def plain_spaces(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize(
    "typed", ["after-clean", "after clean", "Après nettoyage", "apres-nettoyage", "AFTER CLEAN"]
)
def test_a_round_by_its_words(typed: str) -> None:
    """By id, in English and in the language in force, with accents, dashes and capitals or not."""
    with speaking("fr"):
        assert round_named(typed) == "after-clean"
        assert round_of_these(typed, ("arrival", "after-clean")) == "after-clean"
        assert round_of_these("arrivée", ("after-clean",)) is None
        assert rounds_listed(("arrival", "mine")) == "arrivée [arrival], mine"


def test_a_name_with_accents_becomes_an_id() -> None:
    """What names no known round is a new one, as an id."""
    with speaking("fr"):
        assert round_named("Après essai") == "apres-essai"


@pytest.mark.parametrize(
    ("language", "earlier", "later"),
    [("fr", "arrivée", "après parcours routier"), ("en", "Arrival", "after road run"),
     ("fr", "arrival", "after-road-run")],
)  # fmt: skip
def test_compare_takes_them(language: str, earlier: str, later: str, capsys: Capture) -> None:
    """`--from` and `--to` in words give what ids give."""
    assert main(["compare", ROUNDS, "--language", language]) == 0
    plain = capsys.readouterr().out
    arguments = ["--from", earlier, "--to", later, "--language", language]
    assert main(["compare", ROUNDS, *arguments]) == 0
    assert capsys.readouterr().out == plain


def test_compare_lists_them_in_words(capsys: Capture) -> None:
    """A round that is none: those that there are, as they are called, with their ids."""
    assert main(["compare", ROUNDS, "--from", "arrive", "--language", "fr"]) == 2
    err = plain_spaces(capsys.readouterr().err)
    assert "« arrivée »" in err
    assert "arrivée [arrival], après-parcours-routier [after-road-run]" in err
    wrong = ["--from", "après parcours routier", "--to", "arrivée", "--language", "fr"]
    assert main(["compare", ROUNDS, *wrong]) == 2
    assert "après-parcours-routier" in capsys.readouterr().err.split("→")[0]


def test_readings_takes_them(capsys: Capture) -> None:
    """`--round` in words enters the round by its id."""
    shutil.copy(shipped_cases() / "sensor-offset.yaml", "mine.yaml")
    shutil.copy(shipped_cases() / "logs" / "panel-van-drive.csv", "drive.csv")
    arguments = ["--take", "1", "--round", "Après nettoyage", *AT, "--language", "fr"]
    assert main(["readings", "drive.csv", "mine.yaml", *arguments]) == 0
    assert "après-nettoyage" in capsys.readouterr().out
    model = load_rulebook([shipped_rules()]).model
    assert read_case(Path("mine.yaml"), model).entries[-1].round == "after-clean"


def test_what_can_be_no_round(capsys: Capture) -> None:
    """A name that makes no id is refused, and nothing is entered."""
    shutil.copy(shipped_cases() / "logs" / "panel-van-drive.csv", "drive.csv")
    assert main(["readings", "drive.csv", "--round", "?!", "--language", "fr"]) == 2
    assert "« ?! »" in plain_spaces(capsys.readouterr().err)


def asked(answers: str, language: str, *, code: int = 0) -> str:
    """The case after these answers."""
    text = "case: van\nformat: 1\nvehicle: {label: van}\nentries:\n"
    Path("van.yaml").write_text(text, encoding="utf-8")
    Path("answers.txt").write_text(answers, encoding="utf-8")
    arguments = ["--answers", "answers.txt", "--at", "2031-03-14T09:00+01:00"]
    assert main(["ask", "van.yaml", *arguments, "--language", language]) == code
    return Path("van.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("language", "typed", "point"),
    [
        ("fr", "à l'arrêt", "rest"), ("fr", "moteur arrêté", "rest"), ("fr", "arrêt", "rest"),
        ("fr", "au ralenti", "idle"), ("fr", "2 500 tr/min", "2500"), ("fr", "2500", "2500"),
        ("fr", "accélération", "pull"), ("fr", "rest", "rest"), ("fr", "nuit", "cold-soak"),
        ("en", "at rest", "rest"), ("en", "night", "cold-soak"), ("en", "firm pull", "pull"),
    ],
)  # fmt: skip
def test_the_point_that_is_asked(language: str, typed: str, point: str, capsys: Capture) -> None:
    """A reading without its point: the points in words, and words for the answer."""
    case = asked(f"dp 24 mbar\n{typed}\n", language)
    out = " ".join(capsys.readouterr().out.split())
    assert "[rest]" in out
    assert ("moteur arrêté [rest]" if language == "fr" else "at rest [rest]") in out
    assert f"facts: {{dp@{point}: 24 mbar}}" in case


@pytest.mark.parametrize(
    ("language", "typed"), [("fr", "moteur froid"), ("fr", "à"), ("en", "rpm")]
)
def test_what_is_no_point(language: str, typed: str, capsys: Capture) -> None:
    """What means none of them, or several, is refused with those that there are."""
    case = asked(f"dp 24 mbar\n{typed}\n", language, code=2)
    assert "facts" not in case
    assert "[idle]" in capsys.readouterr().err


@pytest.mark.parametrize(("language", "typed"), [("fr", "oui"), ("en", "yes"), ("fr", "yes")])
def test_yes_takes_the_round_that_is_proposed(language: str, typed: str) -> None:
    """After work: yes is as good as Enter alone."""
    work = {"fr": "intervention", "en": "work"}[language]
    case = asked(f"{work} zero-sensor\n{typed}\ndp@rest 1 mbar\n", language)
    assert "round: after-zero-sensor" in case


@pytest.mark.parametrize(("language", "typed"), [("fr", "non"), ("en", "no")])
def test_no_is_no_name(language: str, typed: str, capsys: Capture) -> None:
    """No is asked again, with what can be typed."""
    work = {"fr": "intervention", "en": "work"}[language]
    case = asked(f"{work} zero-sensor\n{typed}\n", language, code=2)
    assert f"round: {typed}" not in case
    wanted = {"fr": "après-zéro-capteur", "en": "after-zero-sensor"}[language]
    assert wanted in capsys.readouterr().err.rpartition("→")[2]
