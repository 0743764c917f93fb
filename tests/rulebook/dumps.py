"""A model as plain data, for comparing."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from enum import Enum
from typing import Any

from sootsayer.documents.nodes import Place


def dump(thing: object, *, places: bool = True) -> Any:
    """All of it: dataclasses by field, places as line:column (or left out)."""
    if isinstance(thing, Place):
        return f"{thing.line}:{thing.column}" if places else ""
    if isinstance(thing, Enum):
        return thing.value
    if is_dataclass(thing) and not isinstance(thing, type):
        name = {"is": type(thing).__name__}
        return name | {
            each.name: dump(getattr(thing, each.name), places=places) for each in fields(thing)
        }
    if isinstance(thing, dict):
        return {key: dump(value, places=places) for key, value in thing.items()}
    if isinstance(thing, tuple):
        return [dump(part, places=places) for part in thing]
    return thing
