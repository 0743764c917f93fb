"""Sheets as plain text, as wide as a sheet of paper or a mail."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from sootsayer.report.sheet import Block, Caution, Items, Picture, Sheet, Table, Text

WIDTH = 78


def plain_page(sheets: Sequence[Sheet], width: int = WIDTH) -> str:
    """The whole text, never wider than paper; a form feed stands between two sheets, so that a
    printer begins anew. A picture that is wider is left to its words."""
    width = min(width, WIDTH)
    between = "=" * width
    return f"\n{between}\n\f\n".join("\n".join(_sheet(each, width)) + "\n" for each in sheets)


def _sheet(sheet: Sheet, width: int) -> Iterator[str]:
    yield from _wrapped(width, sheet.title)
    yield "=" * min(len(sheet.title), width)
    yield from _wrapped(width, sheet.under)
    for section in sheet.sections:
        yield ""
        yield from _wrapped(width, section.heading)
        yield "-" * min(len(section.heading), width)
        for block in section.blocks:
            yield from _block(block, width)
    yield ""
    yield from _wrapped(width, sheet.foot)


def _block(block: Block, width: int) -> Iterator[str]:
    if isinstance(block, Text):
        yield from _wrapped(width, block.said)
    elif isinstance(block, Items):
        for said in block.said:
            yield from _wrapped(width, said, "- ", "  ")
    elif isinstance(block, Caution):
        yield from _wrapped(width, f"{block.of} {block.said}", "! ", "  ")
    elif isinstance(block, Table):
        yield from _wrapped(width, block.caption)
        for row in block.rows:
            pairs = zip(block.head[1:], row[1:], strict=True)
            told = "; ".join(f"{head}: {cell}" if head else cell for head, cell in pairs if cell)
            yield from _wrapped(width, f"{row[0]}: {told}", "- ", "  ")
    elif isinstance(block, Picture):
        yield from _wrapped(width, block.says)
        rows = [row.rstrip() for row in block.rows]
        yield from rows if max(map(len, rows), default=0) <= width else ()


def _wrapped(width: int, text: str, first: str = "", rest: str = "") -> list[str]:
    return textwrap.wrap(
        text, width, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False
    ) or [""]
