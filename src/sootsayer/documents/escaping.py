"""Text from outside, written out so that it cannot steer a screen."""

from __future__ import annotations

import re

# C0, DEL and C1 (escape sequences, carriage return, backspace), the soft hyphen and every
# zero-width or invisible character, bidirectional controls (which reorder what is read),
# line and paragraph separators, tags (which can carry hidden text),
# interlinear marks, lone surrogates (which cannot be printed) and code points that are no
# characters.
_UNSAFE = re.compile(
    "[\x00-\x1f\x7f-\x9f\xad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180f"
    "\u200b-\u200f\u2028-\u202e\u2060-\u206f\u3164\ud800-\udfff\ufdd0-\ufdef"
    "\ufeff\uffa0\ufff0-\ufffb\ufffe\uffff"
    "\U0001bca0-\U0001bca3\U0001d173-\U0001d17a\U000e0000-\U000e0fff]"
)


def visible(text: str, *, keep_newlines: bool = False) -> str:
    """`text` with every character that could steer or deceive a screen written out.

    An escape becomes the four characters `\\x1b`, a direction override the six of `\\u202e`.
    Newlines stay only with `keep_newlines`. The result always encodes as UTF-8.
    """
    if keep_newlines:
        return "\n".join(visible(line) for line in text.split("\n"))
    return _UNSAFE.sub(_written_out, text)


def _written_out(found: re.Match[str]) -> str:
    code = ord(found.group())
    if code < 0x100:
        return f"\\x{code:02x}"
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"
