"""The pages of records, of cases and of reports in the language made of English."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import html5lib
import pytest

from sootsayer.rulebook.shipped import shipped_cases
from tests.words.drawing import CASE, ROUNDS, Page, assert_said, written
from tests.words.pseudo import Pseudo, words_in

SHOP = """\
format: 1
currency: EUR
labour rate: 60
tools: [scan tool, gauge]
limits:
  dp-rest-max: {value: 60 mbar, source: own}
chances:
  zero-sensor: {sensor-offset: 0.5}
prices:
  zero-sensor: {from: 1, to: 5}
"""


@pytest.fixture(name="mine")
def _mine(tmp_path: Path) -> frozenset[str]:
    """An open case that may be written into, in a shop; its words."""
    (tmp_path / "own" / "cases").mkdir(parents=True)
    (tmp_path / "own" / "shop.yaml").write_text("format: 1\n", encoding="utf-8")
    shutil.copy(shipped_cases() / f"{CASE}.yaml", tmp_path / "own" / "cases" / f"{CASE}.yaml")
    return written(CASE) | {"own", "records"}


def test_a_ledger(mine: frozenset[str], page: Page, tmp_path: Path) -> None:
    """Kept, listed, replayed with what would differ, closed with an outcome and explained."""
    there = ("--shop", "own")
    page("records", "list", *there, known=mine)
    page("records", "keep", CASE, "--by", "tech-1", "--as-advised", *there, known=mine)
    page("records", "list", *there, known=mine | {"pane"})  # its vehicle, cut
    (tmp_path / "own" / "shop.yaml").write_text(SHOP, encoding="utf-8")
    told = page("records", "replay", "1", "--more", *there, known=mine | {"EUR"})
    assert "[dp-rest-max]" in told
    page("records", "replay", *there, known=mine | {"EUR"})
    closing = ("--by", "tech-1", "--faults", CASE, "--cured-by", "zero-sensor")
    page("records", "outcome", "1", *closing, "--proved-by", "recheck", *there, known=mine)
    page("records", "list", *there, known=mine | {"recheck", "pane", "sensor-o"})
    page("records", "explain", "1", *there, known=mine | {"recheck", "pane", "sensor-o"})
    page("records", "verify", *there, known=mine)


def test_what_is_wrong_with_records(mine: frozenset[str], page: Page, tmp_path: Path) -> None:
    """Complaints of `records`."""
    there = ("--shop", "own")
    page("records", "keep", CASE, "--by", "tech-1", "--as-advised", *there, known=mine)
    page("records", "replay", "9", *there, code=2, known=mine)
    page("records", "list", "--since", "May", *there, code=2, known=mine)
    page("records", "outcome", "1", "--by", "tech-1", *there, code=2, known=mine | {"ID"})
    wrong = ("--by", "tech-1", "--faults", "odd")
    page("records", "outcome", "1", *wrong, *there, code=2, known=mine | {"faults"})
    ledger = tmp_path / "own" / "records" / "ledger.jsonl"
    ledger.write_bytes(ledger.read_bytes().replace(b"tech-1", b"tech-2"))
    page("records", "verify", *there, code=1, known=mine)
    page("records", "replay", *there, code=2, known=mine)


@pytest.mark.parametrize("case", [CASE, ROUNDS])
def test_the_html_report(case: str, page: Page, pseudo: Pseudo, tmp_path: Path) -> None:
    """Every text of the page, its title and what is read aloud, but for what stands in the case."""
    page("report", case, "-o", "report.html", known=written(case))
    assert_said(_texts(tmp_path / "report.html"), pseudo, written(case))


def test_the_html_for_an_assessor(page: Page, pseudo: Pseudo, tmp_path: Path) -> None:
    """The same of the page for an assessor."""
    known = written(CASE) | {"records"}
    page("records", "keep", CASE, "--by", "tech-1", "--as-advised", known=known)
    page("records", "explain", "1", "-o", "record.html", known=known)
    assert_said(_texts(tmp_path / "record.html"), pseudo, known)


def _texts(file: Path) -> str:
    """What a reader of the page sees or hears, line by line."""
    tree = html5lib.parse(file.read_text(encoding="utf-8"), namespaceHTMLElements=False)
    for style in [*tree.iter("style")]:
        style.text = ""
    heard = [each.get(name, "") for each in tree.iter() for name in ("alt", "aria-label", "title")]
    seen = [re.sub(r"\s+", " ", text) for text in tree.itertext()]
    return "\n".join([*seen, *heard])


def test_cases(mine: frozenset[str], page: Page) -> None:
    """Lists of cases, and cases that are drawn."""
    page("cases", "list", "--shop", "own", known=mine)
    made = ("--n", "1", "--seed", "7", "--out", "drawn", "--processes", "1")
    page("cases", "make", *made, known=mine)


def test_a_log_into_a_case(mine: frozenset[str], page: Page, tmp_path: Path) -> None:
    """Readings entered, and one that gives nothing."""
    log = shipped_cases() / "logs" / "panel-van-drive.csv"
    shutil.copy(log, tmp_path / "drive.csv")
    known = mine | words_in(log) | {"drive", "csv", "time", "road-speed", "pedal", "engine-speed"}
    arguments = ("--all", "--round", "second", "--at", "2031-04-02T15:00+02:00")
    page("readings", "drive.csv", CASE, *arguments, "--shop", "own", known=known)
