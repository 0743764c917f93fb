"""`rules backtest`, `rules rates` and `cases make` as their user meets them."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from sootsayer.commands.main import main
from sootsayer.commands.over_archive import options
from sootsayer.documents.writing import CannotWrite
from sootsayer.rulebook.shipped import shipped_rules
from tests.learning.archive.support import (
    HEALTHY,
    PACK,
    case_text,
    edited,
    put,
    small_texts,
    some_archive,
)

SOOT = ("default: 22 g", "default: 44 g")
Captured = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def small_rulebook(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """The small rulebook is in force, no shop is, and the working folder is empty."""
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)
    monkeypatch.setattr(options, "pack_texts_in_force", lambda _: small_texts())
    (tmp_path / "here").mkdir()
    monkeypatch.chdir(tmp_path / "here")


@pytest.fixture
def cases(tmp_path: Path) -> str:
    return str(some_archive(tmp_path / "archive"))


def pack(tmp_path: Path, *pairs: tuple[str, str], name: str = "small") -> str:
    (text,) = edited(*pairs)
    return str(put(tmp_path / "tried", f"{name}.yaml", text.data))


def flat(text: str) -> str:
    return " ".join(text.split())


def test_looser_comes_first_and_is_no(tmp_path: Path, cases: str, capsys: Captured) -> None:
    """A permission that becomes looser stands in its own table above all else, exit code 1."""
    assert main(["rules", "backtest", pack(tmp_path, SOOT), "--cases", cases]) == 1
    out = capsys.readouterr().out
    lines = out.splitlines()
    loose = next(i for i, line in enumerate(lines) if line.startswith("LOOSER: 2 permissions"))
    assert loose < next(i for i, line in enumerate(lines) if "What we know" in line)
    assert "burn" in lines[loose + 2]
    assert lines[loose + 2].split()[1:] == ["blocked", "clear"]
    assert "in 3 cases: case-2, case-4, case-3" in lines[loose + 3]
    assert "soot-max (changed, small.yaml:" in flat(out)
    assert "--accept drive-on" in out


def test_accepted_by_name(tmp_path: Path, cases: str, capsys: Captured) -> None:
    """Both named: done; one of two: still no; a name that is no action: wrong."""
    argv = ["rules", "backtest", pack(tmp_path, SOOT), "--cases", cases]
    assert main([*argv, "--accept", "burn", "--accept", "drive-on"]) == 0
    assert "accepted by name" in capsys.readouterr().out
    assert main([*argv, "--accept", "burn"]) == 1
    assert main([*argv, "--accept", "brun"]) == 2
    assert 'no action "brun"' in capsys.readouterr().err


def test_a_pack_that_changes_nothing(tmp_path: Path, cases: str, capsys: Captured) -> None:
    """It says so, and the exit code is 0."""
    assert main(["rules", "backtest", pack(tmp_path), "--cases", cases]) == 0
    out = flat(capsys.readouterr().out)
    assert "no verdict would change, of 7" in out
    assert "changes no rule" in out
    assert f"stands in for {PACK}" in out


def test_json(tmp_path: Path, cases: str, capsys: Captured) -> None:
    """The same for a program."""
    assert main(["rules", "backtest", pack(tmp_path, SOOT), "--cases", cases, "--json"]) == 1
    told = json.loads(capsys.readouterr().out)
    assert told["format"] == 1
    assert [each["action"] for each in told["looser"]] == ["burn", "drive-on"]
    assert told["archive"]["replayed"] == 7
    assert main(["rules", "rates", "--cases", cases, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["calibration"]["leading"]["brier"]["count"] == 21
    assert told["confirmed"] == {"blocked": 4, "sensor-offset": 1, "short-duty": 2}


def test_every_kind_of_bad_file_is_counted_and_named(
    tmp_path: Path, cases: str, capsys: Captured
) -> None:
    """Broken, duplicate, half-written, other revisions, unknown faults, a loop: none is fatal."""
    folder = Path(cases)
    put(folder, "x/broken.yaml", b"case: [\x1b[31m")
    put(folder, "x/copy.yaml", case_text("case-0", HEALTHY, []))
    put(folder, "x/half.yaml", case_text("half", HEALTHY, None) + "- {at: 2031-03-14T1")
    put(folder, "x/newer.yaml", case_text("newer", (*HEALTHY, "smoke: 4"), []))
    put(folder, "x/unknown.yaml", case_text("unknown", HEALTHY, ["gremlins"]))
    put(folder, "x/open.yaml", case_text("open", HEALTHY, None))
    put(folder, "x/drawn.yaml", case_text("synthetic-1", HEALTHY, []))
    (folder / "x" / "loop").symlink_to(folder)
    before = {path: path.read_bytes() for path in folder.rglob("*.yaml")}
    for argv in (["backtest", pack(tmp_path)], ["rates"]):
        assert main(["rules", *argv, "--cases", cases]) == 0
        out = capsys.readouterr().out
        flatter = flat(out)
        assert "7 closed cases" in flatter
        assert "\x1b" not in out
        for said in (
            "1 is open", "1 is synthetic (--synthetic takes it in)", "1 has the id of another",
            "1 cannot be read", "1 ends in a half-written line", "1 has an outcome with a fault",
            "1 names what this rulebook does not have", "1 folder could not be looked into",
            "x/copy.yaml: case-0 is also 0/case-0.yaml", 'unknown fault "gremlins"', "x/loop",
        ):  # fmt: skip
            assert said in flatter
    assert {path: path.read_bytes() for path in folder.rglob("*.yaml")} == before


def test_nothing_to_count(tmp_path: Path, capsys: Captured) -> None:
    """An empty archive says what a closed case is; no folder at all is wrong input."""
    (tmp_path / "empty").mkdir()
    for argv in (["backtest", pack(tmp_path, SOOT)], ["rates"], ["rates", "blocked"]):
        assert main(["rules", *argv, "--cases", str(tmp_path / "empty")]) == 0
        assert "no closed case was found" in flat(capsys.readouterr().out)
    assert main(["rules", "rates"]) == 2
    assert "there is no folder of cases cases" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("argv", "said"),
    [
        (["rules"], "no action is named"),
        (["rules", "backtest", "no-such.yaml"], "there is no pack no-such.yaml"),
        (["rules", "backtest", "\0"], "has a NUL in it"),
        (["rules", "rates", "blokced"], 'did you mean "blocked"?'),
        (["rules", "rates", "--processes", "many"], "from 1 to 256"),
        (["rules", "rates", "--json", "--diff"], "not allowed with"),
        (["cases", "make", "--n", "0", "--seed", "1", "--out", "x"], "--n is a whole number"),
        (["cases", "make", "--n", "1", "--seed", "-1", "--out", "x"], "--seed"),
    ],
)
def test_wrong_usage(argv: list[str], said: str, cases: str, capsys: Captured) -> None:
    """Each slip is named with what would be right; exit code 2."""
    more = ["--cases", cases] if argv[0] == "rules" and len(argv) > 1 else []
    assert main([*argv, *more]) == 2
    error = capsys.readouterr().err
    assert said in error
    assert "→" in error


def test_a_pack_that_cannot_be_read(tmp_path: Path, cases: str, capsys: Captured) -> None:
    """Its problems are told at their lines, and nothing is judged."""
    bad = put(tmp_path, "bad.yaml", "pack: bad\nformat: 1\ntitle: Bad\nfindings: {a: {says: A}}\n")
    assert main(["rules", "backtest", str(bad), "--cases", cases]) == 2
    assert "bad.yaml:4" in capsys.readouterr().err


def test_one_finding_or_fault(cases: str, capsys: Captured) -> None:
    """By its id, with both intervals; of one that no case speaks of it says so."""
    assert main(["rules", "rates", "not-zero", "--cases", cases]) == 0
    out = flat(capsys.readouterr().out)
    assert "not-zero with sensor-offset" in out
    assert "Wilson" in out
    assert "1/1" in out
    assert main(["rules", "rates", "sensor-stuck", "--cases", cases]) == 0
    assert "No closed case says anything of sensor-stuck" in flat(capsys.readouterr().out)


def test_a_difference(cases: str, capsys: Captured) -> None:
    """With too few cases nothing is proposed, and that is said as a comment."""
    assert main(["rules", "rates", "--diff", "--cases", cases]) == 0
    assert capsys.readouterr().out.startswith("# No number")


def test_resumed(tmp_path: Path, cases: str, capsys: Captured) -> None:
    """A second run with the same file prints the same; a file of another kind is refused."""
    kept = str(tmp_path / "kept")
    argv = ["rules", "rates", "--cases", cases, "--resume", kept]
    assert main(argv) == 0
    first = capsys.readouterr().out
    assert main(argv) == 0
    assert capsys.readouterr().out == first
    assert main([*argv[:-1], pack(tmp_path)]) == 2
    assert "no record of the same run" in capsys.readouterr().err


def test_a_full_disk(
    tmp_path: Path, cases: str, capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What cannot be kept is told in plain words."""

    def full(path: Path, *_: object, **__: object) -> None:
        raise CannotWrite(path, "the disk is full")

    monkeypatch.setattr("sootsayer.learning.archive.journal.append_lines", full)
    assert main(["rules", "rates", "--cases", cases, "--resume", str(tmp_path / "kept")]) == 2
    assert "the disk is full" in capsys.readouterr().err


