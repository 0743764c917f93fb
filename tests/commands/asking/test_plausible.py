"""Possible and hardly true: asked once more, then believed and marked."""

from __future__ import annotations

from tests.commands.asking.support import Talk


def test_a_pressure_that_no_filter_shows() -> None:
    """34 kPa at idle: the physics is said, and the right value can be typed at once."""
    talk = Talk().type("dp@idle 34 kPa")
    assert talk.written == []
    assert "possible, but hardly true" in talk.said
    assert "times what a full filter shows" in talk.said
    talk.type("34 mbar")
    assert talk.value("dp@idle") == 34.0
    assert "note" not in talk.written[-1]


def test_believed_when_confirmed() -> None:
    """Yes is believed, and the entry keeps that it was asked."""
    talk = Talk().type("dp@idle 34 kPa", "yes")
    assert talk.value("dp@idle") == 340.0
    assert "was asked again" in talk.written[-1]


def test_no_writes_nothing() -> None:
    """No leaves the case as it was."""
    talk = Talk().type("dp@idle 34 kPa", "no")
    assert talk.written == []
    assert talk.session.waiting is None


def test_air_of_another_unit() -> None:
    """Grams a second typed as kilograms an hour are noticed by the size of the engine."""
    talk = Talk().type("air@2500 31 kg/h")
    assert "draws about 150 kg/h" in talk.said
    talk.type("31 g/s")
    assert round(float(str(talk.value("air@2500"))), 1) == 111.6


def test_against_other_readings() -> None:
    """With flow and temperature known, the resistance that comes out is what is doubted."""
    talk = Talk(entries="").type(
        "air@2500 60; exhaust-temperature 250; barometer 1013", "dp@2500 420"
    )
    assert "Resistance of the filter comes out as" in talk.said


def test_an_ordinary_value_is_not_doubted() -> None:
    """Full filters and small faults are everyday: nobody is asked twice for them."""
    for line in ("dp@2500 112", "dp@idle 40", "dp@rest 18", "dp@rest -30", "air@2500 90"):
        talk = Talk().type(line)
        assert talk.written, (line, talk.said)


def test_a_slip_among_several_is_the_one_asked_about() -> None:
    """The line waits as a whole; the right value replaces the doubtful one alone."""
    talk = Talk().type("dp@rest 1, dp@idle 34 kPa", "34 mbar")
    assert (talk.value("dp@rest"), talk.value("dp@idle")) == (1.0, 34.0)
