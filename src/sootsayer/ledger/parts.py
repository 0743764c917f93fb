"""The parts of a record's body, taken out of JSON that anybody may have written."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

VERDICT, OUTCOME = "verdict", "outcome"


def part(body: Mapping[str, object], *path: str) -> dict[str, Any]:
    """The mapping below these keys; empty where there is none."""
    found: object = body
    for key in path:
        found = found.get(key) if isinstance(found, Mapping) else None
    return dict(found) if isinstance(found, Mapping) else {}


def text(body: Mapping[str, object], *path: str) -> str:
    """The text below these keys; "" where there is none."""
    found = part(body, *path[:-1]).get(path[-1])
    return found if isinstance(found, str) else ""


def whole(body: Mapping[str, object], *path: str) -> int | None:
    """The whole number below these keys; None where there is none."""
    found = part(body, *path[:-1]).get(path[-1])
    return found if isinstance(found, int) and not isinstance(found, bool) else None


def mappings(found: object) -> list[dict[str, Any]]:
    """The mappings of a list; none of anything else."""
    if not isinstance(found, list | tuple):
        return []
    return [dict(each) for each in found if isinstance(each, Mapping)]


def texts_named(body: Mapping[str, object]) -> Iterator[str]:
    """The digests of the kept texts that a body rests on."""
    groups = ((one, other) for one in ("rulebook", "shop") for other in ("packs", "translations"))
    for path in groups:
        yield from (each for each in part(body, *path).values() if isinstance(each, str))
    settings = text(body, "shop", "settings")
    if settings:
        yield settings
