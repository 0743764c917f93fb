"""Whatever is typed: no exception, no escape on the screen, and a case that can be read."""

from __future__ import annotations

import unicodedata

from hypothesis import example, given, settings
from hypothesis import strategies as st

from sootsayer.casework.case_file import case_of
from sootsayer.casework.no_entries import parse_case
from sootsayer.console.paper import page
from sootsayer.console.screen import drawn
from tests.commands.asking.support import HEADER, Talk, rulebook

WORDS = st.sampled_from(
    [
        "dp", "dp@idle", "dp@rest", "at", "idle", "2500", "air", "oil", "level", "low", "18", "0,9",
        "kPa", "hPa", "1,500", "-3", "mg/st", ";", ",", "=", ":", "yes", "no", "none", "2", "later",
        "cannot:", "cannot", "not", "fitted", "do not know", "back", "go", "on", "change", "forget",
        "again", "note", "codes", "P2463", "complete", "partly", "monitors", "run", "work", "round",
        "zero-sensor", "by", "tech-2", "all", "why", "?", "??", "show", "sheet", "enter sheet",
        "slip", "never mind", "gauge:", "soot-overload", "\x1b[2J", "\u202e", "\ud800", "\x00",
        "{x}", "%s", "'", '"', "}", "#", "é", "漢", "- {", "999999999999999999999", "1e9", "--",
    ]
)  # fmt: skip
LINES = st.one_of(
    st.lists(WORDS, max_size=7).map(" ".join),
    st.text(max_size=60),
)


@settings(max_examples=120)
@given(st.lists(LINES, max_size=6))
@example(["codes none", "yes", "dk", "dk"])
@example(["work zero-sensor", "???", "A B"])
@example(["dp 18", "never", "never mind"])
@example(["change oil", "forget dp", "again dp", "all later", "go on", "back back"])
def test_whatever_is_typed(lines: list[str]) -> None:
    """Every line is answered, and what was written is a case."""
    talk = Talk()
    for line in lines:
        talk.type(line)
        if talk.reply.ended:
            return
        screen = drawn(page(talk.reply.says)) + talk.prompt
        raw = {sign for sign in screen if unicodedata.category(sign) in {"Cc", "Cf", "Cs"}}
        assert raw <= {"\n"}
    text = HEADER + "".join(f"{line}\n" for line in talk.written)
    assert text.encode() == talk.session.data
    case_of(parse_case(text.encode(), "van.yaml"), rulebook().model)
