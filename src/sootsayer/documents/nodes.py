"""A YAML document as values that remember where they stand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where something stands: `file` as the user named it, `line` and `column` from 1."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Scalar:
    """A single value. `value` is text, a number, a boolean or None; `text` is it as typed.

    `quoted` is true for quoted and block scalars, which are always text.
    """

    value: str | int | float | bool | None
    text: str
    place: Place
    quoted: bool = False


@dataclass(frozen=True, slots=True)
class Listing:
    """A sequence of nodes."""

    items: tuple[Node, ...]
    place: Place

    def __iter__(self) -> Iterator[Node]:
        return iter(self.items)

    def __len__(self) -> int:
        return len(self.items)


@dataclass(frozen=True, slots=True)
class Mapping:
    """Keys in file order, always text. `key_places` tells where each key stands."""

    items: dict[str, Node]
    key_places: dict[str, Place]
    place: Place

    def __contains__(self, key: str) -> bool:
        return key in self.items

    def __getitem__(self, key: str) -> Node:
        return self.items[key]

    def get(self, key: str) -> Node | None:
        return self.items.get(key)


Node = Scalar | Listing | Mapping


@dataclass(frozen=True, slots=True)
class Document:
    """One file as read: its root node and its lines (for quoting), without line ends.

    `torn` is the text of a last line without newline that is no whole mapping (case
    files only), else None; it is not part of `root`.
    """

    file: str
    root: Mapping
    lines: tuple[str, ...] = field(repr=False)
    torn: str | None = None


def plain(node: Node) -> object:
    """The node as plain Python data (for schema validation and digests)."""
    if isinstance(node, Scalar):
        return node.value
    if isinstance(node, Listing):
        return [plain(item) for item in node.items]
    return {key: plain(item) for key, item in node.items.items()}
