"""Words apart: every text of the rulebook by id and field, and the same in another language.

A translation carries the digest of the text that it translates. Where that text has changed
since, or has no translation, the original stands: nothing falls back to nothing.

The words that packs declare and cases write (the choices of a signal, the levels of a finding) are
ids, and stay as they are; how they are said is a text too, and its English is the word itself.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, replace
from typing import Any

from sootsayer.documents.nodes import Place
from sootsayer.rulebook.digests import REVISION_LENGTH, words_digest_of
from sootsayer.rulebook.model import Digests, Family, FindingDef, Model
from sootsayer.rulebook.names import BINARY

# Where texts stand in the model, and which parts of it have any.
FIELDS = (
    *("label", "says", "when_not", "does", "caution", "how", "conditions", "then"),
    *("asks", "shown_as"),
    *("stop_when", "consumes", "oil_afterwards", "resets", "tell_the_customer"),
)
BASIS, NOTE = "basis", "basis note"  # how we know, and what is remarked on it
STEPS = "steps"  # a list of parts that have texts of their own: `steps 1 does`
# Declared words: where they stand, how the text of one is named (`word gradual`), and where it is
# held as it is said.
DECLARED = (("choices", "word", "choice_words"), ("levels", "level", "level_words"))
PARTS = (
    *("signals", "points", "channels", "limits", "checks", "findings", "families", "faults"),
    *("actions", "interlocks", "quantities", "remedies"),
)
POINT = "@"  # before the id of a point: points have ids of their own

Key = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Text:
    """One text of the rulebook. `id` of a point begins with "@"; `field` is as packs write it,
    with its number from 1 in a list (`then 2`); `place` is where the thing stands."""

    id: str
    field: str
    text: str
    pack: str
    place: Place

    @property
    def digest(self) -> str:
        return text_digest(self.text)


@dataclass(frozen=True, slots=True)
class Translation:
    """One text of a words file: what it says, and `of`: the digest of what it translates."""

    id: str
    field: str
    of: str
    text: str
    pack: str
    place: Place


@dataclass(frozen=True, slots=True)
class Words:
    """All that words files say in one language, in the order of their folders."""

    language: str
    translations: tuple[Translation, ...] = ()


@dataclass(frozen=True, slots=True)
class WordsReport:
    """What a translator has to look at: texts changed since they were translated, texts with
    no translation, and translations of nothing in the rulebook. Each in the order of ids."""

    stale: tuple[Translation, ...]
    missing: tuple[Text, ...]
    unknown: tuple[Translation, ...]


def text_digest(text: str) -> str:
    """The first eight hex digits of the SHA-256 of a text."""
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:REVISION_LENGTH]


def texts_of(model: Model) -> dict[Key, Text]:
    """Every text of the model that is not empty, by id and field, sorted."""
    things = [
        (_id(part, id_), thing) for part in PARTS for id_, thing in getattr(model, part).items()
    ]
    things += [(group.id, group) for group in model.opening]
    named = _in_families(model)
    found = {
        (id_, name): Text(id_, name, text, thing.pack, thing.place)
        for id_, thing in things
        for name, text in (*_named(thing), *_said(thing, named))
    }
    return dict(sorted(found.items()))


def report(model: Model, words: Words) -> WordsReport:
    """What is stale, missing and unknown of a language."""
    texts = texts_of(model)
    current = _current(texts, words)
    known = [each for each in words.translations if _is_of(texts, each)]
    stale = {
        key: each for each in known if (key := (each.id, each.field)) not in current
    }  # of several the last, which would have stood
    unknown = [each for each in words.translations if not _is_of(texts, each)]
    return WordsReport(
        stale=tuple(stale[key] for key in sorted(stale)),
        missing=tuple(
            text for key, text in texts.items() if key not in current and key not in stale
        ),
        unknown=tuple(sorted(unknown, key=lambda each: (each.id, each.field, each.place))),
    )


def translated(model: Model, words: Words) -> Model:
    """The model with its texts in another language, and the digest of these words.

    A text whose translation is stale or missing stays as it was written. Logic, and so its
    digest, is the same.
    """
    current = _current(texts_of(model), words)
    if not current:
        return model
    named = _in_families(model)
    parts: dict[str, Any] = {
        part: {
            id_: _with_declared(_in_words(_id(part, id_), thing, current), named, current)
            for id_, thing in getattr(model, part).items()
        }
        for part in PARTS
    }
    _hand_down(parts["families"], parts["findings"])
    groups = tuple(_in_words(group.id, group, current) for group in model.opening)
    spoken = replace(model, opening=groups, **parts)
    return replace(spoken, digests=Digests(model.digests.logic, words_digest_of(spoken)))


def _id(part: str, id_: str) -> str:
    return f"{POINT}{id_}" if part == "points" else id_


def _in_families(model: Model) -> frozenset[str]:
    """The findings whose levels are said by their family, once."""
    return frozenset(id_ for family in model.families.values() for id_ in family.members)


def _declared(thing: Any, named: frozenset[str]) -> Iterator[tuple[str, str, str]]:
    """The words that a thing declares: where it holds what is said, the name of the text, the word.
    True and false are the program's own."""
    for where, name, held in DECLARED:
        words = getattr(thing, where, ())
        if words != BINARY and not (where == "levels" and thing.id in named):
            yield from ((held, f"{name} {word}", word) for word in words)


