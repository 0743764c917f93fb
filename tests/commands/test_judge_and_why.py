"""`judge` and `why` on the demonstration cases."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from sootsayer.commands.find_case import demonstration_cases
from sootsayer.commands.main import main
from sootsayer.rulebook.shipped import shipped_cases

CASES = demonstration_cases(shipped_cases())
CASE = "sensor-offset"


def test_there_are_cases_to_judge() -> None:
    """The tests below run on something."""
    assert len(CASES) >= 3
    assert CASE in CASES


@pytest.mark.parametrize("case", CASES)
def test_real_case_fits_one_screen(case: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Every demonstration case is judged within 80 columns and 24 lines, in plain text."""
    assert main(["judge", case]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert "\x1b" not in out
    lines = out.splitlines()
    assert 15 < len(lines) <= 24
    assert max(map(len, lines)) <= 80
    assert "May it be driven?" in out
    # No part is left at nothing, and no sentence is cut in its middle.
    assert "…" not in out
    assert "+ 0 of" not in out
    assert "What next: 0 of" not in out


def test_more_tells_more(capsys: pytest.CaptureFixture[str]) -> None:
    """--more prints rules with file, line and revision."""
    assert main(["judge", CASE, "--more"]) == 0
    out = capsys.readouterr().out
    assert len(out.splitlines()) > 100
    assert re.search(r"[a-z-]+\.yaml:\d+,\s+revision\s+[0-9a-f]{8}", out)


def test_json_is_the_verdict_in_plain_ascii(capsys: pytest.CaptureFixture[str]) -> None:
    """--json prints one object that any program can read."""
    assert main(["judge", CASE, "--json"]) == 0
    out = capsys.readouterr().out
    assert out.isascii()
    verdict = json.loads(out)
    assert verdict["case"] == CASE
    assert all(check["gain_bits"] > 0 for check in verdict["next_checks"])
    assert {"drive_on", "faults", "findings", "left_out"} <= set(verdict)


def test_path_and_id_are_the_same_case(capsys: pytest.CaptureFixture[str]) -> None:
    """A demonstration case by its path gives the verdict that its id gives."""
    earlier = ["--as-of", "2", "--json"]
    by_id = json_of(["judge", CASE, *earlier], capsys)
    path = str(Path(shipped_cases()) / f"{CASE}.yaml")
    assert json_of(["judge", path, *earlier], capsys) == by_id


def test_as_of_judges_an_earlier_state(capsys: pytest.CaptureFixture[str]) -> None:
    """--as-of 1 knows the first entry alone; 0 knows nothing."""
    assert json_of(["judge", CASE, "--as-of", "1", "--json"], capsys)["as_of"]["entry"] == 1  # type: ignore[index]
    assert main(["judge", CASE, "--as-of", "0"]) == 0
    assert "nothing entered yet" in capsys.readouterr().out


def test_same_case_gives_the_same_bytes(capsys: pytest.CaptureFixture[str]) -> None:
    """A demonstration case never looks at the clock."""
    assert main(["judge", CASE, "--as-of", "2", "--json"]) == 0
    first = capsys.readouterr().out
    assert main(["judge", CASE, "--as-of", "2", "--json"]) == 0
    assert capsys.readouterr().out == first


@pytest.mark.parametrize(
    "thing", ["sensor-offset", "dp-sensor", "restriction", "drive-on", "dp@rest", "code:P2453"]
)
def test_why_answers_on_screen_and_as_json(thing: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Every kind of thing has an answer, drawn and as JSON (on the case's first entries)."""
    assert main(["why", CASE, thing, "--as-of", "4"]) == 0
    out = capsys.readouterr().out
    assert "What we know" in out
    assert max(map(len, out.splitlines())) <= 80
    if thing == "drive-on":
        assert json_of(["why", CASE, thing, "--as-of", "1", "--json"], capsys)["thing"] == thing


def json_of(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> dict[str, object]:
    assert main(arguments) == 0
    read: dict[str, object] = json.loads(capsys.readouterr().out)
    return read


BAD_FILES = {
    "empty": b"",
    "binary": bytes(range(256)),
    "broken": b"case: [x\n",
    "tags": b"case: !!python/object:os.system {}\n",
    "anchors": b"case: &a x\nformat: *a\n",
    "escapes": b"case: '\x1b[31m'\nformat: 1\n",
    "format": b"case: x\nformat: 9\nvehicle: {label: van}\nentries:\n",
}


@pytest.mark.parametrize("name", sorted(BAD_FILES))
def test_bad_file_is_refused_with_its_place(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A bad case file gives file:line:column and a next action, exit 2, no traceback."""
    path = tmp_path / f"{name}.yaml"
    path.write_bytes(BAD_FILES[name])
    assert main(["judge", str(path)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert re.search(rf"{name}\.yaml:\d+:\d+: ", err)
    assert "→" in err
    assert "\x1b" not in err
    assert "Traceback" not in err


def test_folder_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A folder instead of a file says so."""
    assert main(["judge", str(tmp_path)]) == 2
    assert "folder" in capsys.readouterr().err


def test_why_of_work_has_its_interlocks_and_what_would_settle_them(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Its state, every interlock that is not clear with its reason, the checks with their
    cautions, and what it cures; the same as JSON."""
    assert main(["why", "blocked-by-short-trips", "regenerate-on-the-road", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    work = told["remedy"]
    assert (told["kind"], told["value"], work["state"]) == ("remedy", "forbidden", "forbidden")
    assert work["confidences"].keys() == work["cures"].keys()
    assert work["confidences"]["soot-overload"] > 0.9
    states = {reason["interlock"]: reason["state"] for reason in work["reasons"]}
    assert {"blocked", "not-yet-clear"} <= set(states.values())
    asked = {check for reason in work["reasons"] for check in reason["would_clear"]}
    assert {check["id"] for check in work["clears"]} == asked
    assert main(["why", "blocked-by-short-trips", "regenerate-on-the-road"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "forbidden as things stand" in out
    for check in work["clears"]:
        assert " ".join(check["does"].split()) in out
        assert " ".join(check["caution"].split()) in out
    for reason in work["reasons"]:
        assert reason["says"] in out


def test_why_of_permitted_work_says_that_nothing_stands_open(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """And where its steps stand, which it does not tell."""
    assert main(["why", "additive-run-dry", "fill-additive"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "nothing entered forbids it; the technician decides" in out
    assert "No interlock of it stands open." in out
    assert "sootsayer plan additive-run-dry --more" in out


def test_why_of_a_fault_names_the_work_that_cures_it(capsys: pytest.CaptureFixture[str]) -> None:
    """By the ids that why answers for in turn."""
    assert main(["why", "blocked-by-short-trips", "short-trip-duty"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "Work that cures it: Change how it is driven (change-how-it-is-driven)" in out
