"""Documents spoiled where they mean something: read, a few nodes changed, written again."""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Sequence
from random import Random
from typing import Any

Path = tuple[Any, ...]
TEXTS: tuple[str, ...] = (
    "", " ", "none", "true", "no", "dp", "dp@", "@", "dp@rest", "dp@idle", "air@2500",
    "resistance@idle",
    "arrival", "scan", "gauge", "restriction", "dp-not-zero", "soot-overload", "hose-leaks",
    "air-min",
    "zero-sensor", "drive-on", "oil-good", "read-dp-at-rest", "ask-oil", "dp-sensor", "P2463",
    "code:P2463",
    "tech-1", "5 mbar", "-3 psi", "1e5", "0,9 kPa", "1 500", "19 of 20", "1 of 0", "rarely",
    "60 minutes",
    "2031-03-14T09:05+01:00", "9999-12-31T23:59-14:00", "0001-01-01T00:00+14:00", "not asked",
    "not fitted",
    "unknown", "\u202etxet", "\u200b", "[bold]x[/bold]", "{0} {says} %s",
    "<script>alert(1)</script>",
    "x" * 3000, "word " * 400, "漢字" * 200, "é", "a\u0301" * 50, "=1+1", "../x",
    "../../../planted",
    "/dev/stdin", "- x", "a: b",
    "'", '"', "#", "\\", "9" * 60, "0" * 400 + "1", "shop-x", "X y", "one-of-everything", "number",
    "computed",
)  # fmt: skip
ODD: tuple[Any, ...] = (
    True, False, 0, -1, 1, 2, 0.5, 1e300, -1e300, 1e-300, 10**30, 10**400, 2**63, 99999999, [], {},
    [[]], [{}],
    [None], {"of": "dp@idle"}, {"all": []}, {"any": []}, {"not": {}}, {"known": "dp"},
    {"at least": 2},
    {"above": "low"}, {"low": 1, "normal": 90, "raised": 9}, {"outside": [5, -5]}, {"one of": []},
    {"from": 5, "to": 1}, {"given": {}, "then": "unknown"}, {"x": {"x": {"x": {"x": 1}}}},
)  # fmt: skip


def spoiled_tree(tree: Any, chance: Random) -> Any:
    """The document with one to three of its nodes changed, renamed, dropped, doubled or moved."""
    tree = copy.deepcopy(tree)
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        places = paths(tree)
        if places:
            _spoil(tree, chance.choice(places), places, chance)
    return tree


def paths(tree: Any, path: Path = ()) -> list[Path]:
    """The way to every node but the root."""
    inside = (
        tree.items()
        if isinstance(tree, dict)
        else enumerate(tree)
        if isinstance(tree, list)
        else ()
    )
    found = [path] if path else []
    for key, item in inside:
        found += paths(item, (*path, key))
    return found


def at(tree: Any, path: Path) -> Any:
    for key in path:
        tree = tree[key]
    return tree


def _spoil(tree: Any, path: Path, places: Sequence[Path], chance: Random) -> None:
    holder, key = at(tree, path[:-1]), path[-1]
    way = chance.random()
    if way < 0.3:
        holder[key] = chance.choice(TEXTS)
    elif way < 0.45:
        holder[key] = copy.deepcopy(chance.choice(ODD))
    elif way < 0.6:
        holder[key] = copy.deepcopy(at(tree, chance.choice(places)))
    elif way < 0.7:
        del holder[key]
    elif way < 0.8 and isinstance(holder, dict):
        holder[str(chance.choice((chance.choice(TEXTS), chance.choice(places)[-1])))] = holder.pop(
            key
        )
    elif way < 0.9 and isinstance(holder, list):
        holder[key:key] = [copy.deepcopy(holder[key])] * chance.choice((1, 1, 2, 50))
    else:
        _near(holder, key, chance)


def _near(holder: Any, key: Any, chance: Random) -> None:
    """A value close to the one that was there: what a slip of the hand makes of it."""
    value = holder[key]
    if isinstance(value, bool) or value is None:
        holder[key] = not value
    elif isinstance(value, int | float):
        holder[key] = chance.choice(
            (
                -value,
                value * 10,
                value * 0.1 if abs(value) < 1e300 else 0,
                value + 1,
                str(value),
                [value],
            )
        )
    elif isinstance(value, str):
        spot = chance.randint(0, len(value))
        holder[key] = chance.choice(
            (value[:spot], value.upper(), value + " ", value[:spot] + "-" + value[spot:])
        )
    else:
        holder[key] = chance.choice(([value], {"x": value}, str(value)[:200]))


_PLAIN = re.compile(r"[A-Za-z][\w@./-]*(?: [\w@./-]+)*")


def yaml_text(tree: Any) -> bytes:
    """The document as our YAML: blocks down to the second level, lists of entries a line each."""
    if not isinstance(tree, dict):
        return (flow(tree) + "\n").encode("utf-8", "surrogatepass")
    parts = []
    for key, item in tree.items():
        if isinstance(item, list) and item and all(isinstance(each, dict) for each in item):
            parts.append(f"{flow(str(key))}:\n" + "".join(f"- {flow(each)}\n" for each in item))
        elif isinstance(item, dict) and item:
            inner = "".join(f"  {flow(str(name))}: {flow(each)}\n" for name, each in item.items())
            parts.append(f"{flow(str(key))}:\n{inner}")
        else:
            parts.append(f"{flow(str(key))}: {flow(item)}\n")
    return "".join(parts).encode("utf-8", "surrogatepass")


def flow(node: Any) -> str:
    """A node on one line."""
    if isinstance(node, dict):
        return (
            "{" + ", ".join(f"{flow(str(key))}: {flow(item)}" for key, item in node.items()) + "}"
        )
    if isinstance(node, list):
        return "[" + ", ".join(map(flow, node)) + "]"
    if isinstance(node, str) and _PLAIN.fullmatch(node):
        return node
    if isinstance(node, float):
        return format(node, "f").rstrip("0") + "0" if abs(node) < 1e25 else repr(node)
    return json.dumps(node, ensure_ascii=False) if isinstance(node, str) else str(node).lower()
