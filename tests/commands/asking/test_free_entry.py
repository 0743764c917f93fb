"""Any fact at any time: by id or by words, with or without unit, several on a line."""

from __future__ import annotations

import pytest

from sootsayer.commands.asking.lexicon import openings, signals_meant, words_of
from sootsayer.rulebook.compiled import load_rulebook, shipped_rules
from tests.commands.asking.support import Talk


@pytest.mark.parametrize(
    ("line", "slot", "value"),
    [
        ("dp@idle 18 hPa", "dp@idle", 18.0),
        ("dp idle 18 hPa", "dp@idle", 18.0),
        ("dp at idle 18 hPa", "dp@idle", 18.0),
        ("dp 18 hPa at idle", "dp@idle", 18.0),
        ("dp=18 hPa at idle", "dp@idle", 18.0),
        ("dp: 18 hPa at idle", "dp@idle", 18.0),
        ("dp@idle 0,9 kPa", "dp@idle", 9.0),
        ("dp@idle -3", "dp@idle", -3.0),
        ("dp 2500 59", "dp@2500", 59.0),
        ("dp 59 at 2,500 rpm", "dp@2500", 59.0),
        ("air 480 mg/st at 2500", "air@2500", 144.0),
        ("differential pressure at rest 1", "dp@rest", 1.0),
        ("filter dP at rest 1", "dp@rest", 1.0),
        ("exhaust temperature 200", "exhaust-temperature@2500", 200.0),
        ("oil level between marks", "oil-level", "between marks"),
        ("Oil Level Low", "oil-level", "low"),
        ("oil above max", "oil-level", "above max"),
        ("trip 6 km", "trip-length", 6.0),
        ("trip-length 4 mi", "trip-length", 6.437376),
        ("fire-signs no", "fire-signs", False),
        ("power lost sudden", "power-loss", "sudden"),
        ("hose look do not know", "hose-look", "do not know"),
        ("dp@2500 cannot: no tool", "dp@2500", "cannot"),
        ("aborted 3", "aborted-burns", 3.0),
        ("hose-look not fitted", "hose-look", "not fitted"),
    ],
)
def test_one_fact(line: str, slot: str, value: object) -> None:
    """However a fact is named and its value written, it is the same fact."""
    talk = Talk().type(line)
    assert talk.reply.taken, talk.said
    expected = pytest.approx(value) if isinstance(value, float) else value
    assert talk.value(slot) == expected
    assert len(talk.written) == 1


def test_several_on_a_line() -> None:
    """Semicolons, commas or nothing between facts; the comma in 0,9 is none of them."""
    talk = Talk().type("dp@idle 0,9 kPa, air 480 mg/st at 2500; oil level low")
    assert [talk.value(s) for s in ("dp@idle", "oil-level")] == [9.0, "low"]
    assert talk.value("air@2500") == pytest.approx(144.0)
    talk = Talk().type("dp@rest 1 dp@idle 24")
    assert [talk.value(s) for s in ("dp@rest", "dp@idle")] == [1.0, 24.0]


def test_one_wrong_of_several_writes_nothing() -> None:
    """A line is taken whole or not at all, and the wrong part is named."""
    talk = Talk().type("dp@idle 24; oil level full")
    assert not talk.reply.taken
    assert talk.written == []
    assert '"full" is none of its words' in talk.said


def test_a_short_answer_is_no_name() -> None:
    """`no` is an answer, and not taken for the one in `no. 3` of what an instrument shows."""
    model = load_rulebook([shipped_rules()]).model
    called = [name for each in model.signals.values() for name in (each.label, *each.shown_as)]
    assert any("no" in words_of(name) for name in called)
    assert signals_meant(["no"], model) == []
    assert signals_meant(["dp"], model) != []


@pytest.mark.parametrize("typed", ["air@idle 52", "air at idle 52", "air idle 52", "air: idle 52"])
def test_a_whole_name_with_its_point_is_that(typed: str) -> None:
    """`air@idle` is the air at idle, whatever else has both words in its name."""
    model = load_rulebook([shipped_rules()]).model
    both = [each for each in model.signals.values() if {"air", "idle"} <= {*words_of(each.label)}]
    assert [each for each in both if each.id != "air"]
    tokens = typed.replace("@", " at ").replace(":", "").split()
    (meant, count), *_ = openings(tokens, model)
    assert [each.id for each in meant] == ["air"]
    assert count == 1


