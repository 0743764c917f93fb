"""How a rule is known, and how it proves itself."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from sootsayer.documents.nodes import Place
from sootsayer.engine.conditions import Value


class BasisKind(Enum):
    PUBLISHED = "published"
    COMPUTED = "computed"
    COMMON_PRACTICE = "common practice"
    MEMORY = "memory"
    SHOP = "shop"


@dataclass(frozen=True, slots=True)
class Basis:
    """How we know. `source` names the publication, computation or cases; `note` is free."""

    kind: BasisKind
    source: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Proof:
    """An example: with the facts `given`, and limits at their defaults, it is `then`."""

    given: dict[str, Value]
    then: Value
    place: Place
    codes: tuple[str, ...] | None = None  # None: list not read
