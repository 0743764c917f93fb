"""Ledgers that anybody may have written: clear words and an exit code, never a traceback."""

from __future__ import annotations

import copy
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any

import pytest

from sootsayer.commands.main import main
from sootsayer.ledger.canonical import canonical
from sootsayer.ledger.seal import NOTHING_BEFORE, line_of
from tests.laws.test_law_11_nothing_lost import mounted
from tests.ledger.golden_ledger import GOLDEN, use_frozen

ESCAPE, BIDI = "\x1b[31mred", "abc\u202exyz"
ANYTHING: tuple[Any, ...] = (
    None, True, 0, -1, 1e300, 2**53, "", ESCAPE, BIDI, "[bold]x[/]", "{0} {x} %s", "x" * 5000,
    [], {}, [[]], [{"id": 1}], {"a": {"b": [1, "2"]}}, "2031-13-99T99:99Z", "../../etc", "\x00",
)  # fmt: skip
ACTIONS = (
    ("verify",), ("list", "--all"), ("list", "--json"), ("replay",), ("replay", "1"),
    ("explain", "1"), ("replay", "--json"),
)  # fmt: skip


@pytest.fixture(autouse=True)
def small_rulebook(
    tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> None:
    use_frozen(monkeypatch, tmp_path_factory.mktemp("program"))


@pytest.fixture(name="golden")
def golden_copy(tmp_path: Path) -> Path:
    shutil.copytree(GOLDEN, tmp_path / "l")
    return tmp_path / "l"


def bodies() -> list[dict[str, Any]]:
    text = (GOLDEN / "ledger.jsonl").read_text("utf-8")
    return [json.loads(line)["body"] for line in text.splitlines()]


def write(folder: Path, *made: dict[str, Any]) -> None:
    """A whole chain of these bodies, as one who knows the format would forge it."""
    previous, lines = NOTHING_BEFORE, []
    for number, body in enumerate(made, start=1):
        line, previous = line_of(canonical(body), number, previous)
        lines.append(line + b"\n")
    (folder / "ledger.jsonl").write_bytes(b"".join(lines))


def harmless(folder: Path, capsys: pytest.CaptureFixture[str], *actions: tuple[str, ...]) -> None:
    """Each action ends with one of its codes and prints nothing that steers a screen."""
    for action in actions:
        code = main(["records", *action, "--ledger", str(folder)])
        out, err = capsys.readouterr()
        assert code in (0, 1, 2), action
        assert "Traceback" not in err, action
        assert "a fault of sootsayer" not in err, (action, err)
        assert not {"\x1b", "\u202e", "\x00"} & {*out, *err}, action
        assert code != 2 or "→" in err or "format" in out, (action, err)


def paths(found: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """The way to every part of a body."""
    if path:
        yield path
    if isinstance(found, dict):
        for key in found:
            yield from paths(found[key], (*path, key))
    elif isinstance(found, list):
        for index in range(len(found)):
            yield from paths(found[index], (*path, index))


def changed(body: dict[str, Any], path: tuple[Any, ...], value: Any) -> dict[str, Any]:
    made = copy.deepcopy(body)
    at: Any = made
    for key in path[:-1]:
        at = at[key]
    at[path[-1]] = value
    return made


def test_any_part_of_a_body_may_be_anything(
    golden: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Whatever stands where, sealed by one who knows how: pages, lists and replays hold."""
    verdict, outcome = bodies()
    random = Random(3)
    places = [p for p in paths(verdict) if len(p) < 5]
    for path in random.sample(places, 30):
        write(golden, changed(verdict, path, random.choice(ANYTHING)), outcome)
        harmless(golden, capsys, *ACTIONS)


@pytest.mark.slow
def test_many_parts_of_a_body_may_be_anything(
    golden: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The same at four hundred places, however deep."""
    verdict, outcome = bodies()
    random = Random(4)
    for path in random.sample(list(paths(verdict)), 400):
        write(golden, changed(verdict, path, random.choice(ANYTHING)), outcome)
        harmless(golden, capsys, *ACTIONS)


@pytest.mark.parametrize("how", ["upward", "from the root", "a NUL"])
def test_a_record_never_chooses_where_something_is_written(
    how: str, golden: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The language of a record names a folder while it is replayed: one that is none writes nothing
    anywhere. (It once wrote the record's texts into any folder that its forger named.)"""
    there = tmp_path / "elsewhere"
    named = {"upward": f"../../../..{there}", "from the root": str(there), "a NUL": "e\0n"}
    verdict, outcome = bodies()
    texts = {"planted.yaml": next(iter(verdict["rulebook"]["packs"].values()))}
    forged = changed(verdict, ("language",), named[how])
    write(golden, changed(forged, ("rulebook", "translations"), texts), outcome)
    code = main(["records", "replay", "1", "--ledger", str(golden)])
    assert not there.exists()
    assert code == 1
    assert "no language" in capsys.readouterr().out
    harmless(golden, capsys, *ACTIONS)
    assert not there.exists()


@pytest.mark.parametrize("name", ["../planted.yaml", "/planted.yaml", "a\0b.yaml", "..", ""])
def test_a_records_text_is_never_written_elsewhere(
    name: str, golden: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What is no name of a file is told, and written nowhere."""
    verdict, outcome = bodies()
    texts = {
        **verdict["rulebook"]["packs"],
        name: next(iter(verdict["rulebook"]["packs"].values())),
    }
    write(golden, changed(verdict, ("rulebook", "packs"), texts), outcome)
    harmless(golden, capsys, *ACTIONS)
    assert main(["records", "replay", "1", "--ledger", str(golden)]) == 1
    assert "no file name" in capsys.readouterr().out


def test_any_part_of_an_outcome_may_be_anything(
    golden: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """An outcome that is none is shown as far as it is one."""
    verdict, outcome = bodies()
    every = [(path, value) for path in paths(outcome) for value in ANYTHING]
    for path, value in Random(6).sample(every, 60):
        write(golden, verdict, changed(outcome, path, value))
        harmless(golden, capsys, ("list",), ("explain", "1"), ("replay", "2"))


@pytest.mark.parametrize(
    "data",
    [
        b"", b"\n", b"\n\n\n", b"{}\n", b"[]\n", b"null\n", b"nonsense\n",
        bytes(range(256)) + b"\n", bytes(5000), b"[" * 100_000 + b"\n",
        b'{"a":' * 50_000 + b"\n", b"x" * 3_000_000 + b"\n",
        b'{"format":2}\n', b'{"format":1e999}\n', b'{"format":"2"}\n',
        b'{"body":{},"digest":"x"}\n',
        "\u202e\u2028\n".encode(), b"\xef\xbb\xbf{}\n", b"9" * 5000 + b"\n",
    ],
    ids=range(19),
)  # fmt: skip
def test_any_file_may_be_the_ledger(
    data: bytes, golden: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What is no ledger at all is told, and keep adds nothing behind it."""
    (golden / "ledger.jsonl").write_bytes(data)
    harmless(golden, capsys, *ACTIONS, ("export", str(golden / "out")))
    before = (golden / "ledger.jsonl").read_bytes()
    code = main(["records", "keep", "sensor-offset", "--by", "t", "--ledger", str(golden)])
    after = (golden / "ledger.jsonl").read_bytes()
    assert "Traceback" not in capsys.readouterr().err
    assert code in (0, 2)
    if code == 2:
        assert after == before
    else:
        assert not before.endswith(b"\n")  # nothing, or a torn line, which was set aside


def test_a_ledger_of_a_later_format(golden: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It is not called broken: the format is named, with exit 2, and nothing is added."""
    path = golden / "ledger.jsonl"
    path.write_bytes(path.read_bytes() + b'{"body":{},"format":7,"signed":"..."}\n')
    before = path.read_bytes()
    for action in (("verify",), ("replay",), ("explain", "nobody"), ("keep", "sensor-offset")):
        by = ("--by", "t") if action[0] == "keep" else ()
        assert main(["records", *action, *by, "--ledger", str(golden)]) == 2
        out, err = capsys.readouterr()
        assert "format 7" in out + err
    assert path.read_bytes() == before


def test_another_shops_ledger_is_found_out(
    golden: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Whole in itself, and without the digest that this shop has on paper."""
    verdict, outcome = bodies()
    write(golden, {**verdict, "by": "tech-9"}, outcome)
    paper = json.loads((GOLDEN / "ledger.jsonl").read_text().splitlines()[0])["digest"]
    assert main(["records", "verify", "--ledger", str(golden)]) == 0
    assert main(["records", "verify", "--head", paper, "--ledger", str(golden)]) == 1
    assert "another ledger" in capsys.readouterr().out
    assert tmp_path.exists()


@pytest.mark.skipif(sys.platform == "win32", reason="pipes of Unix")
def test_what_is_no_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A pipe, a folder or a link to itself by the ledger's name: told at once, nothing waits."""
    for make in (os.mkfifo, os.mkdir, lambda p: p.symlink_to(p)):
        path = tmp_path / "ledger.jsonl"
        make(path)
        harmless(tmp_path, capsys, ("verify",), ("list",), ("replay",), ("explain", "1"))
        assert (
            main(["records", "keep", "sensor-offset", "--by", "t", "--ledger", str(tmp_path)]) == 2
        )
        assert "→" in capsys.readouterr().err
        path.rmdir() if path.is_dir() else path.unlink()


def test_a_full_disk_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Where the disk takes no more the record is not there, the ledger whole, and exit 2."""
    with mounted(tmp_path / "disk", "size=192k") as really:
        if not really:
            pytest.skip("nothing can be mounted here")
        folder = tmp_path / "disk" / "records"
        codes = [keep(folder) for _ in range(16)]
        assert set(codes) == {0, 2}
        assert "the disk is full" in capsys.readouterr().err
        assert main(["records", "verify", "--ledger", str(folder)]) == 0
        assert f"{codes.count(0)} record" in capsys.readouterr().out


def keep(folder: Path) -> int:
    return main(["records", "keep", "sensor-offset", "--by", "tech-1", "--ledger", str(folder)])


@pytest.mark.skipif(sys.platform == "win32", reason="rights of Unix")
def test_without_the_right_to_write(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A read-only disk: nothing is kept and that is said; verify and list go on working."""
    with mounted(tmp_path / "disk", "size=2m") as really:
        if not really:
            pytest.skip("nothing can be mounted here")
        folder = tmp_path / "disk" / "records"
        assert keep(folder) == 0
        remount = ["mount", "-o", "remount,ro", str(tmp_path / "disk")]
        subprocess.run(remount, capture_output=True, check=True)
        assert keep(folder) == 2
        assert "read-only" in capsys.readouterr().err
        for action in ("verify", "list", "replay"):
            assert main(["records", action, "--ledger", str(folder)]) == 0
