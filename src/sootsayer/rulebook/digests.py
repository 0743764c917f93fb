"""What a rulebook is known by: SHA-256 over its logic and over its words.

Logic is everything that can change a verdict; words are the texts that people read, and
what is said about how we know. Places, the pack that a thing stands in, and proofs (they
are examples) are in neither. Canonical JSON: sorted keys, no spaces, numbers as the
shortest text that gives them back.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import MISSING, Field, fields, is_dataclass
from enum import Enum
from typing import Any

from sootsayer.rulebook.model import Basis, Digests, Model

WORDS = frozenset(
    {
        *("label", "says", "when_not", "does", "caution", "how", "conditions", "then", "why"),
        *("source", "note", "apart_because", "asks", "shown_as"),
        *("stop_when", "consumes", "oil_afterwards", "resets", "tell_the_customer"),
    }
)
NEITHER = frozenset({"place", "places", "pack", "proofs", "applies_proofs", "revision", "digests"})
# An override is logic by what it changes, a retired id is one that nothing names, and the steps
# of work are told, not reckoned with.
ONLY_WORDS = frozenset({"overrides", "retired", "steps"})
NO_LOGIC = WORDS | NEITHER | ONLY_WORDS
REVISION_LENGTH = 8


def digests_of(model: Model) -> Digests:
    """Both digests of a model, in hex."""
    words: dict[str, str] = {}
    _collect_words(model, "", words)
    return Digests(digest_of(logic(model)), digest_of(words))


def revision_of(rule: object) -> str:
    """The first eight hex digits of the digest of one rule's own logic."""
    return digest_of(logic(rule))[:REVISION_LENGTH]


def logic(thing: object) -> Any:
    """The logic of a part of the model as plain data, without words, places and proofs."""
    if isinstance(thing, Enum):
        return thing.value
    if is_dataclass(thing) and not isinstance(thing, type):
        left = {
            each.name: logic(getattr(thing, each.name))
            for each in fields(thing)
            if each.name not in NO_LOGIC and not _is_default(each, getattr(thing, each.name))
        }
        return {"is": type(thing).__name__, **left}
    if isinstance(thing, dict):
        return {key: logic(value) for key, value in thing.items()}
    if isinstance(thing, tuple):
        return [logic(part) for part in thing]
    return float(thing) if isinstance(thing, int) and not isinstance(thing, bool) else thing


def _is_default(each: Field[Any], value: object) -> bool:
    """Left out of the logic, so that a new field with a default changes no digest."""
    if each.default_factory is not MISSING:
        return bool(value == each.default_factory())
    return each.default is not MISSING and bool(value == each.default)


def _collect_words(thing: object, path: str, words: dict[str, str]) -> None:
    if is_dataclass(thing) and not isinstance(thing, type):
        for each in fields(thing):
            value = getattr(thing, each.name)
            if each.name in WORDS and isinstance(value, str):
                if value:
                    words[f"{path}/{each.name}"] = value
            elif each.name in WORDS and isinstance(value, tuple):
                for rank, text in enumerate(value):
                    words[f"{path}/{each.name}/{rank}"] = text
            elif each.name not in NEITHER and not (
                isinstance(thing, Basis) and each.name == "kind"
            ):
                _collect_words(value, f"{path}/{each.name}", words)
    elif isinstance(thing, dict):
        for key, value in thing.items():
            _collect_words(value, f"{path}/{key}", words)
    elif isinstance(thing, tuple):
        for rank, value in enumerate(thing):
            _collect_words(value, f"{path}/{rank}", words)


def digest_of(data: object) -> str:
    """SHA-256 (hex) of plain data as canonical JSON."""
    text = json.dumps(data, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()
