"""Writing text to a stream as the stream can take it."""

from __future__ import annotations

from typing import TextIO

# What stands for our own ornaments where the encoding has none.
_PLAINER = {"█": "#", "·": ".", "…": "...", "→": "->", "−": "-", "–": "-", "—": "-"}


def write(text: str, stream: TextIO) -> None:
    """Write text, what the stream's encoding lacks replaced; then flush. Raises OSError."""
    stream.write(fitting(text, stream.encoding or "utf-8"))
    stream.flush()


def fitting(text: str, encoding: str) -> str:
    """The text with nothing in it that `encoding` cannot hold."""
    if _holds(encoding, text):
        return text
    known = "".join(_PLAINER.get(c, c) if not _holds(encoding, c) else c for c in text)
    try:
        return known.encode(encoding, "replace").decode(encoding)
    except LookupError:
        return known.encode("ascii", "replace").decode("ascii")


def _holds(encoding: str, text: str) -> bool:
    try:
        text.encode(encoding)
    except (UnicodeEncodeError, LookupError):
        return False
    return True
