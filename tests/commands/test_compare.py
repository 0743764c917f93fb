"""`compare` from the command line: pages, exit codes, refusals, the picture."""

from __future__ import annotations

import json
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from sootsayer.commands.main import main

CASE = "estate-before-and-after"
HEAD = """case: made
format: 1
vehicle: {label: %s, engine litres: 2.0, filter litres: 2.8}
entries:
"""
HOT = "coolant@idle: 88 C, regeneration-status: not running"


def made(folder: Path, *rounds: tuple[str, str], label: str = "2.0 L van") -> str:
    """The path of a case with one entry of readings for each round."""
    lines = [
        f"- {{at: 2031-06-02T{9 + i:02d}:00+02:00, by: tech-1, round: {name}, source: scan, "
        f"facts: {{{facts}}}}}\n"
        for i, (name, facts) in enumerate(rounds)
    ]
    path = folder / "made.yaml"
    path.write_text(HEAD % label + "".join(lines), encoding="utf-8")
    return str(path)


def test_it_worked(capsys: pytest.CaptureFixture[str]) -> None:
    """The demonstration case: two rows, the picture, one sentence, what remains; exit code 0."""
    assert main(["compare", CASE]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert "\x1b" not in out
    assert max(map(len, out.splitlines())) <= 80
    flat = " ".join(out.split())
    assert flat.count("more than instruments and conditions explain") == 2
    assert "It worked: the pressure is down to 30 %" in flat
    for word in (
        "Ash:",
        "Cause: Thermostat stuck open",
        "Oil:",
        "a figure that is reckoned never shows a clean",
    ):
        assert word in flat
    for promise in ("safe", "guarantee", "certified", "approved"):
        assert promise not in flat.lower()


@pytest.mark.parametrize(
    ("earlier", "later", "code", "sentence"),
    [
        (f"dp@idle: 20, {HOT}", f"dp@idle: 19, {HOT}", 1, "Not shown: the change is no more"),
        (f"dp@idle: 9, {HOT}", f"dp@idle: 33, {HOT}", 1, "Worse: the pressure is up to"),
        ("dp@idle: 72, coolant@idle: 24 C", f"dp@idle: 15, {HOT}", 1, "Refused: no reading"),
        (f"dp@idle: 40, {HOT}", f"dp@idle: 14, {HOT}", 0, "Partly: the pressure is down to 35 %"),
        ("soot-shown: 30 g", "soot-shown: 0 g", 1, "Refused: no reading"),
    ],
)
def test_exit_code_and_sentence(
    earlier: str,
    later: str,
    code: int,
    sentence: str,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """0 where it helped, 1 where that is not shown, worse or refused; and it is said."""
    path = made(tmp_path, ("arrival", earlier), ("later", later))
    assert main(["compare", path]) == code
    assert sentence in " ".join(capsys.readouterr().out.split())


def test_two_of_three_rounds(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """--from and --to choose; without them it is the first and the newest."""
    three = [("arrival", 90), ("after-clean", 30), ("after-run", 15)]
    path = made(tmp_path, *((name, f"dp@idle: {dp}, {HOT}") for name, dp in three))
    assert main(["compare", path, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert (told["from"], told["to"]) == ("arrival", "after-run")
    assert main(["compare", path, "--json", "--from", "after-clean"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert (told["from"], told["to"]) == ("after-clean", "after-run")
    assert told["changes"][0]["difference"]["value"] == -15


@pytest.mark.parametrize(
    ("rounds", "options", "says"),
    [
        ((), (), ("no round of made has readings", "arrival")),
        ((("arrival", "dp@idle: 9"),), (), ("only the round arrival", "after-road-run")),
        ((("arrival", "dp@idle: 9"),), ("--to", "arival"), ("no round", "did you mean")),
        (
            (("arrival", "dp@idle: 9"), ("later", "dp@idle: 9")),
            ("--from", "later", "--to", "arrival"),
            ("no before and after", "earlier round"),
        ),
        (
            (("arrival", "dp@idle: 9"), ("later", "dp@idle: 9")),
            ("--from", "later"),
            ("no before and after", "arrival, later"),
        ),
        (
            (("arrival", f"dp@idle: 9, {HOT}"), ("later", f"dp@idle: 9, {HOT}")),
            ("--picture", "never-written.svg"),
            ("nothing to draw", "--picture"),
        ),
    ],
)
def test_wrong_use_is_told(
    rounds: tuple[tuple[str, str], ...],
    options: tuple[str, ...],
    says: tuple[str, ...],
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """No rounds, one round, a round that is not there, the wrong order: exit code 2, and why."""
    assert main(["compare", made(tmp_path, *rounds), *options]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    for word in says:
        assert word in err


def test_a_round_without_a_time_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Readings whose entry has no time are refused where they stand."""
    path = Path(made(tmp_path, ("arrival", "dp@idle: 9"), ("later", "dp@idle: 9")))
    text = path.read_text(encoding="utf-8").replace("at: 2031-06-02T10:00+02:00, ", "")
    path.write_text(text, encoding="utf-8")
    assert main(["compare", str(path)]) == 2
    err = capsys.readouterr().err
    assert "made.yaml:6" in err
    assert "at" in err


def test_the_picture_stands_alone(tmp_path: Path) -> None:
    """The SVG is well-formed, has both rounds and the levels, and fetches and runs nothing."""
    file = tmp_path / "picture.svg"
    assert main(["compare", CASE, "--picture", str(file)]) == 0
    text = file.read_text(encoding="utf-8")
    root = ElementTree.fromstring(text)
    said = " ".join(part.strip() for part in root.itertext())
    for word in ("1 is arrival", "2 is after-road-run", "blocked", "raised"):
        assert word in said
    assert len(root.findall(".//{*}circle")) == 4
    assert not re.search(r"<script|href|url\(|@import|<image|on\w+=", text)
    assert main(["compare", CASE, "--picture", str(file)]) == 2  # never written over


def test_hostile_labels_are_made_visible(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Text of a case can steer neither the screen nor the picture."""
    flow = "air@idle: 48 kg/h, exhaust-temperature@idle: 150 C"
    path = made(
        tmp_path,
        ("arrival", f"dp@idle: 40, {flow}, {HOT}"),
        ("later", f"dp@idle: 14, {flow}, {HOT}"),
        label='"</svg><script>alert(1)</script>"',
    )
    file = tmp_path / "picture.svg"
    assert main(["compare", path, "--picture", str(file)]) == 0
    assert "<script" not in file.read_text(encoding="utf-8")
    assert "\x1b" not in capsys.readouterr().out
