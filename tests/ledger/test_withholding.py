"""Names, plates and chassis numbers never enter a record."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sootsayer.casework.no_entries import parse_case
from sootsayer.casework.people import Person
from sootsayer.documents.nodes import plain
from sootsayer.documents.problems import Refused
from sootsayer.ledger.withholding import (
    blanked,
    patterns_of,
    withhold,
    without_people,
)

JO = Person("Jo Winterbottom", "AB12 CDE", "WXY12345678901234")
OWN = patterns_of(JO)
HEAD = "case: x\nformat: 1\nvehicle: {label: 2.0 L panel van}\nentries:\n"


def cleaned(text: str) -> str:
    return withhold(text.encode(), "x.yaml", OWN).text.decode()


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Jo Winterbottom called", "(name) called"),
        ("JO  WINTERBOTTOM called", "(name) called"),
        ("winterbottom's brother", "(name)'s brother"),
        ("plate AB12CDE, ab12-cde, AB 12 CDE", "plate (plate), (plate), (plate)"),
        ("VIN WXY 12345678901234.", "VIN (chassis number)."),
        ("ends in 901234", "ends in (chassis number)"),
        ("another one: 1M8GDM9AXKP042788", "another one: (chassis number)"),
        ("the pressure sensor, 18 hPa", "the pressure sensor, 18 hPa"),
        ("part 12345678901234567", "part 12345678901234567"),
    ],
)
def test_what_names_somebody_is_replaced(text: str, found: str) -> None:
    """As it is written or otherwise: capitals, spaces, dashes; a chassis number even of nobody
    who is known. What only looks alike stays."""
    assert without_people(text, OWN)[0] == found


def test_a_case_keeps_its_lines_and_its_readings() -> None:
    """Notes, story, label and comments are cleaned; lines and readings are where they were."""
    text = (
        '# Jo Winterbottom\'s van\ncase: x\nformat: 1\nstory: "Winterbottom: lamp on"\n'
        "vehicle: {label: van AB12CDE}\nentries:\n"
        "- {at: 2031-03-14T09:00Z, by: tech-1, note: ask Jo Winterbottom, then go}  # AB12 CDE\n"
        "- {at: 2031-03-14T09:01Z, by: tech-1, round: arrival, facts: {dp@rest: 18 hPa}}\n"
    ).replace("note: ask Jo Winterbottom, then go", 'note: "ask Jo Winterbottom, then go"')
    kept = withhold(text.encode(), "x.yaml", OWN)
    told = kept.text.decode()
    assert "interbottom" not in told
    assert "AB12" not in told
    assert kept.times == 5
    assert told.count("\n") == text.count("\n")
    was, is_ = (plain(parse_case(t.encode(), "x").root) for t in (text, told))
    assert isinstance(was, dict)
    assert isinstance(is_, dict)
    assert is_["entries"][1] == was["entries"][1]
    assert is_["entries"][0]["note"] == "ask (name), then go"
    assert is_["story"] == "(name): lamp on"


def test_without_people_a_case_is_kept_as_it_is() -> None:
    """Not a byte is changed where nobody is named, comments and quotes included."""
    text = HEAD + "- {at: 2031-03-14T09:00Z, by: tech-1, note: 'it''s: \"x\"'} # why: é\n"
    assert cleaned(text) == text


@pytest.mark.parametrize(
    "line",
    [
        "- {at: 2031-03-14T09:00Z, by: jo-winterbottom, note: x}",
        "- {at: 2031-03-14T09:00Z, by: tech-1, work: ab12cde}",
        '- {at: 2031-03-14T09:00Z, by: tech-1, note: "for Jo\n  Winterbottom"}',
    ],
)
def test_an_id_that_names_somebody_is_refused(line: str) -> None:
    """It cannot be replaced, so nothing is kept, and the place is said."""
    with pytest.raises(Refused) as caught:
        cleaned(HEAD + line + "\n")
    assert caught.value.problems[0].place.line == 5


def test_a_word_of_a_name_may_be_a_word_of_the_trade() -> None:
    """A customer called Rest or Idle takes no reading away and refuses no case."""
    patterns = patterns_of(Person("Pat Idle"))
    text = HEAD + "- {at: 2031-03-14T09:00Z, by: tech-1, round: idle, facts: {dp@idle: 3}}\n"
    assert withhold(text.encode(), "x.yaml", patterns).text.decode() == text


def test_other_customers_are_found_by_their_whole_name() -> None:
    """Of people of other cases the name as a whole, plate and chassis number, not each word."""
    patterns = patterns_of(None, [Person("Kim Black", "XX99 YYY", "")])
    assert without_people("black smoke; Kim Black; XX99YYY", patterns)[0] == (
        "black smoke; (name); (plate)"
    )


def test_a_shops_name_is_left_out_and_nothing_else() -> None:
    """shop.yaml is kept without its name: nothing is reckoned with it."""
    text = b"format: 1\nname: Sample Motors\nlimits:\n  x: {value: 3, source: name}\n"
    assert blanked(text, "name") == text.replace(b"Sample Motors", b'"(name)"')


@given(st.text(max_size=30), st.text(max_size=30))
def test_cleaned_twice_is_cleaned_once(one: str, other: str) -> None:
    """Whatever stands around it, nothing personal is left, and nothing is left to do."""
    told, times = without_people(f"{one} Jo Winterbottom {other} AB12 CDE", OWN)
    assert times >= 1
    assert "winterbottom" not in told.casefold()
    assert without_people(told, OWN) == (told, 0)
