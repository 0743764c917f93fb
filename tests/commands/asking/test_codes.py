"""A list of trouble codes, as it is told: completely or partly, with what makes absence count."""

from __future__ import annotations

import pytest

from sootsayer.casework.model import CodeList
from tests.commands.asking.support import Talk


def newest(talk: Talk) -> CodeList:
    codes = talk.session.case.entries[-1].codes
    assert codes is not None
    return codes


def test_all_on_one_line() -> None:
    """Nothing is asked where everything is told."""
    talk = Talk().type("codes p2463, P0401 complete, monitors run")
    codes = newest(talk)
    assert (codes.codes, codes.complete, codes.monitors_run) == (("P0401", "P2463"), True, True)
    assert "list read completely: P0401, P2463" in talk.said


def test_what_is_missing_is_asked() -> None:
    """Completeness, then monitors, then distance and warm-ups, each once."""
    talk = Talk().type("codes none")
    assert "Was all of the list read" in talk.said
    talk.type("yes")
    assert "monitors" in talk.said
    talk.type("do not know")
    assert "How far" in talk.said
    talk.type("420 km")
    assert "warm-ups" in talk.said
    talk.type("15")
    codes = newest(talk)
    assert (codes.codes, codes.complete, codes.monitors_run) == ((), True, None)
    assert (codes.distance_km, codes.warm_ups) == (420.0, 15)


def test_read_partly_asks_nothing_more() -> None:
    """A part of the list tells what is there, never what is not."""
    talk = Talk().type("codes P2463 partly")
    assert newest(talk).complete is False
    assert talk.session.waiting is None


def test_distance_and_warm_ups_on_the_line() -> None:
    """They may be told at once; then only the monitors are asked."""
    talk = Talk().type("codes P2463 all, 420 km since clearing, 15 warm-ups", "dk")
    codes = newest(talk)
    assert (codes.distance_km, codes.warm_ups) == (420.0, 15)


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("codes 2463", "P2463"),
        ("codes P24", "no trouble code"),
        ("codes complete", "no code was named"),
        ("codes P2463 all, 999999999999 warm-ups", "no number of warm-ups"),
    ],
)
def test_what_is_no_list(line: str, says: str) -> None:
    """It is told what is wrong and how a list is typed."""
    talk = Talk().type(line)
    assert not talk.reply.taken
    assert says in talk.said
    assert talk.written == []


def test_codes_are_asked_once() -> None:
    """When the list has been read, or put off twice, it is not asked for again."""
    talk = Talk().type("codes none partly")
    asked = []
    for _ in range(40):
        if talk.session.question is None:
            break
        asked.append(talk.session.question.slot)
        talk.type("dk")
    assert "codes" not in asked


def test_do_not_know_answers_the_question_for_codes() -> None:
    """Where nobody can read them, cannot is an answer: a list of which nothing was read."""
    talk = Talk().type("go codes", "cannot: no tool")
    assert talk.reply.taken, talk.said
    assert talk.session.question is None or talk.session.question.slot != "codes"
