"""The way through a session: what is asked when, what stops it, what is told after each answer."""

from __future__ import annotations

from datetime import timedelta

from tests.commands.asking.support import Talk, session


def slot(talk: Talk) -> str | None:
    return None if talk.session.question is None else talk.session.question.slot


def answered_through(talk: Talk) -> list[str]:
    """Answers every question with `do not know`; what was asked, in order."""
    asked: list[str] = []
    for _ in range(40):
        question = talk.session.question
        if question is None:
            break
        asked.append(question.slot)
        talk.type("do not know")
    return asked


def test_the_opening_comes_first_and_in_groups() -> None:
    """Whether it may be driven, then the account, each group led into by its words."""
    talk = Talk()
    assert "First, whether it may be driven:" in talk.said
    asked = []
    for answer in ("no", "low", "gradual", "6"):
        asked.append(slot(talk))
        talk.type(answer)
        if len(asked) == 2:
            assert "How it came about:" in talk.said
    assert asked == ["fire-signs", "oil-level", "power-loss", "trip-length"]


def test_what_forbids_driving_does_so_at_once() -> None:
    """One answer is enough: the session stops, says why, with its caution, and asks nothing."""
    talk = Talk().type("yes")
    assert "Stop here. No: it is not to be driven and not to be started." in talk.said
    assert "Something burns underneath" in talk.said
    assert "Caution: Gently, and never over dry grass" in talk.said
    assert talk.session.held == "danger"
    assert slot(talk) is None
    assert talk.prompt == "fact or command > "


def test_going_on_after_a_danger() -> None:
    """The technician leads: go on asks again, and the same danger stops it only once."""
    talk = Talk().type("yes", "go on")
    assert slot(talk) == "oil-level"
    talk.type("low")
    assert slot(talk) == "power-loss"


def test_may_be_driven_once_all_that_forbids_is_answered() -> None:
    """After the last question that could forbid it the answer is there, before any reading."""
    talk = Talk().type("no")
    assert "May it be driven" not in talk.said
    talk.type("low")
    assert "May it be driven? Nothing entered forbids it; the technician decides." in talk.said


def test_each_answer_says_where_it_leads() -> None:
    """One line: the leading fault of each kind, its confidence, and which way it moved."""
    talk = Talk().type("no", "low", "none", "trip-length 6 km")
    assert "Cause: Short trips" in talk.said
    assert "(was none)" in talk.said
    talk.type("codes P2463 all, monitors run")
    assert "Filter: Filter overloaded with soot" in talk.said
    assert "Short trips" in talk.said
    assert " up" in talk.said


def test_what_is_forbidden_is_not_proposed() -> None:
    """With the oil above the maximum no check that runs the engine is asked for."""
    talk = Talk().type("no", "above max", "go on")
    asked = answered_through(talk)
    assert "dp@rest" in asked
    assert not {"dp@idle", "dp@2500", "air@2500"} & set(asked)


def test_it_ends_by_itself() -> None:
    """When nothing is worth its minutes that is said with what would be gained, and going on is
    offered."""
    talk = Talk().type("no", "low")
    asked = answered_through(talk)
    assert "aborted-burns" not in asked
    assert talk.session.held == "enough"
    assert "Nothing open is worth its minutes any more" in talk.said
    assert "bit in 2 min: Read how many regenerations were aborted" in talk.said
    talk.type("go on")
    assert slot(talk) == "aborted-burns"


def test_done_ends_it() -> None:
    """The technician ends it at any moment, also while something is asked about a value."""
    assert Talk().type("done").reply.ended
    assert Talk().type("no", "quit").reply.ended
    talk = Talk().type("dp@idle 34 kPa", "quit")
    assert talk.reply.ended
    assert talk.written == []


def test_resuming_is_going_on() -> None:
    """A session on what was written asks what the first would have asked next."""
    talk = Talk().type("no", "low", "gradual")
    entries = "".join(f"{line}\n" for line in talk.written)
    assert slot(Talk(entries=entries)) == slot(talk)


def test_what_has_grown_too_old_is_asked_afresh() -> None:
    """Hours later the look underneath counts no longer; the new answer is a new reading."""
    talk = Talk().type("no", "low")
    answered_through(talk)
    entries = "".join(f"{line}\n" for line in talk.written)
    next_day = Talk(entries=entries, now=talk.now + timedelta(hours=5))
    assert slot(next_day) == "fire-signs"
    next_day.type("no")
    assert "corrects" not in next_day.written[-1]
    assert "Nothing entered forbids it" in next_day.said


