"""`sootsayer cases list`: the open cases of a folder."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from sootsayer.commands.main import main

OPEN = "case: {id}\nformat: 1\nvehicle: {{label: 2.0 L panel van}}\nentries:\n"
ENTRY = "- {at: 2031-03-14T09:02+01:00, by: tech-1, note: a}\n"
OUTCOME = "- {at: 2031-03-14T10:02+01:00, by: tech-1, outcome: {faults: []}}\n"


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shop with an open case, a closed one, a broken one, and people."""
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)
    cases = tmp_path / "cases"
    cases.mkdir()
    (tmp_path / "shop.yaml").write_text("format: 1\n", encoding="utf-8")
    (cases / "a.yaml").write_text(OPEN.format(id="a") + ENTRY, encoding="utf-8")
    (cases / "b.yaml").write_text(OPEN.format(id="b") + ENTRY + OUTCOME, encoding="utf-8")
    (cases / "c.yaml").write_text("case: [", encoding="utf-8")
    (cases / "people.yaml").write_text("format: 1\npeople: {}\n", encoding="utf-8")
    return tmp_path


def test_open_cases(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The open ones with how far they are; what cannot be read is named, people are not."""
    assert main(["cases", "list", "--shop", str(shop)]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "1. a: 2.0 L panel van, 1 entry, last 2031-03-14 09:02" in out
    assert "b:" not in out
    assert "c cannot be read as a case" in out
    assert "people" not in out


def test_all_as_json(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """--all has the closed ones too; --json is for a program."""
    assert main(["cases", "list", "--all", "--json", "--shop", str(shop)]) == 0
    told = json.loads(capsys.readouterr().out)
    assert [(each["case"], each["closed"]) for each in told["cases"]] == [
        ("a", False), ("b", True), (None, False),
    ]  # fmt: skip


def test_options_count_before_the_action_too(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What stands before `list` is not forgotten behind it."""
    assert main(["cases", "list", "--all", "--json", "--shop", str(shop)]) == 0
    told = capsys.readouterr().out
    for typed in (["--json", "list", "--all"], ["--all", "--json", "list"]):
        assert main(["cases", *typed, "--shop", str(shop)]) == 0
        assert capsys.readouterr().out == told


def test_list_is_meant_without_an_action(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """`sootsayer cases` lists; without a shop the folder cases here is meant."""
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)
    monkeypatch.chdir(tmp_path)
    assert main(["cases"]) == 0
    assert "No open case in cases." in capsys.readouterr().out


def test_without_a_shop_cases_here_are_found_by_their_ids(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What was begun in the folder cases is found by every command as it was called then."""
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)
    monkeypatch.chdir(tmp_path)
    cases = tmp_path / "cases"
    cases.mkdir()
    (cases / "2031-03-14-a.yaml").write_text(OPEN.format(id="2031-03-14-a") + ENTRY, "utf-8")
    (cases / "sensor-offset.yaml").write_text("no case", encoding="utf-8")
    (tmp_path / "my-van.yaml").write_text(OPEN.format(id="my-van") + ENTRY, "utf-8")
    assert main(["judge", "2031-03-14-a"]) == 0
    assert main(["judge", "my-van"]) == 0
    assert main(["judge", "sensor-offset"]) == 0  # the demonstration case goes before it
    assert "2031-03-14-a: 2.0 L panel van" in capsys.readouterr().out


def test_demonstration_cases_tell_their_stories(capsys: pytest.CaptureFixture[str]) -> None:
    """Each is listed with its story, no line wider than the screen, and for a program too."""
    assert main(["cases", "list", "--demonstration"]) == 0
    out = capsys.readouterr().out
    assert max(map(len, out.splitlines())) <= 80
    assert main(["cases", "list", "--demonstration", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)["cases"]
    assert len(told) > 40
    words = out.split()
    for each in told:
        assert f"{each['case']}:" in words
        assert each["story"].split()[-1] in words
