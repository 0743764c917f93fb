"""How well the name of a column fits what it could be."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping

from sootsayer.casework.logs.units import dimension, head_unit
from sootsayer.casework.logs.words import (
    AFTER_WORDS,
    BEFORE_WORDS,
    ELSEWHERE,
    FILTER_WORDS,
    TIME,
    Role,
)

_LONGEST_NAME = 200
_BRACKETED = re.compile(r"[\[({<]([^\[\](){}<>]{1,24})[\])}>]")
_CAMEL = re.compile(r"(?<=[a-zà-ÿ])(?=[A-ZÀ-Þ])")
_TOKEN = re.compile(r"[a-z]+|[0-9]+")
_FILLING = frozenset({
    "the", "of", "in", "at", "to", "de", "du", "des", "la", "le", "les", "d", "l", "der", "die",
    "das", "am", "im", "bank", "sensor", "capteur", "value", "actual", "ist", "istwert", "reel",
    "reelle", "measured", "mesuree", "gemessen", "current", "fuhler",
})  # fmt: skip


def split_unit(name: str) -> tuple[str, str | None]:
    """The name without its unit, and the unit as we name it; None where it has none.

    In brackets, or at the end behind a space, comma, slash, underscore or dash.
    """
    name = " ".join(name[:_LONGEST_NAME].split())
    for found in reversed(list(_BRACKETED.finditer(name))):
        unit = head_unit(found.group(1))
        if unit is not None:
            return " ".join((name[: found.start()] + " " + name[found.end() :]).split()), unit
    for gap in re.finditer(r"[\s,;_/:-]+", name):
        rest = name[gap.end() :]
        unit = head_unit(rest) if gap.start() else None
        if unit is not None and not (len(rest) == 1 and "_" not in gap.group()):
            return name[: gap.start()].strip(), unit
    # "rpm" or "km/h" alone is a name and a unit at once
    return name, head_unit(name)


def tokens(name: str) -> list[str]:
    """The words of a name in lower case without accents, numbers apart."""
    text = name[:_LONGEST_NAME].replace("Δ", " delta ").replace("∆", " delta ").replace("ß", "ss")
    text = _CAMEL.sub(" ", text)
    plain = unicodedata.normalize("NFKD", text.casefold())
    return _TOKEN.findall("".join(c for c in plain if not unicodedata.combining(c)))


def score(words: list[str], unit: str | None, role: Role) -> float:
    """From 0 to 1: how well the words and the unit (None where there is none) fit the role."""
    if unit is not None and dimension(unit) not in role.dimensions:
        return 0.0
    base, used = _base(words, role)
    if base <= 0.0:
        return 0.0
    place, near_filter = _place(words)
    if role.place and place and place != role.place:
        return 0.0
    if role.place == "after" and place != "after":
        return 0.0
    total = 0.75 * base
    helped = [stem for stem in role.helps if _found(words, (stem,))]
    total += min(0.1 * len(helped), 0.15)
    total -= 0.45 * sum(1 for stem in role.against if _found(words, (stem,)))
    if role.place and place:
        total += 0.2 if near_filter else 0.05
    elif role.place and _found(words, ELSEWHERE):
        total -= 0.3
    total += 0.15 if unit is not None else 0.0
    known = used | {w for w in words if w in _FILLING or _found([w], role.helps)}
    known |= {w for w in words if role.place and _found([w], (*BEFORE_WORDS, *AFTER_WORDS))}
    total -= min(0.03 * len([w for w in words if w not in known]), 0.15)
    if role.id == TIME and unit is None and len(words) > 2:
        total -= 0.2
    return round(max(0.0, min(1.0, total)), 2)


def best_of(words: list[str], table: Mapping[str, float]) -> float:
    """The greatest weight among the stems that the words hold, else 0."""
    return max((w for stem, w in table.items() if _found(words, (stem,))), default=0.0)


def _base(words: list[str], role: Role) -> tuple[float, set[str]]:
    groups = [best_of(words, group) for group in role.needs]
    mean = sum(groups) / len(groups) if all(groups) else 0.0
    stems = {stem for group in role.needs for stem in group} | set(role.whole)
    used = {word for word in words if _found([word], stems)}
    return max(mean, best_of(words, role.whole)), used


def _found(words: Iterable[str], stems: Iterable[str]) -> bool:
    return any(_matches(word, stem) for word in words for stem in stems)


def _matches(word: str, stem: str) -> bool:
    if word == stem:
        return True
    if len(stem) >= 5:
        return stem in word
    return len(stem) == 4 and word.startswith(stem)


def _place(words: list[str]) -> tuple[str, bool]:
    """Before or after the filter ("" unknown), and whether the filter is named beside it."""
    before = [i for i, w in enumerate(words) if w in BEFORE_WORDS or w.startswith(("vordpf",))]
    after = [i for i, w in enumerate(words) if w in AFTER_WORDS]
    filters = [i for i, w in enumerate(words) if _found([w], FILTER_WORDS)]
    if not before and not after:
        return "", False
    if not filters:
        if before and after:
            return "", False
        return ("before" if before else "after"), False
    at = filters[0]
    distances = [(abs(i - at), i > at, "before") for i in before]
    distances += [(abs(i - at), i > at, "after") for i in after]
    return min(distances)[2], True
