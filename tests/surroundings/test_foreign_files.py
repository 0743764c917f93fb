"""Files as other programs save them: each kind is read, or refused with what would be right.

What editors and spreadsheets on Windows write: UTF-8 behind a mark, UTF-16 in either order with
or without its mark, Windows-1252, lines that end in CR LF.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from sootsayer.commands.main import main
from tests.surroundings.visit import LESSON, yard

WRITTEN: dict[str, Callable[[str], bytes]] = {
    "UTF-8 behind a mark": lambda text: text.encode("utf-8-sig"),
    "lines of Windows": lambda text: text.replace("\n", "\r\n").encode(),
    "both": lambda text: text.replace("\n", "\r\n").encode("utf-8-sig"),
    "UTF-16 with a mark": lambda text: text.encode("utf-16"),
    "UTF-16, big end first": lambda text: b"\xfe\xff" + text.encode("utf-16-be"),
    "UTF-16 without a mark": lambda text: text.encode("utf-16-le"),
    "UTF-32": lambda text: text.encode("utf-32"),
    "Windows-1252": lambda text: text.encode("cp1252"),
}
READ = ("UTF-8 behind a mark", "lines of Windows", "both")
PACK = "pack: shop-own\nformat: 1\ntitle: Prüfung\nbasis: {kind: memory}\n"
CASE = (
    "case: x\nformat: 1\nstory: Ein Gerät\nvehicle: {label: 2.0 L panel van}\nentries:\n"
    "- {at: 2031-03-14T09:02+01:00, by: t, round: arrival, source: scan, facts: {dp@idle: 24}}\n"
)
PEOPLE = "format: 1\npeople:\n  x: {name: Jürgen}\n"
HEADER = "2.0 L panel van für zwei\n-\n-\n-\n-\n-\n-\n-\n-\n-\n"
AT = ("--at", "2031-03-14T09:05+01:00")
# The file, what is in it, and a command that reads it.
FILES: dict[str, tuple[str, str, tuple[str, ...]]] = {
    "a case": ("cases/x.yaml", CASE, ("judge", "x")),
    "a case, listed": ("cases/x.yaml", CASE, ("cases", "list")),
    "a case, written to": ("cases/x.yaml", CASE, ("ask", "x", "--answers", "more.txt", *AT)),
    "the settings": ("shop.yaml", "format: 1\nname: Hof Süd\n", ("judge", "sensor-offset")),
    "a pack": ("packs/shop-own.yaml", PACK, ("judge", "sensor-offset")),
    "a pack, checked": ("packs/shop-own.yaml", PACK, ("rules", "check", "packs/shop-own.yaml")),
    "answers": ("said.txt", HEADER, ("ask", "--new", "cases/n.yaml", "--answers", "said.txt", *AT)),
    "a lesson": ("said.txt", f"# für uns\n{LESSON}", ("rules", "new", "--answers", "said.txt")),
}


def tried() -> list[object]:
    """Every file in every way; what is dear and like another is marked slow."""
    dear = [(name, way) for name in FILES for way in READ[:2]]
    dear += [("a pack, checked", way) for way in WRITTEN]
    return [
        pytest.param(name, way, marks=pytest.mark.slow if (name, way) in dear else ())
        for name in FILES
        for way in WRITTEN
    ]


@pytest.mark.parametrize(("name", "way"), tried())
def test_a_file_of_another_program(
    name: str, way: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    """UTF-8 in any dress is read as it is; anything else is named as what it is, with its place."""
    shop = yard(tmp_path / "shop")
    monkeypatch.chdir(shop)
    file, text, command = FILES[name]
    path = shop / file
    path.write_bytes(WRITTEN[way](text))
    before = path.read_bytes()
    code = main(command)
    told = capsys.readouterr()
    if way in READ:
        assert code == 0, told.err
        assert path.read_bytes().startswith(before[:40])
        return
    assert path.read_bytes() == before
    if name == "a case, listed":  # one among others; it says how to learn why
        assert code == 0
        assert "x cannot be read as a case: sootsayer judge x says why" in told.out
        return
    said = " ".join((told.err + told.out).split())
    assert code == 2
    assert (way[:6] if way.startswith("UTF") else "is not UTF-8") in said
    assert f"{path.name}:" in said
    assert "save the file again as UTF-8" in said
    assert not (shop / "cases" / "n.yaml").exists()
    assert not (shop / "packs" / "shop-soot-at-clamp.yaml").exists()


@pytest.mark.skipif(sys.platform == "win32", reason="a file name of POSIX")
def test_answers_with_what_no_text_has(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A NUL in a file of answers is named with its line; nothing is begun."""
    (tmp_path / "said.txt").write_bytes(b"2.0 L panel van\n2\0,0\n")
    command = ("ask", "--new", str(tmp_path / "n.yaml"), "--answers", str(tmp_path / "said.txt"))
    assert main(command) == 2
    assert "said.txt:2:2: a NUL byte stands here" in capsys.readouterr().err
    assert not (tmp_path / "n.yaml").exists()
