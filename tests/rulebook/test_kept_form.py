"""The model as plain data and back: nothing is lost, nothing is guessed."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from enum import Enum
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sootsayer.documents.nodes import Place
from sootsayer.engine import conditions
from sootsayer.engine.conditions import (
    NOT_FITTED,
    All,
    AtLeast,
    Compare,
    Condition,
    Const,
    Known,
    Limit,
    Linear,
    Not,
    OneOf,
    Op,
    Slot,
)
from sootsayer.rulebook import kept_form, model
from sootsayer.rulebook.compiled import load_rulebook, shipped_rules
from sootsayer.rulebook.digests import digests_of
from sootsayer.rulebook.kept_form import read, written
from sootsayer.rulebook.model import Basis, BasisKind, Model, Proof
from tests.rulebook.bad_packs import GOLDEN, SHOP

FILES = ("a.yaml", "b.yaml")


class Colour(Enum):
    RED = "red"


@dataclass(frozen=True, slots=True)
class Holder:
    when: Condition | None
    pair: tuple[float, str]
    place: Place
    basis: Basis
    then: float | str | bool | Colour | None = None
    more: dict[str, tuple[int, ...]] = field(default_factory=dict)
    kin: tuple[Holder, ...] = ()


KINDS: dict[str, Any] = {each.__name__: each for each in (Colour, Holder, Proof, Place)}
KINDS |= {name: each for module in (conditions, model) for name, each in vars(module).items()}


def _again(thing: Any, files: tuple[str, ...] = FILES) -> Any:
    return read(type(thing), json.loads(json.dumps(written(thing, FILES))), files, KINDS)


_NUMBERS = st.floats(allow_nan=False) | st.integers(-5, 5)
_OPERANDS = st.recursive(
    st.builds(Const, _NUMBERS)
    | st.builds(Slot, st.text(max_size=3))
    | st.builds(Limit, st.just("l")),
    lambda inner: st.builds(Linear, inner, inner, inner),
    max_leaves=4,
)
_WORDS = st.lists(st.text(max_size=4) | st.booleans(), max_size=3).map(tuple)
_CONDITIONS = st.recursive(
    st.builds(Compare, st.text(max_size=3), st.sampled_from(Op), st.tuples(_OPERANDS))
    | st.builds(OneOf, st.text(max_size=3), _WORDS)
    | st.builds(Known, st.text(max_size=3)),
    lambda inner: (
        st.builds(Not, inner)
        | st.builds(All, st.lists(inner, max_size=2).map(tuple))
        | st.builds(AtLeast, st.integers(0, 3), st.lists(inner, max_size=2).map(tuple))
    ),
    max_leaves=6,
)
_PLACES = st.builds(Place, st.sampled_from(FILES), st.integers(1, 9), st.integers(1, 9))
_BASES = st.builds(Basis, st.sampled_from(BasisKind), st.text(max_size=2))
_HOLDERS: st.SearchStrategy[Holder] = st.deferred(
    lambda: st.builds(
        Holder,
        st.none() | _CONDITIONS,
        st.tuples(_NUMBERS, st.text(max_size=2)),
        _PLACES,
        _BASES,
        st.none() | st.booleans() | _NUMBERS | st.text(max_size=2) | st.just(Colour.RED),
        st.dictionaries(st.text(max_size=2), st.lists(st.integers(0, 3), max_size=2).map(tuple)),
        st.lists(_HOLDERS, max_size=1).map(tuple),
    )
)


@given(_HOLDERS)
def test_anything_comes_back(thing: Holder) -> None:
    """Every shape that a model is made of comes back the same, to the kind of each number."""
    assert repr(_again(thing)) == repr(thing)


@pytest.mark.parametrize("folders", [[shipped_rules()], [GOLDEN], [GOLDEN, SHOP / "packs"]])
def test_a_model_comes_back(folders: list[Any]) -> None:
    """Model and digests of what we ship and of the pack with one of everything are the same."""
    whole = load_rulebook(folders).model
    files = tuple(str(path) for folder in folders for path in folder.glob("*.yaml"))
    again = read(Model, json.loads(json.dumps(written(whole, files))), files, KINDS)
    assert again == whole
    assert repr(again) == repr(whole)
    assert digests_of(again) == whole.digests


def test_places_move_with_their_files() -> None:
    """What was kept in one folder is right in another."""
    proof = Proof({"a": NOT_FITTED, "b": 1}, True, Place("b.yaml", 3, 4), ("P0001",))
    assert _again(proof, ("x/a.yaml", "x/b.yaml")).place == Place("x/b.yaml", 3, 4)


@pytest.mark.parametrize(
    "proof",
    [
        Proof({"a": object()}, True, Place("a.yaml", 1, 1)),  # type: ignore[dict-item]
        Proof({"a": 1}, b"x", Place("a.yaml", 1, 1)),  # type: ignore[arg-type]
        Proof({"a": 1}, True, Place("elsewhere.yaml", 1, 1)),
        Proof({1: 1}, True, Place("a.yaml", 1, 1)),  # type: ignore[dict-item]
        Proof({"a": 1}, True, Place("a.yaml", 1, 1), ["P0001"]),  # type: ignore[arg-type]
    ],
)
def test_what_has_no_form_is_refused(proof: Proof) -> None:
    """A value that its hint does not allow is never written as something else."""
    with pytest.raises((TypeError, KeyError)):
        written(proof, FILES)


def test_a_small_file_makes_no_million_things(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of all tables together no more things are made than a rulebook can need: a table of any
    size is a line of text."""
    monkeypatch.setattr(kept_form, "MOST", 5)
    columns = [["file", "file", {"all": 0}], ["line", "", {"all": 1}], ["column", "", {"all": 1}]]
    assert read(Place, {"tables": [["Place", 4, columns]]}, FILES, KINDS) == Place(FILES[0], 1, 1)
    with pytest.raises(ValueError, match="nobody has 3"):
        read(Place, {"tables": [["Place", 3, columns]] * 2}, FILES, KINDS)
