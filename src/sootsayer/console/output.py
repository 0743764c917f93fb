"""Writing text to a stream as the stream can take it."""

from __future__ import annotations

from typing import TextIO

# What stands for our own ornaments and for the marks of other languages where the encoding has
# none; a letter with an accent is written without it.
_PLAINER = {
    "█": "#", "·": ".", "…": "...", "→": "->", "±": "+-", "−": "-", "–": "-", "—": "-",
    "«": '"', "»": '"', "“": '"', "”": '"', "‘": "'", "’": "'", "°": "",
    "œ": "oe", "Œ": "OE", "æ": "ae", "Æ": "AE", "ß": "ss", "€": "EUR",
    "\u00a0": " ", "\u202f": " ",
}  # fmt: skip
_INSIDE_QUOTES = (("«\u00a0", '"'), ("\u00a0»", '"'), ("« ", '"'), (" »", '"'))


def write(text: str, stream: TextIO) -> None:
    """Write text, what the stream's encoding lacks replaced; then flush. Raises OSError."""
    stream.write(fitting(text, stream.encoding or "utf-8"))
    stream.flush()


def fitting(text: str, encoding: str) -> str:
    """The text with nothing in it that `encoding` cannot hold."""
    if _holds(encoding, text):
        return text
    if not _holds(encoding, "«"):
        for quoted, plainer in _INSIDE_QUOTES:
            text = text.replace(quoted, plainer)
    known = "".join(_plainer(c) if not _holds(encoding, c) else c for c in text)
    try:
        return known.encode(encoding, "replace").decode(encoding)
    except LookupError:
        return known.encode("ascii", "replace").decode("ascii")


def _plainer(character: str) -> str:
    """The character in plainer ones; as it is where there are none."""
    if character in _PLAINER:
        return _PLAINER[character]
    from unicodedata import combining, normalize

    bare = "".join(c for c in normalize("NFKD", character) if not combining(c))
    return bare if bare.isascii() else character


def _holds(encoding: str, text: str) -> bool:
    try:
        text.encode(encoding)
    except (UnicodeEncodeError, LookupError):
        return False
    return True
