"""A typed line as facts: `dp 18 hPa`, `air 480 mg/st at 2500; oil level low`, several on a line."""

from __future__ import annotations

import re
from collections.abc import Iterator

from sootsayer.casework.model import Source
from sootsayer.catalogue import Said, say, shown
from sootsayer.commands.asking.lexicon import is_at, near_misses, openings, point_at, slots_of
from sootsayer.commands.asking.state import Item, NeedsPoint, Session
from sootsayer.commands.asking.values import NotUsable, read_answer
from sootsayer.commands.heard import one_of
from sootsayer.console import ask_texts as t
from sootsayer.console import heard_texts as h
from sootsayer.rulebook.model import Model, Signal, Where

# A comma between facts, not the one in 0,9: a blank follows it.
_BETWEEN = re.compile(r"\s*;\s*|\s*,\s+(?=\D)")
_TOLD = "ask-"  # a check whose id begins so is the customer's account
_LONGEST = 2000


Told = Item | NeedsPoint | NotUsable


def understood(text: str, session: Session) -> list[Told] | None:
    """Each fact of the line, or why it is none; None where the line names no signal at all."""
    if len(text) > _LONGEST:
        return [NotUsable(say(t.TOO_LONG), say(t.TOO_LONG_NEXT))]
    source, rest = _source_first(text)
    parts = [part for part in _BETWEEN.split(rest) if part.strip()]
    found: list[Told] = []
    for part in parts:
        found += _several(part, source, session)
    if not any(not _names_nothing(each) for each in found):
        return None
    return found


def default_source(slot: str, model: Model, check: str | None = None) -> Source:
    """Where a fact comes from unless it is said: by the check asked, else by the first that gives
    it. What the customer is asked is the customer's; what is read with the tool is the scan's."""
    giving = [model.checks[check]] if check in model.checks else []
    giving += sorted(
        (each for each in model.checks.values() if slot in each.gives),
        key=lambda each: (each.minutes, each.id),
    )
    if not giving:
        return Source.TECHNICIAN
    if giving[0].where is Where.SCAN:
        return Source.SCAN
    if giving[0].where is Where.COUNTER and giving[0].id.startswith(_TOLD):
        return Source.CUSTOMER
    signal = model.signals[slot.partition("@")[0]]
    if "scan" in signal.channels and slot.endswith("@applied"):
        return Source.SCAN
    return Source.TECHNICIAN


def _source_first(text: str) -> tuple[Source | None, str]:
    """`gauge: dp 59 mbar at 2500` says whose reading it is."""
    word, mark, rest = text.strip().partition(":")
    source = one_of(word, h.SOURCE) if mark else None
    if source is not None:
        return Source(source), rest
    first, _, rest = text.strip().partition(" ")
    source = one_of(first, h.SOURCE)
    return (Source(source), rest) if source is not None and rest.strip() else (None, text)


def _several(part: str, source: Source | None, session: Session) -> Iterator[Told]:
    """One fact, or several whose ids stand one behind the other: `dp@rest 1 dp@idle 24`."""
    tokens = part.split()
    starts = [0, *(i for i in range(1, len(tokens)) if _is_slot(tokens[i], session.model))]
    for begin, end in zip(starts, [*starts[1:], len(tokens)], strict=True):
        yield _one(tokens[begin:end], source, session)


def _is_slot(token: str, model: Model) -> bool:
    name, at, point = token.rstrip(":=").partition("@")
    signal = model.signals.get(name)
    return bool(at) and signal is not None and point in signal.points


def _one(tokens: list[str], source: Source | None, session: Session) -> Told:
    """The best reading of one fact: the first whose value fits its signal."""
    tokens = _apart(tokens)
    refused: list[Told] = []
    for meant, count in openings(tokens, session.model):
        readings = [_read(each, tokens[count:], source, session) for each in meant]
        good = [each for each in readings if not isinstance(each, NotUsable)]
        if len(good) == 1:
            return good[0]
        if len(good) > 1:
            names = ", ".join(f"{each.id}" for each in meant)
            what = say(t.SEVERAL_MEANT, text=" ".join(tokens[:count]))
            return NotUsable(what, say(t.SEVERAL_MEANT_NEXT, names=names))
        if len(meant) == 1:
            refused += readings
    if refused:
        return refused[0]
    text = " ".join(tokens)
    near = near_misses(leading_words(" ".join(tokens)), session.model)
    instead = say(t.DID_YOU_MEAN, near=" / ".join(near)) if near else say(t.NO_FACT_NEXT)
    return NotUsable(say(t.NO_FACT, text=_short(text)), instead, nameless=True)


