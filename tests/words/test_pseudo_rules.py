"""The pages about the rules, and those over an archive, in the language made of English."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from sootsayer.rulebook.shipped import shipped_cases
from tests.words.drawing import Page, written
from tests.words.pseudo import LANGUAGE, words_in

# Closed cases of the shop: what they are of, and what was found in the end.
ARCHIVE = {
    "sensor-offset": "sensor-offset",
    "blocked-by-short-trips": "soot-overload, short-trip-duty",
    "hose-mended": "front-hose-leaks",
}
NUMBERS = """\
pack: shop-numbers
format: 1
title: Numbers
uses: [pressure-sensing, hoses]
basis: {kind: shop, source: cases}
overrides:
- {of: dp-rest-max, at: default, was: 5 mbar, now: 60 mbar, why: gauges}
- {of: front-hose-leaks, at: prior, was: rarely, now: 30 of 100, why: vans}
"""
WRONG = """\
pack: shop-wrong
format: 1
title: Wrong
uses: [pressure-sensing]
basis: {kind: shop, source: cases}
findings:
  shop-odd:
    says: One more
    when: {dpp@rest: {above: 3}}
    proofs: [{given: {dp@rest: 5}, then: true}, {given: {dp@rest: 1}, then: true}]
  shop-never:
    says: One that cannot be
    when: {all: [{dp@rest: {above: 3}}, {dp@rest: {below: 2}}]}
    proofs: [{given: {}, then: unknown}]
"""
MADE = frozenset({
    "shop-soot-at-clamp-seen", "shop-soot-at-clamp-look", "shop-soot-clamp", "shop-high-limit",
    "shop-pressure-high", LANGUAGE,
})  # fmt: skip
"""Ids that a lesson makes, and the language that it has no words in."""

# Keys and values of packs, which complaints name.
KEYS = frozenset({
    "points", "channels", "signals", "quantities", "checks", "limits", "families", "faults",
    "evidence", "actions", "interlocks", "remedies", "false", "true", LANGUAGE,
})  # fmt: skip
LESSON = """\
There is soot at the clamp
new
1
Soot at the clamp of the front hose
Look at the clamp with a lamp
3
4
Let the exhaust cool first
yes
front-hose-leaks
usually
none
rarely
3
shop-soot-at-clamp
yes
"""
NUMBER = """\
The pressure is high
dp@idle
above 30
soot-overload
7 of 9
none
1 of 20
1
sensor-offset
shop-high
yes
"""


@pytest.fixture(name="archive")
def _archive(tmp_path: Path) -> frozenset[str]:
    """A shop with closed cases, in `own`; the words of them."""
    cases = tmp_path / "own" / "cases"
    cases.mkdir(parents=True)
    (tmp_path / "own" / "shop.yaml").write_text("format: 1\n", encoding="utf-8")
    known = frozenset({"own", "cases"})
    for name, faults in ARCHIVE.items():
        text = (shipped_cases() / f"{name}.yaml").read_text(encoding="utf-8")
        end = f"- {{at: 2031-06-01T10:00+02:00, by: tech-1, outcome: {{faults: [{faults}]}}}}\n"
        (cases / f"{name}.yaml").write_text(text.rstrip("\n") + "\n" + end, encoding="utf-8")
        known |= written(name)
    return known


@pytest.fixture(name="numbers")
def _numbers(tmp_path: Path) -> str:
    (tmp_path / "shop-numbers.yaml").write_text(NUMBERS, encoding="utf-8")
    return "shop-numbers.yaml"


@pytest.mark.slow
def test_rules_check(page: Page) -> None:
    """The shipped rules, with what nothing shows."""
    page("rules", "check", "--coverage", known=frozenset({"interlock", "applies", "when"}))


@pytest.mark.parametrize("text", [WRONG, WRONG.replace("dpp", "dp"), WRONG + "odd: 1\n"])
def test_rules_check_finds(text: str, page: Page, tmp_path: Path) -> None:
    """What is wrong in a pack, but for what stands in it."""
    file = tmp_path / "shop-wrong.yaml"
    file.write_text(text, encoding="utf-8")
    page("rules", "check", "shop-wrong.yaml", code=1, known=words_in(file) | KEYS | {"dpp"})


def test_rates(archive: frozenset[str], page: Page) -> None:
    """Rates and calibration, of all and of one thing, and as a difference."""
    there = ("--shop", "own", "--processes", "1")
    page("rules", "rates", "--more", *there, known=archive)
    page("rules", "rates", "soot-overload", *there, known=archive)


def test_backtest(archive: frozenset[str], numbers: str, page: Page) -> None:
    """A backtest with a looser permission."""
    there = ("--shop", "own", "--processes", "1", "--more")
    page("rules", "backtest", numbers, *there, code=1, known=archive | {"shop-numbers"})


@pytest.mark.parametrize("answers", [LESSON, NUMBER])
def test_a_lesson(answers: str, archive: frozenset[str], page: Page, tmp_path: Path) -> None:
    """The questions of `rules new`, but for what was typed."""
    (tmp_path / "answers.txt").write_text(answers, encoding="utf-8")
    known = archive | frozenset(re.findall(r"[\w-]+", answers)) | MADE
    page("rules", "new", "--answers", "answers.txt", "--shop", "own", known=known)
