"""Paths of keys through nodes: what they lead to, and other nodes put there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from sootsayer.documents.nodes import Listing, Mapping, Node, Scalar
from sootsayer.rulebook.desk import text_of

Step = str | int


@dataclass(frozen=True, slots=True)
class Found:
    """The node that keys lead to, by which steps; `missing` is the first key that leads nowhere.

    `keys` are the steps as written: a list counts from 1 there, from 0 in `path`.
    """

    node: Node
    path: tuple[Step, ...]
    keys: tuple[str, ...]
    missing: Node | None = None


def follow(node: Node, keys: Sequence[Node]) -> Found:
    """What the keys lead to below `node`, as far as they lead."""
    path: list[Step] = []
    words: list[str] = []
    for key in keys:
        step = _step(node, text_of(key))
        if step is None:
            return Found(node, tuple(path), tuple(words), key)
        path.append(step)
        words.append(text_of(key))
        node = below(node, step)
    return Found(node, tuple(path), tuple(words))


def below(node: Node, step: Step) -> Node:
    """The part of a mapping or list at one step. Raises KeyError or IndexError."""
    if isinstance(node, Mapping) and isinstance(step, str):
        return node[step]
    if isinstance(node, Listing) and isinstance(step, int):
        return node.items[step]
    raise KeyError(step)


def _step(node: Node, key: str) -> Step | None:
    if isinstance(node, Mapping):
        return key if key in node else None
    if isinstance(node, Listing) and key.isascii() and key.isdigit() and len(key) < 9:
        return int(key) - 1 if 1 <= int(key) <= len(node) else None
    return None


def put(node: Node, path: Sequence[Step], new: Node) -> Node:
    """The same nodes with `new` at the path; its key is said to stand where `new` does."""
    if not path:
        return new
    step, rest = path[0], path[1:]
    changed = put(below(node, step), rest, new)
    if isinstance(node, Mapping):
        assert isinstance(step, str)
        places = node.key_places if rest else {**node.key_places, step: new.place}
        return replace(node, items={**node.items, step: changed}, key_places=places)
    assert isinstance(node, Listing)
    assert isinstance(step, int)
    return replace(node, items=(*node.items[:step], changed, *node.items[step + 1 :]))


def same(one: Node, other: Node) -> bool:
    """Whether both say the same; the order of keys and how a number is written do not count."""
    if isinstance(one, Scalar) and isinstance(other, Scalar):
        if isinstance(one.value, bool) or isinstance(other.value, bool):
            return one.value is other.value
        if isinstance(one.value, str) and isinstance(other.value, str):
            return one.value.split() == other.value.split()
        return one.value == other.value
    if isinstance(one, Listing) and isinstance(other, Listing):
        return len(one) == len(other) and all(map(same, one, other))
    if isinstance(one, Mapping) and isinstance(other, Mapping):
        return set(one.items) == set(other.items) and all(
            same(part, other[key]) for key, part in one.items.items()
        )
    return False


def written(node: Node) -> str:
    """The node as it might be written, in one line."""
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Listing):
        return f"[{', '.join(written(part) for part in node)}]"
    return f"{{{', '.join(f'{key}: {written(part)}' for key, part in node.items.items())}}}"
