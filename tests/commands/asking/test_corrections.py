"""Back, change, forget, read again: corrections are appended, and what they changed is shown."""

from __future__ import annotations

from tests.commands.asking.support import Talk


def test_back_asks_the_last_answer_again() -> None:
    """The prompt shows what stands; the new answer corrects it."""
    talk = Talk().type("no", "low", "back")
    assert talk.prompt == "oil-level, was low > "
    talk.type("above max")
    assert "corrects: 2" in talk.written[-1]
    assert "oil-level above max in place of low: entry 3 corrects entry 2" in talk.said
    assert talk.value("oil-level") == "above max"


def test_back_twice_goes_further_back() -> None:
    """Each `back` is one answer earlier; Enter alone leaves it as it stands."""
    talk = Talk().type("no", "low", "gradual", "back", "back")
    assert talk.prompt == "oil-level, was low > "
    talk.type("")
    assert len(talk.written) == 3
    assert talk.session.question is not None
    assert talk.session.question.slot == "trip-length"


def test_back_before_the_first_answer() -> None:
    """There is nothing to go back to, and that is said."""
    talk = Talk().type("back")
    assert not talk.reply.taken
    assert "no earlier answer" in talk.said


def test_back_after_a_resumed_session() -> None:
    """The newest answer of the case can be corrected by whoever goes on with it."""
    entries = "".join(f"{line}\n" for line in Talk().type("no", "low").written)
    assert Talk(entries=entries).type("back").prompt == "oil-level, was low > "


def test_change_shows_before_and_after() -> None:
    """Leading faults and permissions that a correction changed are told, both ways."""
    talk = Talk().type("no", "low", "change oil-level above max")
    assert "What this changed:" in talk.said
    assert "not to be started" in talk.said
    talk.type("change oil-level between marks")
    assert "Nothing entered forbids it" in talk.said


def test_change_keeps_source_and_time() -> None:
    """A slip put right is no fresh reading: the entry names what it corrects, and nothing else."""
    talk = Talk().type("gauge: dp@2500 59", "change dp@2500 69 mbar")
    assert "source" not in talk.written[-1]
    assert "round" not in talk.written[-1]
    assert talk.value("dp@2500") == 69.0


def test_a_value_that_stands_is_asked_about() -> None:
    """The same fact typed anew may be a slip put right, or a second reading."""
    talk = Talk().type("dp@idle 24 mbar", "dp@idle 26")
    assert "slip put right, or was it read again" in talk.said
    assert len(talk.written) == 1
    talk.type("again")
    assert "corrects" not in talk.written[-1]
    assert talk.value("dp@idle") == 26.0
    talk.type("dp@idle 27", "slip")
    assert "corrects: 2" in talk.written[-1]
    talk.type("dp@idle 28", "never mind")
    assert talk.value("dp@idle") == 27.0


def test_again_needs_no_question() -> None:
    """`again` says at once that it was read once more."""
    talk = Talk().type("dp@idle 24 mbar", "again dp@idle 26")
    assert talk.value("dp@idle") == 26.0
    assert "corrects" not in talk.written[-1]


def test_a_value_after_do_not_know_is_new() -> None:
    """Learning what was not known corrects nothing."""
    talk = Talk().type("dp@idle dk", "dp@idle 24")
    assert "corrects" not in talk.written[-1]
    assert talk.value("dp@idle") == 24.0


def test_forget_equals_never_having_said_it() -> None:
    """The answer is taken back, what rested on it is as before, and it is asked again."""
    talk = Talk().type("no")
    before = talk.session.verdict
    talk.type("oil-level above max", "forget oil-level")
    after = talk.session.verdict
    assert "taken back" in talk.said
    assert (before.faults, before.drive_on.state) == (after.faults, after.drive_on.state)
    assert talk.value("oil-level") is None


def test_change_of_what_was_never_said() -> None:
    """There is nothing to correct; the way to enter it is told."""
    talk = Talk().type("change dp@idle 24")
    assert not talk.reply.taken
    assert "has no answer to change" in talk.said


def test_change_of_the_customers_words() -> None:
    """A correction of the account is still the customer's account."""
    talk = Talk().type("trip-length 6 km", "change trip-length 60 km")
    assert talk.session.case.entries[-1].source.value == "customer"
    assert talk.value("trip-length") == 60.0
