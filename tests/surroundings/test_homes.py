"""No home, one that nobody may write to, none of the usual folders, and no folder to stand in.

A home is only needed to keep what saves time, so everything is said and written as elsewhere.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from tests.laws.test_law_11_nothing_lost import mounted
from tests.surroundings.visit import BY_NAME, STEPS, Ended, ended, plain, visited, yard

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="homes and rights of POSIX")

# The commands that read the rulebook by the ways that there are: all others read it by one of them.
KEEPING = tuple(BY_NAME[name] for name in ("ask", "judge --json", "readings", "records keep",
                                           "cases make", "rules show"))  # fmt: skip
# Gives up root's power to read, write and search everywhere, and becomes what follows.
POWERLESS = """
import ctypes, os, sys
if os.geteuid() == 0:
    for power in (1, 2):
        if ctypes.CDLL(None, use_errno=True).prctl(24, power, 0, 0, 0):
            sys.exit("cannot give up a power")
os.execv(sys.argv[1], sys.argv[1:])
"""
Homes = Mapping[str, str | None]


def _folder(folder: Path, name: str, mode: int = 0o700) -> str:
    (folder / name).mkdir()
    (folder / name).chmod(mode)
    return str(folder / name)


def _file(folder: Path) -> str:
    (folder / "file").write_text("mine", encoding="utf-8")
    return str(folder / "file")


NOTHING: Homes = {"SOOTSAYER_CACHE": None, "XDG_CACHE_HOME": None}
HOMES: dict[str, Callable[[Path], Homes]] = {
    "no home": lambda _: {"HOME": None},
    "an empty word": lambda _: {"HOME": ""},
    "a home that is not there": lambda _: {"HOME": "/nowhere/at/all"},
    "a home that is a file": lambda f: {"HOME": _file(f)},
    "a home from here": lambda _: {"HOME": "home"},
    "a home of any bytes": lambda f: {"HOME": _folder(f, "h \udcff\n'")},
    "a home without the right to write": lambda f: {"HOME": _folder(f, "ro", 0o500)},
    "a home without any right": lambda f: {"HOME": _folder(f, "none", 0o000)},
    "no cache folder": lambda f: {"XDG_CACHE_HOME": str(f / "not" / "there")},
    "a cache folder that is a file": lambda f: {"XDG_CACHE_HOME": _file(f)},
    "a cache folder from here": lambda _: {"XDG_CACHE_HOME": "cache"},
    "a cache that is a device": lambda _: {"SOOTSAYER_CACHE": "/dev/null"},
    "a cache in the kernel": lambda _: {"SOOTSAYER_CACHE": "/proc/self/cache"},
    "a cache with too long a name": lambda _: {"SOOTSAYER_CACHE": "/tmp/" + "n" * 300},
    "no folder for what is passing": lambda _: {"TMPDIR": "/nowhere", "TEMP": "", "TMP": "/x"},
    "a path to nothing": lambda _: {"PATH": "/nowhere"},
}


@pytest.fixture(scope="module")
def usual(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, Ended]:
    """What is said where there is a home."""
    folder = tmp_path_factory.mktemp("usual")
    return visited(yard(folder / "shop"), plain(folder), steps=KEEPING)


def as_elsewhere(
    folder: Path, world: Homes, usual: Mapping[str, Ended], *, launch: tuple[str, ...] = ()
) -> None:
    """The steps end as they do elsewhere, and say nothing of a folder that is missing."""
    environment = plain(folder, **{**NOTHING, **world})
    told = visited(yard(folder / "shop"), environment, launch=launch, steps=KEEPING)
    for step in KEEPING:
        if not step.by_the_clock:
            assert told[step.name] == usual[step.name], step.name


@pytest.mark.parametrize("name", ["no home", "a home without any right"])
def test_a_home(name: str, tmp_path: Path) -> None:
    """Two homes of the list below: a case is asked, judged, and said to."""
    world = plain(tmp_path, **{**NOTHING, **HOMES[name](tmp_path)})
    launch = (sys.executable, "-c", POWERLESS)
    visited(yard(tmp_path / "shop"), world, launch=launch, steps=KEEPING[:2])


@pytest.mark.slow
@pytest.mark.parametrize("name", HOMES)
def test_any_home(name: str, tmp_path: Path, usual: Mapping[str, Ended]) -> None:
    """Every kind of home that is none: the same is said and written as elsewhere."""
    world = HOMES[name](tmp_path)
    as_elsewhere(tmp_path, world, usual, launch=(sys.executable, "-c", POWERLESS))
    for file in tmp_path.glob("file"):
        assert file.read_text("utf-8") == "mine"


@pytest.mark.slow
def test_a_home_on_a_disk_that_is_read_only(tmp_path: Path, usual: Mapping[str, Ended]) -> None:
    """As root too, who is stopped by no right."""
    with mounted(tmp_path / "home", "size=1m") as really:
        if not really:
            pytest.skip("nothing can be mounted here")
        remount = ["mount", "-o", "remount,ro", str(tmp_path / "home")]
        subprocess.run(remount, capture_output=True, check=True)
        as_elsewhere(tmp_path, {"HOME": str(tmp_path / "home")}, usual)
        assert list((tmp_path / "home").iterdir()) == []


@pytest.mark.slow
def test_a_home_on_a_disk_that_is_full(tmp_path: Path, usual: Mapping[str, Ended]) -> None:
    """Nothing can be kept, nothing half is left, and the same is said as elsewhere."""
    with mounted(tmp_path / "home", "size=16k") as really:
        if not really:
            pytest.skip("nothing can be mounted here")
        as_elsewhere(tmp_path, {"HOME": str(tmp_path / "home")}, usual)
        left = [path.name for path in (tmp_path / "home").rglob("*") if path.is_file()]
        assert [name for name in left if not name.endswith(".lock")] == []


def _may_run(user: int, environment: Mapping[str, str]) -> bool:
    """Whether that user may read this Python and the program."""
    trying = [sys.executable, "-c", "import sootsayer"]
    try:
        done = subprocess.run(trying, user=user, env=environment, cwd="/", check=False,
                              capture_output=True)  # fmt: skip
    except PermissionError:
        return False
    return done.returncode == 0


@pytest.mark.slow
def test_a_user_whom_nobody_knows(tmp_path: Path) -> None:
    """A number without a name, as in many containers: no home, no rights but in the shop."""
    nobody = 54321
    if os.geteuid():
        pytest.skip("only root can become somebody else")
    if not _may_run(nobody, plain(tmp_path)):
        pytest.skip("this Python, or the program, is where only root may read")
    shop = yard(tmp_path / "shop")
    for path in (shop, *shop.rglob("*")):
        os.chown(path, nobody, nobody)
    become = f"import os, sys; os.setuid({nobody}); os.execv(sys.argv[1], sys.argv[1:])"
    for parent in shop.parents[:3]:
        parent.chmod(0o755)
    world: Homes = {**NOTHING, "HOME": None, "USER": None}
    told = visited(shop, plain(tmp_path, **world), launch=(sys.executable, "-c", become))
    assert told["judge --json"].code == 0


@pytest.mark.slow
@pytest.mark.parametrize("step", STEPS, ids=lambda step: step.name)
def test_a_working_folder_that_is_gone(step: object, tmp_path: Path) -> None:
    """Deleted while one stands in it: what names no file of it works, or says what is wrong."""
    assert isinstance(step, type(STEPS[0]))
    gone = tmp_path / "gone"
    gone.mkdir()
    leave = "import os, sys; os.rmdir(os.getcwd()); os.execv(sys.argv[1], sys.argv[1:])"
    launch = (sys.executable, "-c", leave)
    told: Ended = ended([part.replace("{shop}", ".") for part in step.arguments],
                        plain(tmp_path), gone, launch)  # fmt: skip
    assert told.code in (0, 2)
