"""Every main command, in every time zone, locale and kind of path: the same said and written.

One hard surrounding of everything at once is tried in each run; each by itself is marked slow.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.surroundings.places import LOCALES, MADE, NAMES, RAW, ZONES, made_locale
from tests.surroundings.visit import BY_NAME, Ended, plain, visited, written, yard

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="locales and paths of POSIX")
# The commands that say or write a moment.
DATED = tuple(
    BY_NAME[name]
    for name in ("ask", "ask by the clock", "judge by the clock", "judge --json", "readings",
                 "report", "records keep", "records verify", "records list", "records outcome",
                 "cases list")
)  # fmt: skip
# Those that name a file, each by its own way of opening or writing one.
PATHED = tuple(
    BY_NAME[name]
    for name in ("ask", "judge --json", "plan --new-shop", "readings", "compare", "report",
                 "records keep", "records outcome", "records export", "cases make", "rules new",
                 "rules backtest")
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Usual:
    """What is said and written where nothing is special."""

    told: Mapping[str, Ended]
    files: Mapping[str, bytes]


@pytest.fixture(scope="module")
def usual(tmp_path_factory: pytest.TempPathFactory) -> Usual:
    folder = tmp_path_factory.mktemp("usual")
    shop = yard(folder / "shop")
    return Usual(visited(shop, plain(folder)), written(shop))


def same_files(shop: Path, usual: Mapping[str, bytes]) -> None:
    """Every file that is written has the bytes that it has elsewhere."""
    found = written(shop)
    assert set(usual) - set(found) <= {"check.xml"}
    assert [name for name in found if found[name] != usual[name]] == []


def same_said(told: Mapping[str, Ended], usual: Mapping[str, Ended], encoding: str) -> None:
    """The same, to the byte in UTF-8; in a smaller encoding what can be compared is."""
    for step in (BY_NAME[name] for name in told):
        here, there = told[step.name], usual[step.name]
        if encoding == "utf-8" and not step.by_the_clock:
            assert here == there, step.name
        said = here.out.decode(encoding)
        assert bool(said) == bool(there.out), step.name
        if "--json" in step.arguments and not step.by_the_clock:
            assert here.out == there.out, step.name


def test_everything_at_once(tmp_path: Path) -> None:
    """No UTF-8, no home, no usual zone, no folder for what is passing, a path of odd signs."""
    odd = f'it\'s "a" [b]{NAMES["two lines"]}{NAMES["no text at all"]}Süd'
    shop = yard(tmp_path / odd / ("y" * 200))
    world: dict[str, str | None] = {
        "HOME": None,
        "TZ": ZONES["seconds"],
        "LC_ALL": "C",
        "TMPDIR": "/nowhere",
        **RAW,
    }
    told = visited(shop, plain(tmp_path, **world), here=str(shop), cwd=Path("/"))
    assert all(ended.out.isascii() for ended in told.values())
    assert "Ventil klemmt, heiß" in (shop / "cases" / "van.yaml").read_text("utf-8")
    assert "+00:00, by: tech-1" in (shop / "cases" / "clock.yaml").read_text("utf-8")


@pytest.mark.slow
@pytest.mark.parametrize("zone", ZONES)
def test_a_time_zone(zone: str, tmp_path: Path, usual: Usual) -> None:
    """The machine's zone changes nothing but how the clock is written, and that can be read."""
    shop = yard(tmp_path / "shop")
    told = visited(shop, plain(tmp_path, TZ=ZONES[zone]), steps=DATED)
    same_said(told, usual.told, "utf-8")
    made = written(shop)
    assert {name: usual.files[name] for name in made} == made


@pytest.mark.slow
@pytest.mark.parametrize("name", LOCALES)
def test_a_locale(name: str, tmp_path: Path, usual: Usual) -> None:
    """The machine's locale and screen change what can be shown, and no byte of any file."""
    world = LOCALES[name]
    small = "ascii" if "LC_ALL" in world and world.get("PYTHONUTF8") else "utf-8"
    encoding = world.get("PYTHONIOENCODING") or small
    shop = yard(tmp_path / "shop")
    told = visited(shop, plain(tmp_path, **world))
    if "COLUMNS" not in world:
        same_said(told, usual.told, encoding)
    same_files(shop, usual.files)


@pytest.mark.slow
@pytest.mark.parametrize("name", MADE)
def test_a_locale_of_another_country(name: str, tmp_path: Path, usual: Usual) -> None:
    """Other letters, another decimal mark, another small I: no byte of any file is another."""
    folder = tmp_path / "locales"
    folder.mkdir()
    if not made_locale(name, folder):
        pytest.skip(f"localedef cannot make {name} here (Debian: apt-get install locales)")
    shop = yard(tmp_path / "shop")
    world: dict[str, str | None] = {"LOCPATH": str(folder), "LC_ALL": name, "LANG": name, **RAW}
    same_said(visited(shop, plain(tmp_path, **world)), usual.told, MADE[name][1])
    same_files(shop, usual.files)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("name", "raw"),
    [(name, False) for name in NAMES]
    + [(name, True) for name in ("two lines", "umlauts", "no text at all")],
)
def test_a_path(name: str, raw: bool, tmp_path: Path, usual: Usual) -> None:
    """A shop in a folder of any name that the system takes: nothing else changes."""
    shop = yard(tmp_path / NAMES[name])
    world: dict[str, str | None] = {"LC_ALL": "C", **RAW} if raw else {}
    told = visited(shop, plain(tmp_path, **world), here=str(shop), cwd=Path("/"), steps=PATHED)
    same_files(shop, usual.files)
    for ended in told.values():
        said = (ended.out + ended.err).decode("utf-8", "surrogateescape")
        assert "\u202e" not in said
        assert "\r" not in said
    assert told["judge --json"].out == usual.told["judge --json"].out


@pytest.mark.slow
def test_a_path_as_long_as_may_be(tmp_path: Path, usual: Usual) -> None:
    """Near the system's longest path, and from a folder whose path is longer than that."""
    longest = os.pathconf(tmp_path, "PC_PATH_MAX")
    room = longest - len(str(tmp_path)) - 200  # for the names in the shop
    deep = tmp_path.joinpath(*["d" * 100] * (room // 101))
    shop = yard(deep)
    visited(shop, plain(tmp_path), here=str(shop), cwd=Path("/"), steps=PATHED)
    same_files(shop, usual.files)


@pytest.mark.slow
def test_beside_a_name_with_a_dash(tmp_path: Path, usual: Usual) -> None:
    """A folder that is called like an option is named `./-o`, as everywhere."""
    shop = yard(tmp_path / "-o")
    visited(shop, plain(tmp_path), here="./-o", cwd=tmp_path, steps=PATHED)
    same_files(shop, usual.files)
