"""A report as plain data: sheets of sections of blocks, drawn alike as HTML and as plain text.

Every text in it is `Said`: made visible before, so that nothing in it can steer a screen.
"""

from __future__ import annotations

from dataclasses import dataclass

from sootsayer.catalogue import Said


@dataclass(frozen=True, slots=True)
class Text:
    """A paragraph; `strong`: what the section comes down to."""

    said: Said
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Items:
    """A list, in order of weight."""

    said: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution: of what, and its words, whole."""

    of: Said
    said: Said


@dataclass(frozen=True, slots=True)
class Table:
    """Rows below a head; `caption` tells what they are. The first cell of a row names it. Columns
    whose number is in `numbers` are set right."""

    caption: Said
    head: tuple[Said, ...]
    rows: tuple[tuple[Said, ...], ...]
    numbers: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture as inline `svg` (our own, already escaped), and as rows of characters; `says` in
    words what is to be seen."""

    says: Said
    svg: str
    rows: tuple[Said, ...]


Block = Text | Items | Caution | Table | Picture


@dataclass(frozen=True, slots=True)
class Section:
    heading: Said
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """One printed page: `dense` in small print. `foot` stands at its end. `language`: the code of
    that in which it is, "" where it is that of the whole."""

    id: str
    title: Said
    under: Said
    sections: tuple[Section, ...]
    foot: Said
    dense: bool = False
    language: str = ""
