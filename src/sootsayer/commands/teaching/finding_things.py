"""Finding a reading or a fault by some words of its name."""

from __future__ import annotations

import re
from collections.abc import Mapping

from sootsayer.commands.heard import folded
from sootsayer.console.names import Names
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.review.bench import slots_of

MOST = 8  # so that a list fits on a small screen with its question
_WORD = re.compile(r"[a-z0-9]+")


def near(words: str, labels: Mapping[str, str]) -> list[str]:
    """The ids whose id or label has the words, the best first; the exact id alone if typed."""
    if words in labels:
        return [words]
    wanted = _WORD.findall(folded(words))
    scored = []
    for id_, label in labels.items():
        have = _WORD.findall(folded(f"{id_} {label}"))
        met = sum(_meets(word, have) for word in wanted)
        if met:
            scored.append((-met, len(have), id_))
    best = min(scored)[0] if scored else 0
    return [id_ for score, _, id_ in sorted(scored) if score <= best / 2][:MOST]


def _meets(word: str, have: list[str]) -> float:
    """1 for the word itself or its beginning, half for a word that begins alike."""
    if word in have or (len(word) > 2 and any(each.startswith(word) for each in have)):
        return 1.0
    stem = word[: max(4, len(word) * 3 // 5)]
    return 0.5 if len(word) > 4 and any(each.startswith(stem) for each in have) else 0.0


def slot_labels(model: Model, names: Names) -> dict[str, str]:
    """Every slot that can be read, with what it is called."""
    return {
        slot: str(names.of(slot)) for signal in model.signals.values() for slot in slots_of(signal)
    }


def fault_labels(model: Model) -> dict[str, str]:
    return {fault.id: fault.label for fault in model.faults.values()}
