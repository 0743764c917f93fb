"""Nothing from outside can steer a terminal."""

from __future__ import annotations

import sys
import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.documents.escaping import visible

# Format characters that are seen: signs that enclose or precede numbers and letters.
_SEEN = {*range(0x600, 0x606), 0x6DD, 0x70F, 0x890, 0x891, 0x8E2, 0x110BD, 0x110CD}
_SEEN |= set(range(0x13430, 0x13440))
_UNSEEN = ("Cc", "Cf", "Cs", "Zl", "Zp")


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\x1b[31m", "\\x1b[31m"), ("a\rb", "a\\x0db"), ("\x7f", "\\x7f"), ("\x9b2J", "\\x9b2J"),
        ("\u202eabc", "\\u202eabc"), ("\u2066", "\\u2066"), ("a\u200bb", "a\\u200bb"),
        ("\ufeff", "\\ufeff"), ("\u2028", "\\u2028"), ("\ud800", "\\ud800"), ("\0", "\\x00"),
        ("\U000e0041", "\\U000e0041"), ("a\tb", "a\\x09b"), ("ok é 漢 \U0001f600 ½ →",) * 2,
        ("", ""), ("a\nb", "a\\x0ab"),
    ],
)  # fmt: skip
def test_visible(text: str, shown: str) -> None:
    """Control, direction and invisible characters are written out, all else stays."""
    assert visible(text) == shown


def test_every_character() -> None:
    """Every code point that is not seen is written out, and no letter, digit or sign is."""
    for code in range(sys.maxunicode + 1):
        character = chr(code)
        category = unicodedata.category(character)
        if category in _UNSEEN and code not in _SEEN:
            assert visible(character).isascii(), hex(code)
        elif category[0] in "LNPS" and code not in (0x115F, 0x1160, 0x3164, 0xFFA0):
            assert visible(character) == character, hex(code)


def test_newlines_on_request() -> None:
    """Only the newline can be kept."""
    assert visible("a\nb\r\n\x1b", keep_newlines=True) == "a\nb\\x0d\n\\x1b"


@given(text=st.text(st.characters(exclude_categories=())))
@settings(deadline=None)
def test_twice_is_once(text: str) -> None:
    """What is visible stays as it is, and can always be encoded."""
    once = visible(text)
    assert visible(once) == once
    once.encode("utf-8")
