"""Answers to the question that is open: words, numbers of words, and every honest way of not
knowing."""

from __future__ import annotations

import pytest

from tests.commands.asking.support import Talk

POWER = ("no", "low")  # answers after which the question is how power was lost


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("gradual", "gradual"),
        ("GRADUAL", "gradual"),
        ("gr", "gradual"),
        ("2", "gradual"),
        ("do not know", "do not know"),
        ("dk", "do not know"),
        ("cannot", "cannot"),
        ("can't: refused", "cannot"),
        ("no tool", "cannot"),
        ("not fitted", "not fitted"),
    ],
)
def test_every_honest_answer(typed: str, value: object) -> None:
    """Each is written as one entry and acknowledged with its number."""
    talk = Talk().type(*POWER)
    assert talk.session.question is not None
    assert talk.session.question.slot == "power-loss"
    talk.type(typed)
    assert talk.value("power-loss") == value
    assert "written, entry 3" in talk.said


def test_none_is_a_word_where_it_is_a_choice() -> None:
    """`none` answers how power was lost, and is no reason for having no answer."""
    assert Talk().type(*POWER, "none").value("power-loss") == "none"


def test_why_it_cannot_be_had_is_kept() -> None:
    """The reason stands in a note of the same entry, and is said back."""
    talk = Talk().type(*POWER, "cannot: no access")
    assert "no access" in talk.written[-1]
    assert "note:" in talk.written[-1]
    assert "(no access)" in talk.said


def test_cannot_and_do_not_know_are_not_asked_again() -> None:
    """Whoever has said so is not asked a second time, not even after a resumed session."""
    talk = Talk().type(*POWER, "cannot", "dk")
    entries = "".join(f"{line}\n" for line in talk.written)
    again = Talk(entries=entries)
    for one in (talk, again):
        assert one.session.question is not None
        assert one.session.question.slot not in ("power-loss", "trip-length")


def test_later_comes_back_when_the_rest_is_done() -> None:
    """It is put off, nothing is written, and it is the last thing asked."""
    talk = Talk().type(*POWER, "later")
    assert talk.value("power-loss") is None
    seen = _until_held(talk)
    assert seen[-1] == "power-loss"
    assert len(seen) == len(set(seen))


def _until_held(talk: Talk) -> list[str]:
    """Answers everything with `do not know`; which slots were asked, in order."""
    seen: list[str] = []
    for _ in range(60):
        question = talk.session.question
        if question is None:
            if talk.session.past_enough:
                break
            talk.type("go on")
            if talk.session.question is None:
                break
            continue
        seen.append(question.slot)
        if question.slot == "codes":
            talk.type("codes none partly")
        else:
            talk.type("do not know")
    return seen


def test_later_twice_is_not_asked_for_ever() -> None:
    """What is put off again when nothing else is left ends the asking."""
    talk = Talk().type(*POWER)
    for _ in range(80):
        if talk.session.question is None:
            break
        talk.type("later")
    assert talk.session.question is None
    assert talk.session.held == "enough"


def test_all_of_a_check_at_once() -> None:
    """`all cannot: no tool` answers every open fact of the check."""
    talk = Talk().type("go read-dp-running", "all cannot: no tool")
    assert [talk.value(slot) for slot in ("dp@idle", "dp@2500")] == ["cannot", "cannot"]
    assert len(talk.written) == 1


def test_the_question_stays_after_a_slip() -> None:
    """What cannot be used is told with what can, and the same question is open."""
    talk = Talk().type(*POWER, "perhaps")
    assert not talk.reply.taken
    assert "none, gradual, sudden" in talk.said
    assert talk.session.question is not None
    assert talk.session.question.slot == "power-loss"


def test_control_characters_are_taken_out() -> None:
    """An escape sequence typed or pasted reaches neither the file nor the screen."""
    talk = Talk().type(*POWER, "note a\x1b[31mred\u202e")
    assert "\x1b" not in "".join(talk.written)
    assert "\x1b" not in talk.said


def test_a_note_is_kept() -> None:
    """Free text, whatever it holds, is one entry of its own."""
    talk = Talk().type('note hose: "soft", {brittle}')
    assert talk.session.case.entries[-1].note == 'hose: "soft", {brittle}'
