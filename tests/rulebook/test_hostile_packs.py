"""No pack, however broken, brings anything but a rulebook or located problems."""

from __future__ import annotations

import copy
import json
import random
import tempfile
from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.documents.nodes import plain
from sootsayer.documents.problems import Problem, Refused
from sootsayer.documents.yaml_source import read_document
from sootsayer.rulebook.compiled import load_rulebook
from tests.rulebook.bad_packs import GOLDEN, SHOP

DATA = plain(read_document(GOLDEN / "one-of-everything.yaml").root)
ODD: list[Any] = [
    True, -1, 0, 1e300, 10**30, 0.5, "", "none", "true", "dp@", "@", "dp@idle", "restriction",
    "dp-not-zero", "soot-overload", "air-min", "oil-good", "5 mbar", "19 of 20", "0 of 0", "1e5",
    "code:P2463", [], {}, [[]], [{}], {"of": "dp@idle"}, {"all": []}, {"not": {}}, {"known": "dp"},
    {"at least": 2}, {"at least": 1.5, "of": [{"code": "P0000"}]}, {"one of": []}, {"above": "low"},
    {"low": 1, "normal": 90, "raised": 9}, {"low": 1e308, "normal": 1e308, "raised": 0.01},
    "\u202e", {"between": [1, 2, 3]},
    {"above": {"of": {"of": "dp@rest", "times": "air@idle"}, "plus": "dp"}},
]  # fmt: skip


def broken(data: Any, chance: random.Random) -> Any:
    """The pack with a few of its parts swapped, dropped, renamed or replaced."""
    data = copy.deepcopy(data)
    for _ in range(chance.randint(1, 4)):
        holder, key = _somewhere(data, chance)
        act = chance.random()
        if act < 0.5:
            holder[key] = copy.deepcopy(chance.choice(ODD))
        elif act < 0.7:
            del holder[key]
        elif act < 0.85:
            other, place = _somewhere(data, chance)
            holder[key] = copy.deepcopy(other[place])
        elif isinstance(holder, dict):
            holder[str(chance.choice(["dp", "known", "of", "restriction", "X y"]))] = holder[key]
    return data


def _somewhere(data: Any, chance: random.Random) -> tuple[Any, Any]:
    """A random place in the pack, below its head: a container and a key or index in it."""
    holder, key = data, chance.choice([each for each in data if each not in ("pack", "format")])
    while isinstance(holder[key], dict | list) and holder[key] and chance.random() < 0.8:
        holder = holder[key]
        key = chance.choice(list(holder) if isinstance(holder, dict) else range(len(holder)))
    return holder, key


def problems_in(folder: Path) -> tuple[Problem, ...] | None:
    """What is wrong, None where the pack was read."""
    try:
        load_rulebook([folder])
    except Refused as refused:
        return refused.problems
    return None


@settings(deadline=None, max_examples=60)
@given(st.randoms(use_true_random=False))
def test_a_broken_pack_is_refused_or_read(chance: random.Random) -> None:
    """A pack broken at random is read or refused, every problem with a place and a next step."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "one-of-everything.yaml"
        path.write_text(json.dumps(broken(DATA, chance)), encoding="utf-8")
        problems = problems_in(Path(folder))
        assert problems is None or problems
        for problem in problems or ():
            assert problem.what
            assert problem.instead
            assert problem.place.line >= 1
            assert problem.place.file == str(path)


SHOP_DATA = plain(read_document(SHOP / "packs" / "shop-own.yaml").root)


@settings(deadline=None, max_examples=35)
@given(st.randoms(use_true_random=False), st.booleans())
def test_a_shops_broken_pack_is_refused_or_read(chance: random.Random, both: bool) -> None:
    """A shop's pack broken at random, beside a whole pack or a broken one, is read or refused."""
    with tempfile.TemporaryDirectory() as folder:
        beside = broken(DATA, chance) if both else DATA
        (Path(folder) / "one-of-everything.yaml").write_text(json.dumps(beside), "utf-8")
        (Path(folder) / "shop-own.yaml").write_text(json.dumps(broken(SHOP_DATA, chance)), "utf-8")
        problems = problems_in(Path(folder))
        assert problems is None or problems
        for problem in problems or ():
            assert problem.what
            assert problem.instead
            assert problem.place.line >= 1
