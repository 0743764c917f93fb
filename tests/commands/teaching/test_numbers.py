"""Typed numbers and names: what is understood, and what is asked again."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.catalogue import speaking
from sootsayer.commands.teaching.draft import Chosen, Counts, Draft
from sootsayer.commands.teaching.finding_things import near
from sootsayer.commands.teaching.numbers import (
    counts,
    example,
    how_often,
    minutes,
    possible_range,
)
from sootsayer.commands.teaching.pack_text import pack_text, slug
from sootsayer.commands.teaching.talk import NotTaken
from sootsayer.engine.conditions import Op
from sootsayer.learning.checked import check_rulebook
from sootsayer.rulebook.compiled import read_rulebook
from sootsayer.rulebook.model import SignalKind
from tests.french import FRENCH
from tests.rulebook.review.small import small

DP = Chosen("dp", "Pressure", SignalKind.NUMBER, "mbar", 1.0, (0.0, 100.0), pack="small")


@pytest.mark.parametrize(
    ("typed", "op", "numbers"),
    [
        ("above 12", Op.ABOVE, (12,)),
        ("over 1,2 kPa", Op.ABOVE, (12,)),
        ("At least 5 mbar", Op.AT_LEAST, (5,)),
        ("from 5", Op.AT_LEAST, (5,)),
        ("below 40 hPa", Op.BELOW, (40,)),
        ("up to 3", Op.AT_MOST, (3,)),
        ("between 3 and 6", Op.BETWEEN, (3, 6)),
        ("between 1 and 2 kPa", Op.BETWEEN, (10, 20)),
        ("outside 3 to 6", Op.OUTSIDE, (3, 6)),
        ("> 7", Op.ABOVE, (7,)),
        (">= 7", Op.AT_LEAST, (7,)),
    ],
)
def test_from_what_value(typed: str, op: Op, numbers: tuple[float, ...]) -> None:
    """Plain words, any unit of the kind, comma or point."""
    found = counts(typed, DP)
    assert found.op is op
    assert found.numbers == pytest.approx(numbers)


@pytest.mark.parametrize(
    "typed",
    ["12", "about 12", "above", "above x", "above 12 kg", "above 300", "at least 0", "below 0",
     "between 6 and 3", "between 3", "above nan", "above 1e400"],
)  # fmt: skip
def test_what_no_value_is(typed: str) -> None:
    """What says no comparison, lies outside what is possible, or divides nothing is asked again."""
    with pytest.raises(NotTaken):
        counts(typed, DP)


@pytest.mark.parametrize(
    ("typed", "written", "share"),
    [("often", "often", 0.6), ("Rarely", "rarely", 0.08), ("7 of 9", "7 of 9", 7 / 9),
     ("70 %", "0.7", 0.7), ("0,25", "0.25", 0.25), ("1 in 20", "1 of 20", 0.05)],
)  # fmt: skip
def test_how_often(typed: str, written: str, share: float) -> None:
    """Words of the table, counted, per cent, or a number."""
    found, number = how_often(typed)
    assert found == written
    assert number == pytest.approx(share)


@pytest.mark.parametrize("typed", ["9 of 9", "0 of 9", "1 of 0", "100 %", "0", "maybe", "2", "nan"])
def test_how_often_not(typed: str) -> None:
    """What leaves no room for doubt, or says nothing, is asked again."""
    with pytest.raises(NotTaken):
        how_often(typed)


def test_typed_in_french() -> None:
    """The French words for from what value, how often and how far, beside the English ones."""
    with speaking("fr", FRENCH):
        assert counts("au-dessus de 1,2 kPa", DP).numbers == pytest.approx((12,))
        assert counts("Plus de 7", DP).op is Op.ABOVE
        assert counts("entre 3 et 6 mbar", DP).numbers == (3, 6)
        assert counts("at least 5", DP).op is Op.AT_LEAST
        assert how_often("souvent") == ("often", 0.6)
        assert how_often("d’habitude")[0] == "usually"
        assert how_often("7 sur 9")[0] == "7 of 9"
        assert how_often("0,25") == ("0.25", 0.25)
        assert possible_range("0 à 2 000 mbar") == ((0, 2000), "mbar")
        assert example(DP) == "10\u00a0mbar"


@pytest.mark.parametrize(("typed", "value"), [("5", 5), ("7,5 min", 7.5), ("10 or so", 10),
                                              ("0,5 h", 30), ("soon", 0)])  # fmt: skip
def test_minutes(typed: str, value: float) -> None:
    """A number of minutes, or another time; what is none is told so by its caller."""
    assert minutes(typed) == pytest.approx(value)


@pytest.mark.parametrize(
    ("read", "typed"),
    [
        (minutes, "1,500"),
        (minutes, "1,500 min"),
        (how_often, "1,500 %"),
        (how_often, "1,500"),
        (possible_range, "0 to 1,500 mbar"),
        (lambda typed: counts(typed, DP), "above 1,500"),
    ],
)
def test_one_comma_and_three_digits_are_asked(read: Callable[[str], object], typed: str) -> None:
    """Neither one and a half nor fifteen hundred is guessed, whatever the number is for."""
    with pytest.raises(NotTaken) as asked:
        read(typed)
    assert "1500 or 1.5" in asked.value.instead


def test_ranges_and_names() -> None:
    """A range with a unit; an id made of a sentence; the best names first."""
    assert possible_range("0 to 200 mbar") == ((0, 200), "mbar")
    assert possible_range("-5 to 20") == ((-5, 20), "")
    for wrong in ("200", "5 to 3", "0 to 10 elephants"):
        with pytest.raises(NotTaken):
            possible_range(wrong)
    assert slug("There is soot at the clamp of the front hose") == "shop-soot-clamp-front-hose"
    assert slug("排气") == "shop-rule"
    labels = {"a": "Front hose leaks", "b": "Hose of the pump", "c": "Soot"}
    assert near("front hose", labels) == ["a", "b"]
    assert near("leaking", labels) == ["a"]
    assert near("b", labels) == ["b"]
    assert near("zzz", labels) == []


OPS = [Op.ABOVE, Op.AT_LEAST, Op.BELOW, Op.AT_MOST, Op.BETWEEN, Op.OUTSIDE]


@settings(deadline=None, max_examples=40)
@given(st.sampled_from(OPS), st.integers(0, 100), st.integers(1, 100))
def test_every_threshold_is_proven(
    tmp_path_factory: pytest.TempPathFactory, op: Op, low: int, width: int
) -> None:
    """Whatever the threshold, the proofs made show true, false and unknown, and come out."""
    high = low + width
    numbers = (float(low), float(high)) if op in (Op.BETWEEN, Op.OUTSIDE) else (float(low),)
    if high > 100 or not _divides(Counts(op, numbers)):
        return
    folder = tmp_path_factory.mktemp("proven")
    (folder / "small.yaml").write_text(small(), encoding="utf-8")
    draft = Draft(
        says="It is so", fact=DP, counts=Counts(op, numbers), otherwise="rarely", basis="memory",
        name="shop-so", apart="a test",
    )  # fmt: skip
    text = pack_text(draft, read_rulebook([folder]).model)
    (folder / "shop-so.yaml").write_text(text, encoding="utf-8")
    errors = [each for each in check_rulebook([folder]).remarks if each.weight.value == "error"]
    assert [each.problem.what for each in errors] == []


def _divides(asked: Counts) -> bool:
    return len({asked.holds(float(value)) for value in range(101)}) == 2
