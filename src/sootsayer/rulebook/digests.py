"""What a rulebook is known by: SHA-256 over its logic and over its words.

Logic is everything that can change a verdict; words are the texts that people read, and
what is said about how we know. Places, the pack that a thing stands in, and proofs (they
are examples) are in neither. Canonical JSON: sorted keys, no spaces, numbers as the
shortest text that gives them back.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from enum import Enum
from functools import cache
from types import NoneType
from typing import Any

from sootsayer.rulebook.model import Basis, Digests, Model

WORDS = frozenset(
    {
        *("label", "says", "when_not", "does", "caution", "how", "conditions", "then", "why"),
        *("source", "note", "apart_because", "asks", "shown_as"),
        *("stop_when", "consumes", "oil_afterwards", "resets", "tell_the_customer"),
    }
)
# A declared word to how it is said in another language.
SAID_WORDS = frozenset({"choice_words", "level_words"})
NEITHER = frozenset({"place", "places", "pack", "proofs", "applies_proofs", "revision", "digests"})
# An override is logic by what it changes, a retired id is one that nothing names, and the steps
# of work are told, not reckoned with.
ONLY_WORDS = frozenset({"overrides", "retired", "steps"})
NO_LOGIC = WORDS | SAID_WORDS | NEITHER | ONLY_WORDS
REVISION_LENGTH = 8
_AS_THEY_ARE = frozenset({str, bool, NoneType, float})
_PLAIN = _AS_THEY_ARE | {int}


def digests_of(model: Model, ready: Mapping[str, Any] | None = None) -> Digests:
    """Both digests of a model, in hex. `ready`: by the name of a field its logic, where somebody
    has that already."""
    return Digests(digest_of(_logic_of(model, ready or {})), words_digest_of(model))


def words_digest_of(model: Model) -> str:
    """The digest of its words, in hex."""
    words: dict[str, str] = {}
    _collect_words(model, "", words)
    return digest_of(words)


def revision_in(own_logic: object) -> str:
    """The first eight hex digits of the digest of one rule's own logic."""
    return digest_of(own_logic)[:REVISION_LENGTH]


@cache
def _logic_fields(cls: Any) -> tuple[tuple[str, Any], ...]:
    """The fields of a class that are logic, each with its default, MISSING where it has none; none
    for a class that is no dataclass."""
    found = fields(cls) if is_dataclass(cls) else ()
    return tuple((each.name, _default(each)) for each in found if each.name not in NO_LOGIC)


def _default(each: Field[Any]) -> Any:
    return each.default if each.default_factory is MISSING else each.default_factory()


def logic(thing: object) -> Any:
    """The logic of a part of the model as plain data, without words, places and proofs."""
    kind: Any = type(thing)
    if kind in _AS_THEY_ARE:
        return thing
    if kind is tuple:
        return [logic(part) for part in thing]  # type: ignore[attr-defined]
    if kind is dict:
        return {key: logic(value) for key, value in thing.items()}  # type: ignore[attr-defined]
    if isinstance(thing, str):
        return thing
    if isinstance(thing, Enum):
        return thing.value
    if isinstance(thing, int | float):
        return float(thing)
    return _logic_of(thing, {})


def _logic_of(thing: object, ready: Mapping[str, Any]) -> dict[str, Any]:
    """The logic of a thing with fields. What is at its default is left out, so that a new field
    with one changes no digest."""
    kind: Any = type(thing)
    found: dict[str, Any] = {"is": kind.__name__}
    for name, default in _logic_fields(kind):
        value = getattr(thing, name)
        if default is MISSING or value != default:
            found[name] = ready[name] if name in ready else logic(value)
    return found


@cache
def _told_fields(cls: Any) -> tuple[tuple[str, bool], ...]:
    """The fields of a class that hold words, somewhere, and whether they are words themselves."""
    found = fields(cls) if is_dataclass(cls) else ()
    return tuple(
        (each.name, each.name in WORDS or each.name in SAID_WORDS)
        for each in found
        if each.name not in NEITHER and not (cls is Basis and each.name == "kind")
    )


def _collect_words(thing: object, path: str, words: dict[str, str]) -> None:
    """Every text in a part of the model, by where it stands; a plain value has none."""
    if isinstance(thing, dict):
        parts: Iterable[tuple[object, object]] = thing.items()
    elif isinstance(thing, tuple):
        parts = enumerate(thing)
    else:
        kind: Any = type(thing)
        parts = []
        for name, told in _told_fields(kind):
            value = getattr(thing, name)
            if told and isinstance(value, str):
                if value:
                    words[f"{path}/{name}"] = value
            elif told and isinstance(value, tuple | dict):
                for key, text in value.items() if isinstance(value, dict) else enumerate(value):
                    words[f"{path}/{name}/{key}"] = text
            else:
                parts.append((name, value))
    for key, value in parts:
        if type(value) not in _PLAIN:
            _collect_words(value, f"{path}/{key}", words)


def digest_of(data: object) -> str:
    """SHA-256 (hex) of plain data as canonical JSON."""
    text = json.dumps(data, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()
