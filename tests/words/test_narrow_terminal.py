"""French pages in a real terminal of 50 columns, where French is a third longer than English: no
line is wider than the screen, and no word is cut."""

from __future__ import annotations

import os
import re
import sys
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from tests.words.visit_pages import ANSWERS, AT, CASE

pexpect = pytest.importorskip("pexpect")
if sys.platform == "win32":
    pytest.skip("needs a terminal of Unix", allow_module_level=True)

NARROW, WIDE = 50, 100
CONTROL = re.compile(r"\x1b\[[0-9;?]*[A-Za-z]|\r")
PROMPT = r"(?<!-)> $"
CASE_OF = "estate-before-and-after"
# Part of a digest: longer than the screen, it has to be folded.
DIGEST = re.compile(r"[0-9a-f]{8,}")


def environment() -> dict[str, str]:
    plain = {name: value for name, value in os.environ.items() if name not in {"COLUMNS", "LINES"}}
    plain = {name: value for name, value in plain.items() if not name.startswith("SOOTSAYER_")}
    source = str(Path(__file__).parents[2] / "src")
    return plain | {"PYTHONPATH": source, "NO_COLOR": "1", "TERM": "xterm", "LC_ALL": "C.UTF-8"}


def started(arguments: tuple[str, ...], columns: int, folder: Path) -> Any:
    return pexpect.spawn(
        sys.executable, ["-m", "sootsayer", *arguments, "--language", "fr"], cwd=str(folder),
        env=environment(), dimensions=(24, columns), encoding="utf-8", timeout=120,
    )  # fmt: skip


def screen(arguments: tuple[str, ...], columns: int, folder: Path) -> list[str]:
    """What a command prints on such a terminal, line by line."""
    child = started(arguments, columns, folder)
    child.expect(pexpect.EOF)
    child.close()
    return [CONTROL.sub("", line) for line in child.before.replace("\r\n", "\n").split("\n")]


@cache
def words(text: str) -> frozenset[str]:
    return frozenset(re.split(r"\s+", text))


def too_wide(lines: list[str], columns: int) -> list[str]:
    return [line for line in lines if len(line) > columns]


@pytest.mark.parametrize(
    "arguments",
    [
        ("judge", CASE_OF, "--more"),
        ("why", "sensor-offset", "sensor-offset"),
        ("plan", CASE_OF, "--more"),
        ("compare", CASE_OF),
        ("report", CASE_OF),
        ("judge", "nowhere-to-be-found"),
        ("compare", CASE_OF, "--from", "après nettoyage"),
        ("judge", "broken.yaml"),
        ("records", "list", "--ledger", "kept"),
    ],
    ids=" ".join,
)
def test_it_holds(arguments: tuple[str, ...], tmp_path: Path) -> None:
    """Each line fits, and each word on the narrow screen is one of the wide screen's."""
    broken = (
        "case: broken\nformat: 1\nvehicle: {label: van, cylindres: 4, ce-qui-suit: trop long}\n"
    )
    (tmp_path / "broken.yaml").write_text(broken + "entries: []\n", encoding="utf-8")
    if "kept" in arguments:
        for case in (CASE_OF, "blocked-by-short-trips"):
            keep = ("records", "keep", case, "--by", "tech-1", "--as-advised", "--ledger", "kept")
            screen(keep, NARROW, tmp_path)
    narrow = screen(arguments, NARROW, tmp_path)
    wide = words("\n".join(screen(arguments, WIDE, tmp_path)))
    assert len(narrow) > 2
    assert too_wide(narrow, NARROW) == []
    told = words("\n".join(line for line in narrow if not line.startswith("    ")))
    cut = {word for word in told - wide if not DIGEST.fullmatch(word) and {*word} - {*"=-"}}
    assert cut == set()


def test_a_visit_as_it_is_typed(tmp_path: Path) -> None:
    """The demonstration visit, answer by answer, at 50 columns: nothing but what was typed itself
    is wider than the screen."""
    (tmp_path / "fourgon.yaml").write_text(CASE, encoding="utf-8")
    child = started(("ask", "fourgon.yaml", *AT), NARROW, tmp_path)
    seen, typed = "", ANSWERS.splitlines()
    for answer in typed:
        child.expect(PROMPT)
        seen += child.before + child.after
        child.sendline(answer)
    child.expect(pexpect.EOF)
    child.close()
    seen += child.before
    assert child.exitstatus == 0
    lines = [CONTROL.sub("", line) for line in seen.replace("\r\n", "\n").split("\n")]
    echoed = [answer[:20] for answer in typed if len(answer) > 20]
    own = [line for line in lines if not any(each in line for each in echoed)]
    assert too_wide(own, NARROW) == []
    assert "Peut-il rouler ?" in seen.replace("\u00a0", " ")
