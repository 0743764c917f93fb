"""Names, plates and chassis numbers, taken out of a text before it is kept for ever.

Searched is wherever a person writes freely: the texts of notes, stories, labels and proofs, and
comments. An id that names somebody is refused. Keys and readings are words of the rulebook.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from yaml.events import (
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from sootsayer.casework.append import quoted
from sootsayer.casework.people import Person
from sootsayer.catalogue import say
from sootsayer.documents.nodes import Place
from sootsayer.documents.parsers import pure_events
from sootsayer.documents.problems import Problem, Refused

# They stand in kept texts for ever, of which digests are taken: in one language alone.
_NAME, _PLATE, _CHASSIS = "(name)", "(plate)", "(chassis number)"  # not said
FREE = frozenset({"story", "note", "label", "proved by"})  # not said
IDS = frozenset({"case", "by", "round", "work"})
IN_ID = (
    "a name, plate or chassis number stands here, and it would be kept for ever",
    "names belong into people.yaml alone; write an id that names nobody",
)
ON_LINES = ("this text names somebody, on several lines", "write it on one line, without the name")
_TITLES = frozenset({"mr", "mrs", "miss", "dr", "herr", "frau", "mme", "the", "and", "von", "van"})
_LEAST_WORD, _LEAST_PLATE, _TAIL = 3, 4, 6
# ISO 3779: 17 characters, no I, O or Q; here with letters and at least four digits.
_ANY_CHASSIS = re.compile(
    r"(?<![A-Za-z0-9])(?=(?:[A-Za-z]*[0-9]){4})(?=[0-9]*[A-Za-z])[A-HJ-NPR-Za-hj-npr-z0-9]{17}(?![A-Za-z0-9])"
)


@dataclass(frozen=True, slots=True)
class Pattern:
    """What to look for, and what stands in its place."""

    found: re.Pattern[str]
    instead: str
    one_word: bool = False


@dataclass(frozen=True, slots=True)
class Withheld:
    """A text that names nobody, and how many times it would have."""

    text: bytes
    times: int


def patterns_of(own: Person | None, others: Iterable[Person] = ()) -> tuple[Pattern, ...]:
    """What betrays these people: of the vehicle's `own` customer each word of the name too."""
    found: list[Pattern] = [Pattern(_ANY_CHASSIS, _CHASSIS)]
    for person in (*((own,) if own else ()), *others):
        found += _of(person)
    if own is not None:
        words = [w for w in re.findall(r"\w+", own.name) if len(w) >= _LEAST_WORD]
        found += [
            Pattern(_word(w), _NAME, one_word=True) for w in words if w.lower() not in _TITLES
        ]
    return tuple(found)


def _of(person: Person) -> Iterator[Pattern]:
    name = person.name.split()
    if name:
        yield Pattern(_bounded(r"\W+".join(re.escape(word) for word in name)), _NAME)
    chassis = _bare(person.chassis_number)
    if len(chassis) >= _TAIL:
        yield Pattern(_bounded(_spaced(chassis)), _CHASSIS)
        yield Pattern(_bounded(r"[A-Za-z0-9]{0,3}" + _spaced(chassis[-_TAIL:])), _CHASSIS)
    plate = _bare(person.plate)
    if len(plate) >= _LEAST_PLATE:
        yield Pattern(_bounded(_spaced(plate)), _PLATE)


def without_people(text: str, patterns: Sequence[Pattern]) -> tuple[str, int]:
    """The text with everything personal replaced, and how many times."""
    times = 0
    for pattern in patterns:
        text, count = pattern.found.subn(pattern.instead, text)
        times += count
    return text, times


def withhold(data: bytes, file: str, patterns: Sequence[Pattern]) -> Withheld:
    """A case's text (already read once without a problem) that names nobody; lines stay where they
    are. Raises Refused where an id names somebody."""
    text = data.decode("utf-8")
    problems: list[Problem] = []
    parts, times, done = list[str](), 0, 0
    for key, event in _values(text):
        begin, end = _span(event)
        comment, count = without_people(text[done:begin], patterns)
        parts.append(comment)
        times += count
        written, done = text[begin:end], end
        said, more = without_people(event.value, patterns) if key in FREE else ("", 0)
        if key in IDS and _names_somebody(event.value, patterns):
            problems.append(_refusal(file, event, IN_ID))
        elif more and "\n" in written:
            problems.append(_refusal(file, event, ON_LINES))
        elif more:
            written, times = quoted(said), times + more
        parts.append(written)
    comment, count = without_people(text[done:], patterns)
    if problems:
        raise Refused(problems)
    return Withheld("".join((*parts, comment)).encode("utf-8"), times + count)


def blanked(data: bytes, key: str) -> bytes:
    """A YAML text with another value for a key at its head, which says that it was withheld."""
    text = data.decode("utf-8")
    for found, event in _values(text, deepest=1):
        if found == key:
            begin, end = _span(event)
            return f"{text[:begin]}{quoted(_NAME)}{text[end:]}".encode()
    return data


def _names_somebody(text: str, patterns: Sequence[Pattern]) -> bool:
    """Whether a name as a whole, a plate or a chassis number stands in an id; one word of a name
    may be any word of the trade."""
    return any(each.found.search(text) for each in patterns if not each.one_word)


def _values(text: str, deepest: int = 99) -> Iterator[tuple[str, ScalarEvent]]:
    """Each scalar that stands as the value of a key, with the key; others with ""."""
    waiting: list[str | None] = []  # of each open mapping the key without its value, "" for none
    for event in pure_events(text):
        if isinstance(event, MappingStartEvent | SequenceStartEvent):
            _settled(waiting)
            waiting.append("" if isinstance(event, MappingStartEvent) else None)
        elif isinstance(event, MappingEndEvent | SequenceEndEvent):
            waiting.pop()
        elif isinstance(event, ScalarEvent):
            key = waiting[-1] if waiting else None
            if key == "":
                waiting[-1] = event.value
                yield "", event
            else:
                yield (key or "") if len(waiting) <= deepest else "", event
                _settled(waiting)


def _settled(waiting: list[str | None]) -> None:
    if waiting and waiting[-1] is not None:
        waiting[-1] = ""


def _refusal(file: str, event: ScalarEvent, why: tuple[str, str]) -> Problem:
    what, instead = why
    mark = event.start_mark
    assert mark is not None  # only events that were made by hand have none
    return Problem(Place(file, mark.line + 1, mark.column + 1), say(what), say(instead))


def _span(event: ScalarEvent) -> tuple[int, int]:
    """Where a scalar begins and ends in its text."""
    begin, end = event.start_mark, event.end_mark
    assert begin is not None and end is not None  # as above  # noqa: PT018
    return begin.index, end.index


def _bare(text: str) -> str:
    return re.sub(r"[^A-Za-z0-9\u00c0-\u024f]", "", text)


def _spaced(text: str) -> str:
    """The same signs, whatever stands between them: spaces, dots, dashes."""
    return r"[\s.\-_/]?".join(re.escape(sign) for sign in text)


def _bounded(pattern: str) -> re.Pattern[str]:
    return re.compile(rf"(?<![^\W_])(?:{pattern})(?![^\W_])", re.IGNORECASE)


def _word(word: str) -> re.Pattern[str]:
    return _bounded(re.escape(word))
