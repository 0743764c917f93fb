"""A visit in French against the pages that are kept of it; `visit_pages.py` says how to refresh
them."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from sootsayer.catalogue import say_count, speaking
from sootsayer.commands.main import main
from sootsayer.console import judge_texts
from sootsayer.console.output import fitting
from tests.words.visit_pages import COMMANDS, PAGES, WIDTHS, file_of, pages

drawn = cache(pages)
EACH = [(name, width) for width in WIDTHS for name in COMMANDS]
# A sheet to be printed, of 80 columns everywhere.
AS_WIDE_AS_THEY_ARE = ("report",)


@pytest.mark.parametrize(("name", "width"), EACH)
def test_page_is_as_kept(name: str, width: int) -> None:
    """A French page changes only when somebody wanted it to."""
    assert drawn(width)[name] == file_of(name, width).read_text(encoding="utf-8")


def test_every_kept_page_is_of_the_visit() -> None:
    """None outlives its command, and no command failed when it was kept."""
    assert set(PAGES.glob("*.txt")) == {file_of(*each) for each in EACH}
    for file in PAGES.glob("*.txt"):
        assert file.read_text(encoding="utf-8").endswith("[0]\n"), file.name


@pytest.mark.parametrize("width", WIDTHS)
def test_no_line_is_wider_than_the_terminal(width: int) -> None:
    """French is longer than English, and folds; only what was typed stands as it was typed."""
    lines = [
        line
        for name in COMMANDS
        if width == WIDTHS[0] or name not in AS_WIDE_AS_THEY_ARE
        for line in file_of(name, width).read_text(encoding="utf-8").splitlines()
        if "> " not in line
    ]
    assert len(lines) > 100
    assert [line for line in lines if len(line) > width] == []


def test_spaces_hold_before_high_marks() -> None:
    """No page has an ordinary space before `;`, inside quotes or before
    the mark of a per cent, and no line begins with `:` or `;`."""
    for file in PAGES.glob("*.txt"):
        for line in file.read_text(encoding="utf-8").splitlines():
            told = line.partition("> ")[0]  # what is typed behind a prompt is typed as it is
            assert not told.lstrip().startswith((": ", "; ", "»")), f"{file.name}: {line}"
            assert not re.search(r" [;»]|« |\d %", told), f"{file.name}: {line}"


@pytest.mark.parametrize("name", sorted(COMMANDS))
def test_on_an_ascii_terminal_nothing_is_lost(name: str) -> None:
    """Accents fall, quotes and bars become plain ones; no sign is replaced by a question mark."""
    page = file_of(name, 80).read_text(encoding="utf-8")
    plain = fitting(page, "ascii")
    assert plain.isascii()
    assert plain.count("?") == page.count("?")
    assert sum(map(str.isalnum, plain)) >= sum(map(str.isalnum, page))  # œ becomes two


@pytest.mark.parametrize(
    ("count", "said"),
    [(0, "0 contrôle reste ouvert"), (1, "1 contrôle reste ouvert"), (2, "2 contrôles restent")],
)
def test_none_and_one_are_singular_in_french(count: int, said: str) -> None:
    """French has none with one, where English has it with many."""
    with speaking("fr"):
        assert said in say_count(*judge_texts.NEXT_ONLY_SHUT, count=count)


@pytest.mark.parametrize(
    ("count", "said"), [(0, "0 more stay open"), (1, "1 more stays open"), (2, "2 more stay open")]
)
def test_the_same_in_english(count: int, said: str) -> None:
    """One stays, others stay."""
    assert said in say_count(*judge_texts.NEXT_ONLY_SHUT, count=count)


HEADINGS = {
    "fr": ("Peut-il rouler", "Ce qui n&#x27;allait pas", "Empreintes", "Confiance"),
    "en": ("May it be driven?", "What was wrong", "Digests", "Confidence"),
}


@pytest.mark.parametrize(("own", "customers"), [("fr", "en"), ("en", "fr")])
def test_the_customer_reads_another_language(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, own: str, customers: str
) -> None:
    """Each page is whole in its own language: headings, and the words of confidence."""
    monkeypatch.chdir(tmp_path)
    arguments = ["report", "blocked-by-short-trips", "--language", own, "-o", "page.html"]
    assert main([*arguments, "--customer-language", customers]) == 0
    page = Path("page.html").read_text(encoding="utf-8")
    customer, _, file = page.partition('<article id="file"')
    sure = {"fr": "presque certain", "en": "almost certain"}
    for part, spoken, other in ((customer, customers, own), (file, own, customers)):
        headings = HEADINGS[spoken][:2] if part is customer else HEADINGS[spoken][2:]
        assert all(f"<h2>{heading}" in part for heading in headings)
        assert sure[spoken] in part
        assert sure[other] not in part
        assert not any(f"<h2>{heading}" in part for heading in HEADINGS[other])