def _apart(tokens: list[str]) -> list[str]:
    """`dp=18`, `dp: 18` and `dp@idle` as separate words."""
    text = " ".join(tokens)
    head, mark, tail = text.partition("=")
    if mark:
        text = f"{head} {tail}"
    words = []
    for word in text.split():
        if word.endswith(":"):
            word = word[:-1]
        if not word:  # some write a blank before the colon
            continue
        name, at, point = word.partition("@")
        words += [name, "at", point] if at and name and point else [word]
    return words


def leading_words(text: str) -> str:
    """The leading words that are no number: what was meant as a name."""
    names: list[str] = []
    for token in text.split():
        if token[:1].isdigit() or token[:1] in "-+" or is_at(token):
            break
        names.append(token)
    return " ".join(names)


def _read(signal: Signal, rest: list[str], source: Source | None, session: Session) -> Told:
    point, rest = _point(rest, session.model)
    if signal.points and point is None and rest and is_at(rest[0]) and len(rest) > 1:
        return _not_at(signal, rest[1])
    text = " ".join(rest)
    if not text:
        return NotUsable(say(t.NO_VALUE, label=signal.label), say(t.NO_VALUE_NEXT, id=signal.id))
    if signal.points and point is None:
        point = _only_point(signal, session)
    if signal.points and point is not None and point not in signal.points:
        return _not_at(signal, point)
    slot = f"{signal.id}@{point}" if signal.points and point else signal.id
    whose = source or default_source(slot, session.model)
    # Whether the value can be read at all is told before the point is asked.
    tried = slot if point or not signal.points else slots_of(signal)[0]
    answer = read_answer(text, tried, whose, session.case, session.setting)
    if not signal.points or point is not None:
        return answer
    if isinstance(answer, NotUsable) and not _needs_speed(text):
        return answer
    return NeedsPoint(signal.id, text, whose, source is not None)


def _not_at(signal: Signal, point: str) -> NotUsable:
    known = ", ".join(slots_of(signal))
    what = say(t.NOT_AT_POINT, label=signal.label, point=_short(point))
    return NotUsable(what, say(t.NOT_AT_POINT_NEXT, known=known))


def _needs_speed(text: str) -> bool:
    """Air per stroke can be read only where the speed is known, so the point comes first."""
    return "mg/" in text.casefold()


def _point(rest: list[str], model: Model) -> tuple[str | None, list[str]]:
    """The point named in front of the value or behind it, and the words without it."""
    if rest and is_at(rest[0]):
        found = point_at(rest[1:], model)
        if found is not None:
            return found[0], rest[1 + found[1] :]
    bare = point_at(rest[:-1], model)
    if bare is not None and rest[bare[1]][:1] in "-+0123456789":  # `dp idle 34`
        return bare[0], rest[bare[1] :]
    for index in range(len(rest) - 1, 0, -1):
        if is_at(rest[index]):
            found = point_at(rest[index + 1 :], model)
            if found is not None and index + 1 + found[1] == len(rest):
                return found[0], rest[:index]
    return None, rest


def _only_point(signal: Signal, session: Session) -> str | None:
    """The point that is meant without being named: the only one, or that of the question."""
    if len(signal.points) == 1:
        return signal.points[0]
    question = session.question
    if question is not None and question.slot.partition("@")[0] == signal.id:
        return question.slot.partition("@")[2]
    return None


def _names_nothing(part: Told) -> bool:
    return isinstance(part, NotUsable) and part.nameless


def _short(text: str) -> Said:
    whole = shown(text)
    return whole if len(whole) <= 40 else Said(whole[:39] + "…")
