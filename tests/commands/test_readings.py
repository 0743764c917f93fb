"""`sootsayer readings`: shown, entered, drawn, refused."""

from __future__ import annotations

import json
import shutil
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import pytest

from sootsayer.casework.case_file import read_case
from sootsayer.commands.main import main
from sootsayer.rulebook.compiled import load_rulebook
from sootsayer.rulebook.shipped import shipped_cases, shipped_rules
from tests.casework.logs.making_logs import BURNING, DEMONSTRATION, IDLE, drive, text

LOG = str(DEMONSTRATION)
MODEL = load_rulebook([shipped_rules()]).model
Capture = pytest.CaptureFixture[str]


@pytest.fixture
def case(tmp_path: Path) -> Path:
    """A case of one's own, open."""
    return Path(shutil.copy(shipped_cases() / "sensor-offset.yaml", tmp_path / "my-case.yaml"))


def log_of(folder: Path, content: str, name: str = "drive.csv") -> str:
    file = folder / name
    file.write_text(content, encoding="utf-8")
    return str(file)


def test_shown_without_a_case(capsys: Capture) -> None:
    """Columns, windows and the picture in characters; nothing else is needed."""
    assert main(["readings", LOG]) == 0
    shown = capsys.readouterr()
    assert shown.err == ""
    for part in ('dp: "DPF differential pressure [mbar]" in mbar', "held at 2,500 rpm",
                 "dp@2500 52.1 mbar", "Fit: 0.2", "name the case"):  # fmt: skip
        assert part in shown.out
    assert max(map(len, shown.out.splitlines())) <= 80


def test_entered_and_judged(case: Path, capsys: Capture) -> None:
    """Chosen windows become entries that are read back, with the log's digest and columns."""
    before = case.read_bytes()
    arguments = ["--take", "1,2,3", "--round", "second", "--at", "2031-04-02T15:00+02:00"]
    assert main(["readings", LOG, str(case), *arguments]) == 0
    assert "3 entries added" in capsys.readouterr().out
    assert case.read_bytes().startswith(before)
    entries = read_case(case, MODEL).entries[-3:]
    assert [{said.slot for said in entry.said} >= {slot} for entry, slot in
            zip(entries, ("dp@rest", "dp@idle", "dp@2500"), strict=True)] == [True] * 3  # fmt: skip
    assert {(entry.round, entry.source.value, entry.by) for entry in entries} == {
        ("second", "scan", "tech-2")
    }
    assert [entry.at for entry in entries] == sorted(entry.at for entry in entries)
    note = entries[0].note or ""
    assert "panel-van-drive.csv" in note
    assert 'dp is "DPF differential pressure [mbar]" in mbar, score 1.00' in note
    assert main(["judge", str(case)]) == 0


def test_all_takes_every_window_that_gives_something(case: Path, capsys: Capture) -> None:
    """--all leaves out what no rule asks for."""
    assert main(["readings", LOG, str(case), "--all", "--round", "second"]) == 0
    shown = capsys.readouterr()
    assert "added to" in shown.out
    assert "the log has no date" in shown.err
    assert "--at" in shown.err


def test_json_shows_and_writes_nothing(case: Path, capsys: Capture) -> None:
    """--json is the same with and without a case, and the case stays as it was."""
    before = case.read_bytes()
    assert main(["readings", LOG, str(case), "--json"]) == 0
    with_case = capsys.readouterr().out
    assert main(["readings", LOG, "--json"]) == 0
    plain = json.loads(capsys.readouterr().out)
    assert json.loads(with_case)["windows"] == plain["windows"]
    assert case.read_bytes() == before
    assert plain["format"] == 1
    assert [window["point"] for window in plain["windows"]] == [
        "rest", "idle", "2500", "pull", "road"
    ]  # fmt: skip
    assert with_case.isascii()


def test_picture_is_one_file_without_script(tmp_path: Path, capsys: Capture) -> None:
    """The picture is well-formed, refers to nothing, and escapes what came from outside."""
    hostile = log_of(tmp_path, text(drive()), "a<script>&\"'.csv")
    file = tmp_path / "drive.svg"
    assert main(["readings", hostile, "--picture", str(file)]) == 0
    root = ElementTree.fromstring(file.read_text(encoding="utf-8"))
    names = {element.tag.rsplit("}", 1)[-1] for element in root.iter()}
    assert names <= {"svg", "title", "rect", "text", "polyline", "line", "circle"}
    attributes = {name for element in root.iter() for name in element.attrib}
    assert not any("href" in name or name.startswith("on") for name in attributes)
    assert "<script>" in "".join(root.itertext())
    capsys.readouterr()
    before = file.read_bytes()
    assert main(["readings", hostile, "--picture", str(file)]) == 2
    assert "already" in capsys.readouterr().err
    assert file.read_bytes() == before


