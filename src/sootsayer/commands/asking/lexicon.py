"""Which signal and point a few typed words mean: by id, by label, by some of its words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from difflib import get_close_matches

from sootsayer.catalogue import Said, say
from sootsayer.commands.heard import WORD, folded, says, words_heard
from sootsayer.console import heard_texts as h
from sootsayer.physics.typed_numbers import ungrouped
from sootsayer.rulebook.model import Model, Signal

POINT = "{label} [{id}]"
_SHORTEST = 3  # letters of a word that may stand for a longer one
_MOST_WORDS = 8


def words_of(text: str) -> list[str]:
    """Its words without capitals and accents, and without what stands between them."""
    return WORD.findall(folded(text))


def signals_meant(words: Sequence[str], model: Model) -> list[Signal]:
    """The signals that these words may mean, the plainest reading alone where there is one.

    By id (`oil level` is `oil-level`), by the whole label, then by words that all stand in
    the label or id. Computed signals are never meant: nobody reads them.
    """
    exact = _named(words, model)
    if exact:
        return exact
    telling = [word for word in words if word not in words_heard(h.SMALL)]
    if all(len(word) < _SHORTEST for word in telling):  # `no` is an answer, not the one in `no. 3`
        return []
    return [each for each in _told(model) if _has_all(each, telling)]


def _told(model: Model) -> list[Signal]:
    return [each for each in model.signals.values() if each.id not in model.quantities]


def _named(words: Sequence[str], model: Model) -> list[Signal]:
    """The signals of which the words are the whole id, else the whole label."""
    asked, told = list(words), _told(model)
    exact = [each for each in told if words_of(each.id) == asked or each.id == "-".join(asked)]
    return exact or [each for each in told if asked in _called(each)]


def _called(signal: Signal) -> list[list[str]]:
    """What a signal is called: its label, and by instruments."""
    return [words_of(name) for name in (signal.label, *signal.shown_as)]


def _has_all(signal: Signal, telling: Sequence[str]) -> bool:
    own = {*words_of(signal.id), *(word for name in _called(signal) for word in name)}
    return all(
        word in own or (len(word) >= _SHORTEST and any(each.startswith(word) for each in own))
        for word in telling
    )


def openings(tokens: Sequence[str], model: Model) -> Iterator[tuple[list[Signal], int]]:
    """What the first tokens may mean, with how many tokens it takes: what is called by its whole
    name with one of its points behind (`air at idle`), then the longest reading first."""
    with_point = _named_with_point(tokens, model)
    if with_point is not None:
        yield with_point
    for count in range(min(len(tokens), _MOST_WORDS), 0, -1):
        words = words_of(" ".join(tokens[:count]))
        if not words:
            continue
        small = words[-1] in words_heard(h.SMALL)  # the end of a name, as of `fan-runs-on`, or none
        meant = _named(words, model) if small else signals_meant(words, model)
        if meant:
            yield meant, count


def _named_with_point(tokens: Sequence[str], model: Model) -> tuple[list[Signal], int] | None:
    """Else `air at idle` would be any other signal that has both words in its name."""
    for count in range(min(len(tokens) - 1, _MOST_WORDS), 0, -1):
        found = point_at(without_at(list(tokens[count:])), model)
        if found is None:
            continue
        named = _named(words_of(" ".join(tokens[:count])), model)
        meant = [each for each in named if found[0] in each.points]
        if meant:
            return meant, count
    return None


def point_at(tokens: Sequence[str], model: Model) -> tuple[str, int] | None:
    """The point that the first tokens name (`2500`, `2,500 rpm`, `idle`, `a firm pull`), and how
    many tokens that takes; None where they name none."""
    if not tokens:
        return None
    for count in range(min(len(tokens), 5), 0, -1):
        bare = _bare(" ".join(tokens[:count]))
        if not bare:
            continue
        for point in model.points.values():
            if bare in (_bare(point.label), words_of(point.id), [point.id]):
                return point.id, count
    return None


def point_meant(text: str, signal: Signal, model: Model) -> str | None:
    """Which of a signal's points a whole answer means: as everywhere, else by words that begin
    words of one label alone (`à l'arrêt` is `moteur arrêté`); None where that is none or several.
    """
    tokens = without_at(text.split())
    named = point_at(tokens, model)
    if named is not None and named[1] == len(tokens):
        return named[0] if named[0] in signal.points else None
    asked = _bare(text)
    labels = {point: _bare(model.points[point].label) for point in signal.points}
    found = [
        point
        for point, own in labels.items()
        if asked and all(any(word.startswith(each) for word in own) for each in asked)
    ]
    return found[0] if len(found) == 1 and len(max(asked, key=len)) >= _SHORTEST else None


def points_said(signal: Signal, model: Model) -> Said:
    """The points of a signal as they are called, each with its id."""
    parts = (say(POINT, label=model.points[each].label, id=each) for each in signal.points)
    return Said(", ".join(parts))


def _bare(text: str) -> list[str]:
    """The words that tell one point from another, speeds as one number: `2500`, never `2,500`."""
    words = words_of(ungrouped(text).replace(",", ""))
    return [word for word in words if word not in words_heard(h.SMALL) | words_heard(h.RPM)]


def is_at(token: str) -> bool:
    """Whether a word stands before a point: `at`, `@`."""
    return says(token, h.AT)


def without_at(tokens: list[str]) -> list[str]:
    """The words without the one that stands before a point."""
    return tokens[1:] if tokens and is_at(tokens[0]) else tokens


def slots_of(signal: Signal) -> list[str]:
    """Every slot of a signal."""
    return [f"{signal.id}@{point}" for point in signal.points] or [signal.id]


def near_misses(text: str, model: Model, most: int = 3) -> list[str]:
    """Slots spelt or called like the text, the nearest first."""
    typed = "-".join(words_of(text))[:80]
    if not typed:
        return []
    names: dict[str, str] = {}
    for signal in model.signals.values():
        if signal.id in model.quantities:
            continue
        slot = slots_of(signal)[0] if len(signal.points) == 1 else signal.id
        names.setdefault(signal.id, slot)
        names.setdefault("-".join(words_of(signal.label)), slot)
        for word in words_of(signal.label):
            if len(word) > _SHORTEST:
                names.setdefault(word, slot)
    found = get_close_matches(typed, names, n=most * 2, cutoff=0.7)
    found += get_close_matches(typed.partition("-")[0], names, n=most, cutoff=0.8)
    return list(dict.fromkeys(names[each] for each in found))[:most]


def slot_named(text: str, model: Model) -> list[str]:
    """The slots that a whole text names (`dp@idle`, `dp idle`, `oil level`); several where it does
    not say the point."""
    name, at, point = text.strip().partition("@")
    if at:
        signal = model.signals.get(name.strip())
        found = point_at(point.split(), model)
        if signal is None or found is None or found[1] != len(point.split()):
            return []
        return [f"{name.strip()}@{found[0]}"] if found[0] in signal.points else []
    tokens = text.split()
    for meant, count in openings(tokens, model):
        rest = tokens[count:]
        rest = without_at(list(rest))
        if not rest:
            return [slot for signal in meant for slot in slots_of(signal)]
        place = point_at(rest, model)
        if place is not None and place[1] == len(rest):
            return [f"{each.id}@{place[0]}" for each in meant if place[0] in each.points]
    return []