@pytest.mark.parametrize("value", ["5", "3.5 mbar", "yes", "do not know"])
def test_every_fact_is_meant_by_its_name(value: str) -> None:
    """What is typed with its whole id or label, and its point, is never taken for another."""
    model = load_rulebook([shipped_rules()]).model
    for signal in model.signals.values():
        if signal.id in model.quantities:
            continue
        for at in [f" at {point}" for point in signal.points] or [""]:
            for name in (signal.id, signal.label):
                (meant, _), *_ = openings(f"{name}{at} {value}".split(), model)
                assert signal.id in [each.id for each in meant], f"{name}{at}"


def test_bare_number_takes_the_unit_last_used() -> None:
    """It is said back, written with its unit and a point, and read the same in any order."""
    talk = Talk().type("dp@rest 0,1 kPa", "dp@idle 2,4")
    assert "dp@idle 2.4 kPa (that is 24 mbar)" in talk.said
    assert "dp@idle: 2.4 kPa" in talk.written[-1]
    assert talk.value("dp@idle") == 24.0
    assert Talk(entries="".join(f"{line}\n" for line in talk.written)).value("dp@idle") == 24.0


def test_bare_number_without_an_earlier_one() -> None:
    """The signal's own unit is taken, and that is said."""
    talk = Talk().type("dp@idle 24")
    assert "dp@idle 24 mbar (taken as mbar)" in talk.said


def test_what_can_be_read_in_two_ways_is_asked() -> None:
    """`1,500` is neither guessed to be one and a half nor one thousand five hundred."""
    talk = Talk().type("engine speed 1,500")
    assert not talk.reply.taken
    assert "two ways" in talk.said
    assert "1500 or 1.5" in talk.said


def test_the_line_waits_for_its_number() -> None:
    """The number alone completes the line that it stood in; anything else is a line of its own."""
    asked = "dp@idle 24; engine speed 1,500 rpm"
    assert Talk().type(asked, "1500").value("engine-speed@2500") == 1500.0
    assert Talk().type(asked, "1.5").value("engine-speed@2500") == 1.5
    assert Talk().type(asked, "1,5").value("dp@idle") == 24.0
    other = Talk().type(asked, "no", "1500")
    assert other.value("fire-signs") is False
    assert other.value("engine-speed@2500") is None


def test_thousands_apart() -> None:
    """A blank between thousands, as some write them, is no second number."""
    assert Talk().type("engine speed 2 500 rpm").value("engine-speed@2500") == 2500.0
    assert Talk().type("dp at 2 500 rpm 59").value("dp@2500") == 59.0
    assert Talk().type("trip-length 1,200").reply.taken is False
    assert Talk().type("codes P2463 complete, 1 500 km").written == []


def test_the_point_is_asked_where_it_is_not_said() -> None:
    """A reading without its point is kept until the point is told, and then written."""
    talk = Talk().type("dp 18 hPa")
    assert talk.written == []
    assert "read at which point? at rest [rest], at idle [idle]" in talk.said
    talk.type("nowhere")
    assert not talk.reply.taken
    talk.type("at idle")
    assert talk.value("dp@idle") == 18.0


def test_air_per_stroke_waits_for_its_point() -> None:
    """Per stroke means something only at a known speed, so the point is asked, not the unit."""
    talk = Talk().type("air 480 mg/st", "2500")
    assert talk.value("air@2500") == pytest.approx(144.0)


def test_near_misses_are_suggested() -> None:
    """A slip of the finger is met with what was meant."""
    talk = Talk().type("oil-levle low")
    assert not talk.reply.taken
    assert "oil-level" in talk.said


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("dp@idle 2000", "lies between -100 and 1000 mbar"),
        ("dp@idle 4 V", "V cannot be turned into mbar"),
        ("dp@pull 40", "dp"),
        ("trip-length 20-30 km", "range"),
        ("trip-length <5", "bound"),
    ],
)
def test_the_impossible_is_refused(line: str, says: str) -> None:
    """With the range, or with what would be right; nothing is written."""
    talk = Talk().type(line)
    assert not talk.reply.taken
    assert talk.written == []
    assert says in talk.said


def test_a_source_may_be_named() -> None:
    """A gauge is not the vehicle's sensor, and the entry says whose reading it is."""
    talk = Talk().type("gauge: dp@2500 59 mbar")
    assert "source: gauge" in talk.written[0]
    talk.type("dp@2500 61 mbar")  # another source: no correction of the gauge
    assert "source: scan" in talk.written[1]
    assert talk.value("dp@2500") == 59.0


def test_the_account_is_the_customers() -> None:
    """What is asked of the customer is written as said by the customer; a look is not."""
    talk = Talk().type("trip-length 6 km", "oil-level low", "dp@rest 1")
    assert "source: customer" in talk.written[0]
    assert "source" not in talk.written[1]
    assert "source: scan" in talk.written[2]
