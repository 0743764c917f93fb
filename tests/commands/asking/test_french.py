"""A session in French: what is typed and shown is French, what is written is the same as ever."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from sootsayer.catalogue import speaking
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.words import Translation, Words, texts_of, translated
from tests.commands.asking import support
from tests.commands.asking.run import environment
from tests.commands.asking.support import HEADER, Talk
from tests.french import FRENCH

SAID = {
    ("dp", "label"): "Pression différentielle sur le filtre",
    ("air", "label"): "Air aspiré par le moteur",
    ("oil-level", "label"): "Niveau d'huile",
    ("oil-level", "word low"): "bas",
    ("oil-level", "word between marks"): "entre les repères",
    ("oil-level", "word above max"): "au-dessus du maxi",
    ("power-loss", "label"): "Allure de la perte de puissance",
    ("power-loss", "word none"): "aucune",
    ("power-loss", "word gradual"): "progressive",
    ("power-loss", "word sudden"): "brutale",
    ("hose-look", "label"): "Aspect des durites prélevées",
    ("trip-length", "label"): "Longueur habituelle d'un trajet",
    ("engine-speed", "label"): "Régime moteur",
    ("@idle", "label"): "au ralenti",
    ("@2500", "label"): "à 2\u00a0500\u00a0tr/min",
}
POWER = ("non", "bas")  # answers after which the question is how power was lost


@cache
def french() -> Rulebook:
    rulebook = support.rulebook()
    texts = texts_of(rulebook.model)
    translations = tuple(
        Translation(id_, field, texts[id_, field].digest, said, "little", texts[id_, field].place)
        for (id_, field), said in SAID.items()
    )
    return replace(rulebook, model=translated(rulebook.model, Words("fr", translations)))


@pytest.fixture(autouse=True)
def in_french(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    rulebook = french()
    monkeypatch.setattr(support, "rulebook", lambda: rulebook)
    with speaking("fr", FRENCH):
        yield


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("progressive", "gradual"),
        ("PROG", "gradual"),
        ("gradual", "gradual"),
        ("2", "gradual"),
        ("aucune", "none"),
        ("none", "none"),
        ("ne sait pas", "do not know"),
        ("dk", "do not know"),
        ("impossible : pas d'outil", "cannot"),
    ],
)
def test_an_answer_is_written_by_its_id(typed: str, value: object) -> None:
    """The French word, its beginning, the English id and every honest way of not knowing."""
    talk = Talk().type(*POWER)
    assert talk.session.question is not None
    assert talk.session.question.slot == "power-loss"
    talk.type(typed)
    assert talk.value("power-loss") == value
    assert "progressive" not in talk.written[-1]


def test_words_are_shown() -> None:
    """The choices of a question, and what was written, in French; the entry has the id."""
    talk = Talk().type("non")
    assert "1 bas 2 entre les repères 3 au-dessus du maxi" in talk.said
    talk.type("au-dessus")
    assert "oil-level au-dessus du maxi : écrit, entrée 2." in talk.said
    assert "oil-level: above max" in talk.written[-1]


@pytest.mark.parametrize(
    ("line", "slot", "value"),
    [
        ("pression différentielle 18,5 mbar au ralenti", "dp@idle", 18.5),
        ("PRESSION DIFFERENTIELLE au ralenti : 18,5 hPa", "dp@idle", 18.5),
        ("pression différentielle à 2 500 tr/min 59 mbar", "dp@2500", 59.0),
        ("dp à 2500 59", "dp@2500", 59.0),
        ("manomètre : dp@2500 59 mbar", "dp@2500", 59.0),
        ("dp@2500 = 59,25", "dp@2500", 59.25),
        ("aspect des durites prelevees split", "hose-look", "split"),
        ("prél split", "hose-look", "split"),
        ("niveau d'huile entre les repères", "oil-level", "between marks"),
        ("niveau huile bas", "oil-level", "low"),
        ("trajet 1 200 km", "trip-length", 1200.0),
        ("longueur d’un trajet 1\u202f200,5", "trip-length", 1200.5),
        ("régime moteur 2 500 tr/min", "engine-speed@2500", 2500.0),
        ("oil level low", "oil-level", "low"),
    ],
)
def test_facts_by_french_words(line: str, slot: str, value: object) -> None:
    """By words of the label, accents or none, with the point, source and number said in French."""
    talk = Talk().type(line)
    assert talk.reply.taken, talk.said
    assert talk.value(slot) == value


def test_the_gauge_is_the_gauge() -> None:
    """The source is written by its id."""
    assert "source: gauge" in Talk().type("mano dp@2500 59 mbar").written[-1]


def test_commands() -> None:
    """The round by its French name, an answer taken back, and the end."""
    talk = Talk().type("série après-nettoyage")
    assert talk.session.round == "after-clean"
    talk.type("série Apres Nettoyage", "dp@idle 24", "oublier dp@idle")
    assert talk.value("dp@idle") is None
    assert "none: {dp@idle: not asked}" in talk.written[-1]
    talk.type("dp@idle 2 400 Pa", "réponses")
    assert "dp@idle 2 400 Pa" in talk.said
    assert talk.type("fini").reply.ended


def test_facts_are_found_by_a_french_word() -> None:
    """`faits` with a word of a label, accents or none, lists the names to enter it by."""
    assert "hose-look" in Talk().type("faits prelevees").said
    assert "hose-look" not in Talk().type("faits pression").said


def test_numbers_come_back_in_french() -> None:
    """Written with a point and its unit, said with a comma and in French."""
    talk = Talk().type("dp@rest 0,1 kPa", "dp@idle 2,4")
    assert "dp@idle: 2.4 kPa" in talk.written[-1]
    assert "dp@idle 2,4 kPa" in talk.said
    talk = Talk().type("régime moteur 2 500")
    assert "engine-speed@2500: 2500 rpm" in talk.written[-1]
    assert "2 500 tr/min" in talk.said


def test_a_line_waits_for_its_number() -> None:
    """`1,500` is asked, and the answer completes the line that it stood in."""
    talk = Talk().type("dp@idle 24; régime moteur 1,500 tr/min")
    assert not talk.reply.taken
    assert "1,5" in talk.said
    assert talk.written == []
    talk.type("1 500")
    assert talk.value("engine-speed@2500") == 1500.0
    assert talk.value("dp@idle") == 24.0
    talk = Talk().type("trajet 1,500 km", "1,5")
    assert talk.value("trip-length") == 1.5


def test_codes() -> None:
    """A list of trouble codes, with all that belongs to it, in one French line."""
    talk = Talk().type(
        "codes P2463 complet, moniteurs n'ont pas tourné, 1 500 km, 12 mises en température"
    )
    assert "P2463" in talk.written[-1]
    assert "read: complete" in talk.written[-1]
    assert "1500" in talk.written[-1]
    assert "12" in talk.written[-1]


def test_what_is_written_is_the_same_in_both_languages(monkeypatch: pytest.MonkeyPatch) -> None:
    """The entries of one visit, typed in French and in English: the same bytes."""
    lines = [
        ("non", "no"),
        ("bas", "low"),
        ("progressive", "gradual"),
        ("trajet 6,5 km", "trip-length 6.5 km"),
        ("pression différentielle 0,9 kPa au ralenti", "dp@idle 0.9 kPa"),
        ("manomètre : dp@2500 59", "gauge: dp@2500 59"),
        ("codes P2463 partiel", "codes P2463 partly"),
        ("ne sait pas", "do not know"),
    ]
    in_french = Talk().type(*(line for line, _ in lines)).written
    monkeypatch.undo()
    with speaking("en"):
        in_english = Talk().type(*(line for _, line in lines)).written
    assert in_french == in_english


def test_a_file_of_answers_refuses_what_can_be_read_in_two_ways(tmp_path: Path) -> None:
    """There is nobody to ask: both ways to write it are told, with the line of the file."""
    import subprocess
    import sys

    (tmp_path / "van.yaml").write_text(HEADER, encoding="utf-8")
    (tmp_path / "answers.txt").write_text("no\ntrip-length 1,500 km\n1500\n", encoding="utf-8")
    command = [sys.executable, "-m", "tests.commands.asking.run", "ask", "van.yaml"]
    done = subprocess.run(
        [*command, "--answers", "answers.txt"], cwd=tmp_path, env=environment(),
        capture_output=True, text=True, check=False, encoding="utf-8",
    )  # fmt: skip
    assert done.returncode == 2
    assert 'answers.txt:2: this answer was not taken: "1,500 km" can be read in two ways' in (
        done.stderr
    )
    assert "write 1500 or 1.5" in done.stderr
    assert "trip-length" not in (tmp_path / "van.yaml").read_text(encoding="utf-8")
