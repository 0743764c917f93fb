"""What a plain scalar means: true, false, a number, else text."""

from __future__ import annotations

import re

_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?")
DECIMAL_COMMA = re.compile(r"-?[0-9]+,[0-9]+")
# Longer numbers would overflow or take long to read, and mean nothing here.
LONGEST_NUMBER = 40
# How everything begins that may be more than text: a quick way past most texts.
NUMBER_OR_WORD = frozenset("-0123456789tf")
_WORDS = {"true": True, "false": False}


def plain_value(text: str) -> str | int | float | bool:
    """The value of a plain scalar; raises `ValueError` for a number of over 40 characters."""
    if not _NUMBER.fullmatch(text):
        return _WORDS.get(text, text)
    if len(text) > LONGEST_NUMBER:
        raise ValueError(text)
    return float(text) if "." in text else int(text)
