"""A kept rulebook is the same as a read one, or it is not used."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

import sootsayer
from sootsayer.documents.problems import Refused
from sootsayer.rulebook import compiled, kept
from sootsayer.rulebook.compiled import Rulebook, load_rulebook
from sootsayer.rulebook.pack_texts import PackText
from tests.rulebook.bad_packs import GOLDEN, SHOP

PACKS = [GOLDEN, SHOP / "packs"]
SOURCE = Path(sootsayer.__file__).parent.parent


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path / "cache"


@pytest.fixture
def reads(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Notes each time that packs are read and checked."""
    noted: list[str] = []
    real = compiled.rulebook_from

    def noting(texts: list[PackText]) -> Rulebook:
        noted.append("read")
        return real(texts)

    monkeypatch.setattr(compiled, "rulebook_from", noting)
    return noted


def _load(place: Path, folders: list[Path] | None = None) -> Rulebook:
    return kept.load_kept(folders or PACKS, {"SOOTSAYER_CACHE": str(place)})


def _only(place: Path) -> Path:
    (found,) = place.glob(kept.LIKE)
    return found


def _alike(one: Rulebook, other: Rulebook) -> bool:
    return (
        repr(one.model) == repr(other.model)
        and one.digests == other.digests
        and one.program.order == other.program.order
        and one.program.definitions == other.program.definitions
        and one.tests.order == other.tests.order
    )


def test_the_same_rulebook(place: Path, reads: list[str]) -> None:
    """What was kept gives the same model, digests and program, and no pack is read for it."""
    fresh, first, second = load_rulebook(PACKS), _load(place), _load(place)
    assert reads == ["read"]
    assert _alike(fresh, first)
    assert _alike(fresh, second)