@pytest.mark.parametrize(
    ("arguments", "what", "instead"),
    [
        (["--take", "9"], "no window 9", "1 to 5"),
        (["--take", "0"], "no window 0", "1 to 5"),
        (["--take", "one"], '"one" is no list', "as 1,3"),
        (["--take", ""], "is no list", "as 1,3"),
        (["--take", "1", "--all"], "exclude each other", "leave one"),
        (["--take", "1", "--json"], "enters nothing", "leave one"),
        (["--take", "1", "--round", "after_clean"], "lower case", "after-clean"),
        (["--take", "1", "--by", "A. Person"], "lower case", "tech-1"),
        (["--take", "1", "--at", "noon"], "noon", "2031-03-14T09:02+01:00"),
        (["--column", "dp"], "does not say", '--column dp="Name'),
        (["--column", "flux=3"], 'nothing here is called "flux"', "engine-speed"),
        (["--column", "dp=Nothing like it"], 'no column is called "Nothing', "the columns are"),
        (["--unit", "dp=stone"], 'no unit is called "stone"', "mbar"),
    ],
)
def test_refused(
    arguments: list[str], what: str, instead: str, case: Path, capsys: Capture
) -> None:
    """A wrong choice is refused with the next action, and the case stays as it was."""
    before = case.read_bytes()
    assert main(["readings", LOG, str(case), *arguments]) == 2
    err = capsys.readouterr().err
    assert what in err
    assert instead in err
    assert case.read_bytes() == before


def test_where_nothing_can_be_entered(case: Path, capsys: Capture) -> None:
    """Not without a case, in a demonstration case, or in a closed one."""
    assert main(["readings", LOG, "--take", "1"]) == 2
    assert "none is named" in capsys.readouterr().err
    assert main(["readings", LOG, "sensor-offset", "--take", "1"]) == 2
    assert "copy it" in capsys.readouterr().err
    closing = "- {at: 2031-04-03T10:00+02:00, by: tech-2, outcome: {faults: [sensor-offset]}}\n"
    case.write_text(case.read_text(encoding="utf-8") + closing, encoding="utf-8")
    before = case.read_bytes()
    assert main(["readings", LOG, str(case), "--take", "1"]) == 2
    assert "closed" in capsys.readouterr().err
    assert case.read_bytes() == before


def test_a_regeneration_is_not_taken(tmp_path: Path, case: Path, capsys: Capture) -> None:
    """It is shown, kept apart, and refused with the reason."""
    log = log_of(tmp_path, text(drive((IDLE, BURNING))))
    assert main(["readings", log, str(case), "--take", "2"]) == 2
    shown = capsys.readouterr()
    assert "a regeneration runs" in shown.err
    assert main(["readings", log]) == 0
    assert "a regeneration under way" in capsys.readouterr().out


def test_two_windows_of_one_point_are_not_both_taken(
    tmp_path: Path, case: Path, capsys: Capture
) -> None:
    """Which of two idles counts is for a person to say."""
    from tests.casework.logs.making_logs import HELD_2500

    log = log_of(tmp_path, text(drive((IDLE, HELD_2500, IDLE))))
    assert main(["readings", log, str(case), "--all"]) == 2
    assert "more than one of these windows is of idle" in capsys.readouterr().err


def test_no_window_is_the_answer_no(tmp_path: Path, capsys: Capture) -> None:
    """A log in which nothing is held gives exit code 1, and says what to record."""
    log = log_of(tmp_path, text(list(drive((IDLE,)))[:12]))
    assert main(["readings", log]) == 1
    assert "hold 2,500 rpm" in capsys.readouterr().out


@pytest.mark.parametrize("name", ["nowhere.csv", ""])
def test_no_such_log(name: str, capsys: Capture) -> None:
    """A log that is not there is said to be not there."""
    assert main(["readings", name]) == 2
    assert "there is no file" in capsys.readouterr().err


def test_bad_log_in_the_usual_form(tmp_path: Path, capsys: Capture) -> None:
    """file:line:column, what, the next action; nothing on stdout."""
    log = log_of(tmp_path, "rpm,Differential pressure [mbar]\n800,12\n801,13\n")
    assert main(["readings", log]) == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    assert "drive.csv:1:1: no column of time was recognised" in shown.err
    assert "→ say which one it is: --column time=" in shown.err


def test_nothing_steers_the_screen(tmp_path: Path, capsys: Capture) -> None:
    """Escapes in the names of columns and in cells are written out."""
    content = text(drive((IDLE,))).replace("Accelerator pedal [%]", "\x1b[31mGear \u202e")
    content = content.replace("88,0,0\n", "88,0,\x1b]0;title\x07\n", 1)
    log = log_of(tmp_path, content)
    main(["readings", log])
    shown = capsys.readouterr()
    assert "\x1b" not in shown.out + shown.err
    assert "\u202e" not in shown.out + shown.err


def test_another_vehicle_is_warned_of(tmp_path: Path, case: Path, capsys: Capture) -> None:
    """A log of a 3.0 L engine for a 2.0 L case warns, and leaves the choice."""
    log = log_of(tmp_path, text(drive((IDLE,)), above=["Engine;3.0 L"]))
    assert main(["readings", log, str(case)]) == 0
    assert "is it the log of another vehicle?" in capsys.readouterr().err