def test_jumping_to_a_fact_or_a_check() -> None:
    """`go` asks for what is named, by id or by words, and afterwards the way goes on."""
    talk = Talk().type("go look-at-hoses")
    assert slot(talk) == "hose-look"
    talk.type("go dp at idle")
    assert slot(talk) == "dp@idle"
    talk.type("24")
    assert talk.value("dp@idle") == 24.0
    assert slot(talk) == "dp@2500"
    assert not talk.type("go nowhere-at-all").reply.taken


def test_going_for_an_action_asks_what_it_waits_for() -> None:
    """Interlocks come first once work is to be chosen."""
    talk = Talk().type("go run-engine")
    assert slot(talk) == "oil-level"
    talk.type("low", "go run-engine")
    assert "Nothing entered forbids it" in talk.said or "clear" in talk.said


def test_work_begins_a_new_round() -> None:
    """Work is written, the readings that verify it are asked next, in a round of their own."""
    talk = Talk().type("no", "low", "dp@rest 18", "work zero-sensor")
    assert "work: zero-sensor" in talk.written[-1]
    assert "To be read again after this work, like for like: dp@rest" in talk.said
    talk.type("")
    assert talk.session.round == "after-zero-sensor"
    assert slot(talk) == "dp@rest"
    talk.type("1")
    assert "round: after-zero-sensor" in talk.written[-1]
    assert session("".join(f"{w}\n" for w in talk.written)).round == "after-zero-sensor"


def test_work_that_is_none() -> None:
    """Only a remedy of the rulebook is work; what is near is suggested."""
    talk = Talk().type("work zero-sensr")
    assert not talk.reply.taken
    assert "zero-sensor" in talk.said


def test_a_round_by_name() -> None:
    """The name may be typed with spaces; what is no name is refused."""
    assert Talk().type("round after road run").session.round == "after-road-run"
    assert not Talk().type("round §§§").reply.taken


def test_fixed_order() -> None:
    """With --fixed the customary order is walked."""
    talk = Talk(fixed=True)
    asked = answered_through(talk)
    assert asked[:6] == [
        "fire-signs", "oil-level", "power-loss", "trip-length", "codes", "aborted-burns",
    ]  # fmt: skip


def test_views_change_nothing() -> None:
    """What only shows writes nothing and leaves the question open."""
    talk = Talk().type("no", "low")
    before = (talk.session.question, len(talk.written))
    for line in ("?", "??", "help", "show", "more", "answers", "open", "facts", "sheet", "round"):
        talk.type(line)
        assert talk.reply.says, line
        assert (talk.session.question, len(talk.written)) == before, line
    talk.type("why soot-overload", "? dp@idle", "? look-at-hoses")
    assert (talk.session.question, len(talk.written)) == before


def test_the_question_explained() -> None:
    """`?` has what to do, the caution, how the point is reached and how the signal is read."""
    talk = Talk().type("? dp@2500")
    for part in ("Caution: Exhaust parts reach 300", "vehicle held", "Write it as shown"):
        assert part in talk.said


def test_a_picture_where_a_hose_is_meant() -> None:
    """Hoses and ports are drawn, in plain characters, narrow enough for 50 columns."""
    talk = Talk().type("? hose-look")
    assert "filter" in talk.said
    assert "====" in talk.said


def test_entering_the_sheet_in_its_order() -> None:
    """What was written on the walk sheet goes in one after another."""
    from sootsayer.commands.asking.sheet import sheet_slots

    talk = Talk().type("no", "low")
    order = sheet_slots(talk.session)
    talk.type("enter sheet")
    asked = []
    for _ in order:
        asked.append(slot(talk))
        talk.type("dk")
    assert tuple(asked) == order


def test_facts_can_be_looked_for_by_a_word() -> None:
    """`facts WORD` shows the names that hold it and no others; a word that none holds is told."""
    talk = Talk()

    def told(typed: str) -> list[str]:
        return [str(line.text) for line in talk.type(typed).reply.says]

    every, some = told("facts"), told("facts oil")
    assert 1 < len(some) < len(every)
    names = [line for line in some if line.startswith("oil")]
    assert names
    assert set(some) <= set(every)
    assert any('has "zzzz" in it' in line for line in told("facts zzzz"))