def test_make_cases_and_use_them(tmp_path: Path, capsys: Captured) -> None:
    """Drawn, left out unless told, and named as drawn wherever they are counted; made again they
    are the same, and nothing else is written over."""
    out = tmp_path / "drawn"
    make = ["cases", "make", "--n", "12", "--seed", "3", "--out", str(out)]
    assert main(make) == 0
    assert "12 synthetic cases" in capsys.readouterr().out
    first = {path.name: path.read_bytes() for path in out.iterdir() if path.suffix == ".yaml"}
    assert len(first) == 12
    assert main(make) == 0
    assert {p.name: p.read_bytes() for p in out.iterdir() if p.suffix == ".yaml"} == first
    capsys.readouterr()
    assert main(["rules", "rates", "--cases", str(out)]) == 0
    assert "0 closed cases" in capsys.readouterr().out
    assert main(["rules", "rates", "--cases", str(out), "--synthetic"]) == 0
    assert "SYNTHETIC: 12 were drawn" in flat(capsys.readouterr().out)
    mine = out / "synthetic-3-0000004.yaml"
    mine.write_text("mine", encoding="utf-8")
    assert main(make) == 2
    assert "holds something else" in flat(capsys.readouterr().err)
    assert mine.read_text(encoding="utf-8") == "mine"


