"""Writing to streams as they are."""

from __future__ import annotations

import io

import pytest

from sootsayer.catalogue import Said
from sootsayer.console.judge_page import judge_page
from sootsayer.console.output import fitting, write
from sootsayer.console.paper import Line, page
from sootsayer.console.screen import drawn, has_colour, show, width_of
from tests.console.verdicts import NAMES, blocked_filter


class Terminal(io.StringIO):
    """A stream that says that it is a terminal."""

    encoding = "utf-8"

    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "cp437", "latin-1", "utf-8", "no-such"])
def test_any_encoding_can_hold_what_is_written(encoding: str) -> None:
    """What an encoding lacks is replaced, our own ornaments by plain ones."""
    text = fitting("97 % ██·· 漢 \ud800 → end", encoding)
    assert text.startswith("97 %")
    assert text.endswith("end")
    if encoding == "ascii":
        assert text == "97 % ##.. ? ? -> end"


@pytest.mark.parametrize(
    ("encoding", "text", "written"),
    [
        ("ascii", "À l'œil, «\u00a0déjà\u00a0»\u00a0: 95\u00a0°C", 'A l\'oeil, "deja" : 95 C'),
        ("ascii", "2\u00a0500 tr/min, l’été, 3 €", "2 500 tr/min, l'ete, 3 EUR"),
        ("ascii", "ﬁn ½ Σ", "fin ? ?"),
        ("latin-1", "«\u00a0œuvre\u00a0»", "«\u00a0oeuvre\u00a0»"),
        ("cp437", "« déjà » ÀÈ", "« déjà » AE"),
        ("utf-8", "«\u00a0œuvre\u00a0»", "«\u00a0œuvre\u00a0»"),
    ],
)
def test_letters_lose_their_accents_where_they_must(encoding: str, text: str, written: str) -> None:
    """What another language is written with becomes plainer, and what cannot a question mark."""
    assert fitting(text, encoding) == written


def test_what_is_held_together_is_not_folded_apart() -> None:
    """No line ends between a word and its colon, or within a number."""
    text = Said("le voyant\u00a0: 2\u00a0500\u00a0tr/min, et ensuite «\u00a0oui\u00a0»")
    for width in range(20, 60):
        lines = drawn(page([Line(text)]), width=width).splitlines()
        assert " ".join(lines) == text
        assert max(map(len, lines)) <= width


def test_whole_page_in_plain_ascii() -> None:
    """A page on a stream that only knows ASCII has its bars, and nothing breaks."""
    raw = io.BytesIO()
    stream = io.TextIOWrapper(raw, encoding="ascii")
    show(judge_page(blocked_filter(), NAMES), stream)
    assert b"97 % ##########" in raw.getvalue()


def test_piped_output_has_no_escape_codes_and_one_width(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is no terminal gets plain text of 80 columns, whatever the environment says."""
    for name in ("FORCE_COLOR", "CLICOLOR_FORCE", "TTY_COMPATIBLE"):
        monkeypatch.setenv(name, "1")
    monkeypatch.setenv("COLUMNS", "33")
    out = io.StringIO()
    show(judge_page(blocked_filter(), NAMES), out)
    assert out.getvalue() == drawn(judge_page(blocked_filter(), NAMES), width=80)
    assert "\x1b" not in out.getvalue()


def test_no_color_turns_colour_off_on_a_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """NO_COLOR leaves no escape code at all, bold included; an empty one counts as unset."""
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    assert has_colour(Terminal())
    monkeypatch.setenv("NO_COLOR", "")
    assert has_colour(Terminal())
    monkeypatch.setenv("NO_COLOR", "1")
    out = Terminal()
    show(judge_page(blocked_filter(), NAMES), out)
    assert "\x1b" not in out.getvalue()


def test_colour_only_repeats_what_words_say(monkeypatch: pytest.MonkeyPatch) -> None:
    """With its escape codes taken out, the coloured page is the plain one."""
    page = judge_page(blocked_filter(), NAMES)
    coloured = drawn(page, colour=True)
    assert "\x1b[" in coloured
    plain = "".join(
        part.split("m", 1)[1] if i else part for i, part in enumerate(coloured.split("\x1b["))
    )
    assert plain == drawn(page)
    monkeypatch.setenv("COLUMNS", "500")
    assert width_of(Terminal()) == 100


def test_write_flushes() -> None:
    """A full disk shows at once, not at exit."""
    raw = io.BytesIO()
    stream = io.TextIOWrapper(raw, encoding="utf-8")
    write("x", stream)
    assert raw.getvalue() == b"x"