def _said(thing: Any, named: frozenset[str]) -> Iterator[tuple[str, str]]:
    """The declared words as they are said, by the name of their text."""
    for held, name, word in _declared(thing, named):
        yield name, getattr(thing, held).get(word, word)


def _with_declared(thing: Any, named: frozenset[str], current: Mapping[Key, str]) -> Any:
    """The thing with what its declared words are in another language."""
    said: dict[str, Any] = {}
    for held, name, word in _declared(thing, named):
        if (thing.id, name) in current:
            said.setdefault(held, {})[word] = current[thing.id, name]
    return replace(thing, **said) if said else thing


def _hand_down(families: Mapping[str, Family], findings: dict[str, FindingDef]) -> None:
    """A family's words to its members."""
    for family in families.values():
        for id_ in family.members if family.level_words else ():
            findings[id_] = replace(findings[id_], level_words=family.level_words)


def _named(thing: Any) -> Iterator[tuple[str, str]]:
    """The texts of a thing, and of its steps, by the name of their field."""
    for each in fields(thing):
        value = getattr(thing, each.name)
        if each.name == STEPS:
            for number, step in enumerate(value, start=1):
                for name, text in _named(step):
                    yield f"{_field(STEPS, number)} {name}", text
        elif each.name == BASIS:
            if value.note:
                yield NOTE, value.note
        elif each.name in FIELDS:
            several = value if isinstance(value, tuple) else (value,)
            for number, text in enumerate(several, start=1):
                if text:
                    yield _field(each.name, number if isinstance(value, tuple) else 0), text


def _field(name: str, number: int) -> str:
    words = name.replace("_", " ")
    return f"{words} {number}" if number else words


def _is_of(texts: Mapping[Key, Text], each: Translation) -> bool:
    text = texts.get((each.id, each.field))
    return text is not None and text.pack == each.pack


def _current(texts: Mapping[Key, Text], words: Words) -> dict[Key, str]:
    """What stands for each text that has a translation of what it says now; the last wins."""
    return {
        (each.id, each.field): each.text
        for each in words.translations
        if _is_of(texts, each) and texts[each.id, each.field].digest == each.of
    }


def _in_words(id_: str, thing: Any, current: Mapping[Key, str], before: str = "") -> Any:
    """The thing with its texts in other words; `before` stands before the names of its fields."""
    changes: dict[str, Any] = {}
    for each in fields(thing):
        value = getattr(thing, each.name)
        if each.name == STEPS:
            changes[each.name] = tuple(
                _in_words(id_, step, current, f"{_field(STEPS, number)} ")
                for number, step in enumerate(value, start=1)
            )
        elif each.name == BASIS:
            changes[BASIS] = replace(value, note=current.get((id_, NOTE), value.note))
        elif each.name not in FIELDS:
            continue
        elif isinstance(value, tuple):
            changes[each.name] = tuple(
                current.get((id_, before + _field(each.name, number)), text)
                for number, text in enumerate(value, start=1)
            )
        else:
            changes[each.name] = current.get((id_, before + _field(each.name, 0)), value)
    return replace(thing, **changes)
