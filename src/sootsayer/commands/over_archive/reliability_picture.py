"""Reliability in characters: what was said, and what came true, on one scale a line."""

from __future__ import annotations

from collections.abc import Iterator

from sootsayer.catalogue import Said, say
from sootsayer.catalogue_numbers import fixed, per_cent
from sootsayer.commands.over_archive.lines import columns
from sootsayer.console import rates_texts as t
from sootsayer.learning.reliability import Tenth

CELLS = 41  # so that each cell is two and a half points wide
_WIDTHS = (9, -5, -13, CELLS)


def reliability_rows(tenths: tuple[Tenth, ...]) -> Iterator[Said]:
    """A head, then a row for each tenth that anything fell into, the surest first."""
    yield columns([say(word) for word in t.PICTURE_HEAD], _WIDTHS)
    for tenth in reversed(tenths):
        low, high = fixed(tenth.low * 100), fixed(tenth.high * 100)
        yield columns(
            (
                say(t.TENTH, low=low, high=high),
                per_cent(tenth.said),
                say(t.CAME, share=fixed(tenth.came * 100), count=tenth.count),
                scale(tenth),
            ),
            _WIDTHS,
        )


def scale(tenth: Tenth) -> str:
    """`|` what was said, `o` what came true, dashes its interval; `0` where both are one cell."""
    cells = ["."] * CELLS
    first, last = _cell(tenth.interval.low), _cell(tenth.interval.high)
    cells[first : last + 1] = "-" * (last + 1 - first)
    came, said = _cell(tenth.came), _cell(tenth.said)
    cells[said] = "|"
    cells[came] = "0" if came == said else "o"
    return "".join(cells)


def _cell(share: float) -> int:
    return min(CELLS - 1, max(0, round(share * (CELLS - 1))))
