"""Sheets as plain text, as wide as a sheet of paper or a mail."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from sootsayer.report.sheet import Block, Caution, Items, Picture, Sheet, Table, Text

WIDTH = 78
_BETWEEN = "=" * WIDTH


def plain_page(sheets: Sequence[Sheet]) -> str:
    """The whole text; a form feed stands between two sheets, so that a printer begins anew."""
    return f"\n{_BETWEEN}\n\f\n".join("\n".join(_sheet(sheet)) + "\n" for sheet in sheets)


def _sheet(sheet: Sheet) -> Iterator[str]:
    yield from _wrapped(sheet.title)
    yield "=" * min(len(sheet.title), WIDTH)
    yield from _wrapped(sheet.under)
    for section in sheet.sections:
        yield ""
        yield from _wrapped(section.heading)
        yield "-" * min(len(section.heading), WIDTH)
        for block in section.blocks:
            yield from _block(block)
    yield ""
    yield from _wrapped(sheet.foot)


def _block(block: Block) -> Iterator[str]:
    if isinstance(block, Text):
        yield from _wrapped(block.said)
    elif isinstance(block, Items):
        for said in block.said:
            yield from _wrapped(said, "- ", "  ")
    elif isinstance(block, Caution):
        yield from _wrapped(f"{block.of} {block.said}", "! ", "  ")
    elif isinstance(block, Table):
        yield from _wrapped(block.caption)
        for row in block.rows:
            pairs = zip(block.head[1:], row[1:], strict=True)
            told = "; ".join(f"{head}: {cell}" if head else cell for head, cell in pairs if cell)
            yield from _wrapped(f"{row[0]}: {told}", "- ", "  ")
    elif isinstance(block, Picture):
        yield from _wrapped(block.says)
        yield from (row.rstrip() for row in block.rows)


def _wrapped(text: str, first: str = "", rest: str = "") -> list[str]:
    return textwrap.wrap(
        text, WIDTH, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False
    ) or [""]
