"""Typed lines and command lines by hypothesis, which makes what fails as short as it can be."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from tests.fuzz.running import Attempt, tried
from tests.fuzz.typed import COMMAND_LINES, LINES
from tests.fuzz.world import AT, World, lay, parser_made_each_time, world

TRIED = settings(deadline=None, max_examples=60, suppress_health_check=list(HealthCheck))
LATE = ("--at", AT)


@pytest.fixture(scope="module", name="made")
def one_world(tmp_path_factory: pytest.TempPathFactory) -> Iterator[World]:
    with pytest.MonkeyPatch.context() as patch:
        for name in ("SOOTSAYER_SHOP", "SOOTSAYER_LANGUAGE"):
            patch.delenv(name, raising=False)
        patch.setenv("NO_COLOR", "1")
        made = world(tmp_path_factory.mktemp("made") / "world", patch)
        parser_made_each_time(patch)
        yield made


def does_no_harm(attempt: Attempt, folder: Path) -> None:
    with pytest.MonkeyPatch.context() as patch:
        lay(folder, dict(attempt.files))
        patch.chdir(folder)
        assert tried(attempt, folder) == []


@TRIED
@given(typed=st.lists(LINES, max_size=6), by=st.sampled_from(["", "--fixed", "--from-sheet"]))
@example(typed=["why dp", "dp@idle 8", "slip", "all later", "done"], by="")
def test_whatever_is_typed(typed: list[str], by: str, made: World, tmp_path: Path) -> None:
    """At a terminal: every line is answered, and the case can be read afterwards."""
    command = ["ask", "case.yaml", *LATE, *([by] if by else [])]
    text = "".join(f"{line}\n" for line in typed)
    attempt = Attempt(
        {"case.yaml": made.cases["van"]}, [command], text, grows=("case.yaml",),
        after=("why", "case.yaml", "drive-on", *LATE),
    )  # fmt: skip
    does_no_harm(attempt, tmp_path / "work")


@TRIED
@given(words=COMMAND_LINES)
@example(words=["ask", "case.yaml", "--answers", "\x00"])
def test_whatever_is_the_command_line(words: list[str], made: World, tmp_path: Path) -> None:
    """An answer or a complaint; a file that is there already stays what it is."""
    files = {"case.yaml": made.cases["van"], "log.csv": made.logs[1]}
    attempt = Attempt(files, [words], appears=("",), grows=("case.yaml",))
    does_no_harm(attempt, tmp_path / "work")
