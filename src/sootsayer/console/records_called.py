"""What the things in records are called, in the language in force: ids to people's words.

A record may be in another language than the page, and of a rulebook that has things which today's
has not, or the other way round. So several sources are asked: the first that knows an id speaks.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from sootsayer.catalogue import Said, say, shown
from sootsayer.console.names import declared_words, labels_of
from sootsayer.console.words import level_said
from sootsayer.ledger import headlines
from sootsayer.rulebook.model import Model

TEXT_AND_ID = '"{text}" [{id}]'


@dataclass(frozen=True, slots=True)
class Called:
    """`texts`: id of anything to what it is called. `words`: finding or family to its levels as
    they are said, where that is another language's."""

    texts: Mapping[str, str] = field(default_factory=dict)
    words: Mapping[str, Mapping[str, str]] = field(default_factory=dict)

    def of(self, thing: str) -> Said:
        """What it is called, or the id itself where nobody knows."""
        return shown(self.texts.get(thing) or thing)

    def with_id(self, thing: str) -> Said:
        """The same with the id behind it, for who looks it up in the rules."""
        text = self.texts.get(thing)
        return say(TEXT_AND_ID, text=text, id=thing) if text else shown(thing)

    def level(self, thing: str, level: str) -> Said:
        """A level of a finding or family; yes and no for true and false."""
        return level_said(level, self.words.get(thing))


def called_by(*sources: Called) -> Called:
    """Each thing as the first of these calls it that knows it."""
    texts: dict[str, str] = {}
    words: dict[str, Mapping[str, str]] = {}
    for each in reversed(sources):
        texts.update(each.texts)
        words.update(each.words)
    return Called(texts, words)


def called_in(models: Sequence[Model]) -> Called:
    """As rulebooks call things; the first that knows one speaks."""
    return called_by(*map(_called, models))


def _called(model: Model) -> Called:
    labels = labels_of(model) | {point.id: point.label for point in model.points.values()}
    # A thing without words of its own has its levels as they are, whatever other rulebooks say.
    words: dict[str, Mapping[str, str]] = {id_: {} for id_ in labels}
    return Called(labels, words | declared_words(model))


def called_then(told: Mapping[str, Any]) -> Called:
    """As a kept verdict called them itself, from its JSON."""
    return Called(headlines.labels(told))
