"""A permission granted at nine is not granted at eleven, and the page says so."""

from __future__ import annotations

import pytest

from sootsayer.commands.main import main

CASE = "quiet-healthy-van"


def page(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(["judge", CASE, *arguments]) == 0
    return " ".join(capsys.readouterr().out.split())


def test_readings_grow_old(capsys: pytest.CaptureFixture[str]) -> None:
    """At the time of the case it may be driven; hours later the same readings clear nothing."""
    fresh = page(capsys)
    assert "Nothing entered forbids it" in fresh
    assert "Read too long ago" not in fresh
    later = page(capsys, "--at", "2031-07-08T12:00+02:00")
    assert "That is not yet known" in later
    assert "Read too long ago: " in later


def test_an_earlier_state_is_judged_at_its_own_time(capsys: pytest.CaptureFixture[str]) -> None:
    """As of an early entry what came later is not yet known, and nothing has grown old."""
    early = page(capsys, "--as-of", "2")
    assert "as of entry 2" in early
    assert "Not known yet whether: " in early
    assert "Read too long ago" not in early
