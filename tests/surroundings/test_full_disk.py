"""Each writing command on a disk that is full: refused and told, every file old or new.

A small disk of our own is filled up to so many bytes; then the command is tried, and tried again
with room.
"""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.laws.test_law_11_nothing_lost import mounted
from tests.surroundings.visit import STEPS, Step, ended, plain, visited, yard

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="mounts")

WRITING = tuple(step for step in STEPS if step.writes)
PAGE = 4096


@pytest.fixture
def disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 24 MB that nothing else uses."""
    with mounted(tmp_path / "disk", "size=24m,nr_inodes=400") as really:
        if not really:
            pytest.skip("nothing can be mounted here")
        yield tmp_path / "disk"


def before(step: Step, folder: Path, environment: dict[str, str]) -> Path:
    """A shop as it stands before the step: what it needs was done."""
    needed = {
        "records outcome": ("ask", "records keep"),
        "records explain": ("ask", "records keep"),
        "records export": ("ask", "records keep"),
        "records keep": ("ask",),
        "readings": ("ask",),
        "report": ("ask",),
    }.get(step.name, ())
    shop = yard(folder / "shop")
    visited(shop, environment, steps=[each for each in STEPS if each.name in needed])
    return shop


def fill(disk: Path, room: int) -> Path:
    """A file that leaves `room` bytes, in whole pages, free."""
    filler = disk / "filler"
    left = shutil.disk_usage(disk).free - room
    filler.write_bytes(b"\0" * max(0, left))
    return filler


def held(shop: Path) -> dict[str, bytes]:
    """Every file but locks, and the index, which is made again whenever it is not right."""
    return {
        path.relative_to(shop).as_posix(): path.read_bytes()
        for path in shop.rglob("*")
        if path.is_file() and not path.name.endswith(".lock") and ".sqlite" not in path.name
    }


def full(step: Step, disk: Path, room: int, home: Path) -> int:
    """The step on the full disk, then with room; its exit code when full."""
    environment = plain(home)
    shop = before(step, disk, environment)
    arguments = [part.replace("{shop}", ".") for part in step.arguments]
    was = held(shop)
    filler = fill(disk, room)
    told = ended(arguments, environment, shop)
    assert told.code in (0, 2)
    if told.code == 2:
        assert b"the disk is full" in told.out + told.err, told.err
        now = held(shop)
        changed = [name for name in was if now.get(name) != was[name]]
        if step.name == "records outcome":  # two files, one behind the other: the case came first
            case = "cases/van.yaml"
            assert all(name == case and now[case].startswith(was[case]) for name in changed)
        else:
            assert changed == []  # the old files are old
        assert [name for name in now if name.endswith((".tmp", ".torn"))] == []
    filler.unlink()
    if told.code == 2:
        if "--new" in arguments and (shop / "cases" / "van.yaml").exists():  # begun, and no more
            arguments = ["ask", "cases/van.yaml", "--answers", "more.txt"]
        again = ended(arguments, environment, shop)
        assert again.code == 0, again.err
    return told.code


@pytest.mark.parametrize("name", ["ask", "plan --new-shop", "records keep"])
def test_no_byte_free(name: str, disk: Path, tmp_path: Path) -> None:
    """Three of them, on a disk without a free byte."""
    (step,) = (each for each in WRITING if each.name == name)
    assert full(step, disk, 0, tmp_path) == 2


@pytest.mark.slow
@pytest.mark.parametrize("room", [0, PAGE, 3 * PAGE, 8 * PAGE, 64 * PAGE])
@pytest.mark.parametrize("step", WRITING, ids=lambda step: step.name)
def test_little_room(step: Step, room: int, disk: Path, tmp_path: Path) -> None:
    """Every writing command, with no room at all, and with too little for what it writes."""
    code = full(step, disk, room, tmp_path)
    if room == 0:
        assert code == 2
