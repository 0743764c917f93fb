"""Sheets as one self-contained HTML page: no script, nothing fetched, inline pictures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from itertools import chain

from sootsayer.catalogue import Said
from sootsayer.report.sheet import Block, Caution, Items, Picture, Section, Sheet, Table, Text
from sootsayer.report.style import CSS

# Even if a text of a case got past the escaping, the browser would neither run nor fetch anything.
_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"  # not said


def html_page(sheets: Sequence[Sheet], title: Said, language: str) -> str:
    """The whole page."""
    lines = [
        "<!DOCTYPE html>",
        f'<html lang="{_safe(language)}">',
        "<head>",
        '<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        '<meta name="referrer" content="no-referrer">',
        '<link rel="icon" href="data:,">',
        f"<title>{_safe(title)}</title>",
        f"<style>\n{CSS}</style>",
        "</head>",
        "<body>",
        "<main>",
        *chain.from_iterable(_sheet(sheet, language) for sheet in sheets),
        "</main>",
        "</body>",
        "</html>",
    ]
    return "\n".join(lines) + "\n"


def _safe(text: str) -> str:
    """Already visible; now no mark of HTML either."""
    return escape(text, quote=True)


def _sheet(sheet: Sheet, language: str) -> Iterator[str]:
    look = ' class="dense"' if sheet.dense else ""
    if sheet.language not in ("", language):
        look += f' lang="{_safe(sheet.language)}"'
    yield f'<article id="{_safe(sheet.id)}"{look} aria-labelledby="{_safe(sheet.id)}-title">'
    yield f'<h1 id="{_safe(sheet.id)}-title">{_safe(sheet.title)}</h1>'
    yield f'<p class="under">{_safe(sheet.under)}</p>'
    yield '<div class="columns">'
    for section in sheet.sections:
        yield from _section(section)
    yield "</div>"
    yield f"<footer><p>{_safe(sheet.foot)}</p></footer>"
    yield "</article>"


def _section(section: Section) -> Iterator[str]:
    yield "<section>"
    yield f"<h2>{_safe(section.heading)}</h2>"
    for block in section.blocks:
        yield from _block(block)
    yield "</section>"


def _block(block: Block) -> Iterator[str]:
    if isinstance(block, Text):
        said = _safe(block.said)
        yield f"<p><strong>{said}</strong></p>" if block.strong else f"<p>{said}</p>"
    elif isinstance(block, Items):
        yield "<ul>"
        yield from (f"<li>{_safe(said)}</li>" for said in block.said)
        yield "</ul>"
    elif isinstance(block, Caution):
        yield f'<p class="caution"><strong>{_safe(block.of)}</strong> {_safe(block.said)}</p>'
    elif isinstance(block, Table):
        yield from _table(block)
    elif isinstance(block, Picture):
        says = _safe(block.says)
        yield f"<figure>\n{block.svg.strip()}\n<figcaption>{says}</figcaption></figure>"


def _table(table: Table) -> Iterator[str]:
    yield "<table>"
    yield f"<caption>{_safe(table.caption)}</caption>"
    heads = [
        f'<th scope="col"{_right(table, at)}>{_safe(head)}</th>'
        for at, head in enumerate(table.head)
    ]
    yield f"<thead><tr>{''.join(heads)}</tr></thead>"
    yield "<tbody>"
    for row in table.rows:
        cells = [f'<th scope="row">{_safe(row[0])}</th>']
        cells += [
            f"<td{_right(table, at)}>{_safe(cell)}</td>" for at, cell in enumerate(row[1:], 1)
        ]
        yield f"<tr>{''.join(cells)}</tr>"
    yield "</tbody></table>"


def _right(table: Table, at: int) -> str:
    return ' class="number"' if at in table.numbers else ""
