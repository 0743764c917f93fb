"""How wide the screen is. Apart, so that a plain list need not load what draws."""

from __future__ import annotations

from typing import TextIO

PLAIN_WIDTH = 80
_NARROWEST, _WIDEST = 40, 100


def width_of(stream: TextIO) -> int:
    """A terminal's own width within reason; 80 for anything else, so that files are alike."""
    if not stream.isatty():
        return PLAIN_WIDTH
    import shutil  # it brings what packs and unpacks archives

    return max(_NARROWEST, min(_WIDEST, shutil.get_terminal_size((PLAIN_WIDTH, 24)).columns))