def test_pages_are_eighty_wide(tmp_path: Path, cases: str, capsys: Captured) -> None:
    """No line of a page is longer than a terminal."""
    for argv in (["backtest", pack(tmp_path, SOOT)], ["rates"], ["rates", "--more"]):
        main(["rules", *argv, "--cases", cases])
        assert max(map(len, capsys.readouterr().out.splitlines())) <= 80


def test_a_pack_that_others_need(
    cases: str, capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Taken out, the rest is no rulebook: said so, not told as a fault of the others."""
    monkeypatch.undo()
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)
    needed = str(shipped_rules() / "pressure-sensing.yaml")
    assert main(["rules", "backtest", needed, "--cases", cases]) == 2
    assert "other packs need pressure-sensing" in capsys.readouterr().err


def test_names_that_steer_a_screen(tmp_path: Path, cases: str, capsys: Captured) -> None:
    """A file's name is shown, not obeyed, whatever bytes it is made of."""
    put(Path(cases), "x/\x1b[31mred.yaml", "case: [")
    odd = os.fsdecode(os.fsencode(Path(cases) / "x") + b"/\xff\xfe.yaml")
    try:
        Path(odd).write_text("case: [", encoding="utf-8")
    except OSError:
        pytest.skip("this disk takes no such name")
    kept = str(tmp_path / "kept")
    for more in ([], ["--json"], ["--resume", kept], ["--resume", kept]):
        assert main(["rules", "rates", "--cases", cases, *more]) == 0
        out = capsys.readouterr().out
        assert "\x1b" not in out
        assert "2 cannot be read" in flat(out) or '"broken": 2' in out


def test_ctrl_c_says_what_is_kept(
    tmp_path: Path, cases: str, capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Exit code 130, and how to go on."""

    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("sootsayer.learning.rates.tally.RatesTally.take", stopped)
    argv = ["rules", "rates", "--cases", cases]
    assert main([*argv, "--resume", str(tmp_path / "kept")]) == 130
    assert "goes on from there" in flat(capsys.readouterr().err)
    assert main(argv) == 130
    assert capsys.readouterr().err == ""