def test_off(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With `off`, or without a home, nothing is written anywhere."""
    monkeypatch.chdir(tmp_path)
    fresh = load_rulebook([GOLDEN])
    for environment in ({"SOOTSAYER_CACHE": "off"}, {}, {"HOME": ""}):
        assert _alike(kept.load_kept([GOLDEN], environment), fresh)
    assert not list(tmp_path.iterdir())


def _copied(folder: Path, name: str = "one-of-everything.yaml") -> Path:
    folder.mkdir()
    (folder / name).write_bytes((GOLDEN / "one-of-everything.yaml").read_bytes())
    return folder


def test_stale(place: Path, tmp_path: Path, reads: list[str]) -> None:
    """A byte more in a pack, a pack more or less: read anew. Back as it was: kept still."""
    packs = _copied(tmp_path / "packs")
    before = _load(place, [packs])
    pack = packs / "one-of-everything.yaml"
    text = pack.read_bytes()
    pack.write_bytes(text + b"# a remark\n")
    assert _alike(_load(place, [packs]), before)
    _load(place, [packs, SHOP / "packs"])
    assert len(reads) == 3
    pack.write_bytes(text)
    assert _alike(_load(place, [packs]), before)
    assert len(reads) == 3


def test_elsewhere_and_in_another_order(place: Path, tmp_path: Path, reads: list[str]) -> None:
    """The same packs in another folder, or named in another order, are the same rulebook, and
    its places name the files as they are called now."""
    _load(place)
    there = _copied(tmp_path / "there")
    folders = [SHOP / "packs", there]
    found = _load(place, folders)
    assert reads == ["read"]
    assert _alike(found, load_rulebook(folders))
    assert any(each.place.file.startswith(str(there)) for each in found.model.findings.values())


def _torn(data: bytes) -> bytes:
    return data[: len(data) // 2]


def _flipped(data: bytes) -> bytes:
    middle = len(data) * 2 // 3
    return data[:middle] + bytes([data[middle] ^ 1]) + data[middle + 1 :]


def _other_digest(data: bytes) -> bytes:
    heading, _, rest = data.partition(b"\n")
    return heading.replace(b'"sha256": "', b'"sha256": "0', 1) + b"\n" + rest


SPOILT: dict[str, Callable[[bytes], bytes]] = {
    "torn": _torn,
    "last byte gone": lambda data: data[:-1],
    "flipped": _flipped,
    "flipped heading": lambda data: bytes([data[0] ^ 1]) + data[1:],
    "empty": lambda _: b"",
    "heading alone": lambda data: data.partition(b"\n")[0],
    "something behind it": lambda data: data + b"\n",
    "another digest": _other_digest,
    "no text": lambda _: b"\xff\xfe" * 99,
}


@pytest.mark.parametrize("how", SPOILT)
def test_spoilt(place: Path, reads: list[str], how: str) -> None:
    """What is not whole to the last byte is read anew, and then kept whole again."""
    fresh = _load(place)
    whole = _only(place).read_bytes()
    _only(place).write_bytes(SPOILT[how](whole))
    assert _alike(_load(place), fresh)
    assert reads == ["read", "read"]
    assert _only(place).read_bytes() == whole


_PLACE = '["file", "file", [0]], ["line", "", [1]], ["column", "", [1]]'
_TABLES = [
    f'["Place", 1, [{_PLACE}]]',  # right by itself, and no model
    f'["Nobody", 1, [{_PLACE}]]',
    f'["Place", 2, [{_PLACE}]]',
    f'["Place", 0, [{_PLACE}]]',
    '["Place", 1, []]',
    '["Place", 999999999999, [["file", "", {"all": ""}], ["line", "", {"all": 1}], '
    '["column", "", {"all": 1}]]]',
    f'["Place", 1, [{_PLACE.replace("[0]", "[999]")}]]',
    f'["Place", 1, [{_PLACE.replace("[0]", "{}")}]]',
    f'["Place", 1, [{_PLACE.replace(chr(34) * 2, "[1, 2]")}]]',
    f'["Place", 1, [{_PLACE.replace(chr(34) * 2, chr(34) + "*" + chr(34))}]]',
]
WRONG_INSIDE = ["{}", "[]", "[" * 9999, '{"tables": []}', '{"tables": 1}', '{"tables": [[]]}']
WRONG_INSIDE += [f'{{"tables": [{table}]}}' for table in _TABLES]


def test_right_digest_wrong_inside(place: Path, reads: list[str]) -> None:
    """A file that is whole and holds something else brings no traceback: it is read anew."""
    fresh = _load(place)
    key = _only(place).stem.removeprefix("rulebook-")
    for body in WRONG_INSIDE:
        heading = kept._heading(key, body.encode())
        _only(place).write_text(f"{heading}\n{body}\n")
        assert _alike(_load(place), fresh)
    assert len(reads) == 1 + len(WRONG_INSIDE)


def test_a_model_that_makes_no_rulebook(place: Path, reads: list[str]) -> None:
    """Numbers where the rules of findings should be can be read as a model, but not compiled: that
    too brings no traceback, and is read anew."""
    fresh = _load(place)
    whole = _only(place).read_bytes()
    body = json.loads(whole.partition(b"\n")[2])
    for name, _, columns in body["tables"]:
        for column in columns:
            if (name, column[0]) == ("FindingDef", "when"):
                column[1] = ""
    key, text = _only(place).stem.removeprefix("rulebook-"), json.dumps(body)
    _only(place).write_text(f"{kept._heading(key, text.encode())}\n{text}\n")
    assert kept.model_in(_only(place).read_bytes(), key, [str(n) for n in range(99)]) is not None
    assert _alike(_load(place), fresh)
    assert reads == ["read", "read"]
    assert _only(place).read_bytes() == whole


def test_under_another_name(place: Path, tmp_path: Path, reads: list[str]) -> None:
    """A whole file of other packs, put in the place of these, is not used."""
    _load(place)
    ours = _only(place)
    other = tmp_path / "other"
    _load(other, [GOLDEN])
    ours.write_bytes(_only(other).read_bytes())
    assert _alike(_load(place), load_rulebook(PACKS))
    assert len(reads) == 3


def test_another_version(place: Path, reads: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """Another version of the program, or other files of the same version, reads anew."""
    _load(place)
    monkeypatch.setattr(sootsayer, "__version__", "9.9")
    _load(place)
    monkeypatch.setattr(kept, "_program", lambda: "9.9, changed by hand")
    _load(place)
    assert len(reads) == 3


@pytest.mark.skipif(sys.platform == "win32", reason="POSIX modes")
def test_others_may_write(place: Path, reads: list[str]) -> None:
    """Who else may have written the file is not trusted; it is kept anew, for us alone."""
    _load(place)
    _only(place).chmod(0o666)
    _load(place)
    _load(place)
    assert reads == ["read", "read"]


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="POSIX owners and modes")
def test_read_only_folder(place: Path, reads: list[str]) -> None:
    """Where nothing can be written it only takes time (root writes everywhere: a file is there)."""
    if os.geteuid() == 0:
        place.write_text("")
    else:
        place.mkdir(mode=0o500)
    fresh = load_rulebook(PACKS)
    assert _alike(_load(place), fresh)
    assert _alike(_load(place), fresh)
    assert reads == ["read", "read"]


def test_wrong_packs_are_told_as_ever(place: Path, tmp_path: Path) -> None:
    """What is wrong with packs is said in the same words, each time, and nothing is kept of it."""
    wrong, twice = _copied(tmp_path / "wrong", "other-name.yaml"), _copied(tmp_path / "twice")
    for folders in ([wrong], [GOLDEN, twice], [tmp_path / "missing"], [GOLDEN / "nothing.yaml"]):
        with pytest.raises(Refused) as fresh:
            load_rulebook(folders)
        for _ in range(2):
            with pytest.raises(Refused) as found:
                _load(place, folders)
            assert found.value.problems == fresh.value.problems
    assert not list(place.glob("*")) if place.exists() else True


def test_two_at_once(place: Path) -> None:
    """Processes that read and write it together all get the whole rulebook."""
    code = (
        "import sys; from pathlib import Path; from sootsayer.rulebook.kept import load_kept\n"
        "for _ in range(4):\n"
        "    book = load_kept([Path(sys.argv[1])], {'SOOTSAYER_CACHE': sys.argv[2]})\n"
        "    for each in Path(sys.argv[2]).glob('rulebook-*'): each.unlink(missing_ok=True)\n"
        "    print(book.digests.logic)"
    )
    command = [sys.executable, "-c", code, str(GOLDEN), str(place)]
    environment = {**os.environ, "PYTHONPATH": str(SOURCE)}
    running = [
        subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=environment)
        for _ in range(3)
    ]
    expected = f"{load_rulebook([GOLDEN]).digests.logic}\n" * 4
    assert [(each.communicate()[0], each.returncode) for each in running] == [(expected, 0)] * 3
    assert not list(place.glob(".*"))


def test_nothing_heavy_is_imported(place: Path) -> None:
    """With a kept rulebook neither the YAML parser nor the schema validator nor lint is needed."""
    code = (
        "import sys; from pathlib import Path; from sootsayer.rulebook.kept import load_kept\n"
        "load_kept([Path(sys.argv[1])], {'SOOTSAYER_CACHE': sys.argv[2]})\n"
        "heavy = {'yaml', 'jsonschema', 'rich', 'sootsayer.rulebook.loading'}\n"
        "print(sorted(heavy & set(sys.modules)))"
    )
    command = [sys.executable, "-c", code, str(GOLDEN), str(place)]
    environment = {**os.environ, "PYTHONPATH": str(SOURCE)}
    said = [
        subprocess.run(command, capture_output=True, text=True, env=environment, check=True).stdout
        for _ in range(2)
    ]
    assert said == ["['sootsayer.rulebook.loading', 'yaml']\n", "[]\n"]
