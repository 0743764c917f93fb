"""Rounds as people name them: by id, or as they are called in the language in force."""

from __future__ import annotations

import re
from collections.abc import Sequence

from sootsayer.catalogue import Said, say, shown
from sootsayer.commands.heard import folded
from sootsayer.console.vocabulary import ROUND, round_said

ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
AND_ID = "{name} [{id}]"


def round_named(typed: str) -> str:
    """The id of a round as typed: by itself, or as it is called. What names no round that is known
    becomes an id as far as that goes: `Après essai` is `apres-essai`."""
    called = {_bare(say(words)): id_ for id_, words in ROUND.items()}
    return called.get(_bare(typed)) or "-".join(folded(typed).split())


def round_of_these(typed: str, rounds: Sequence[str]) -> str | None:
    """The round of a case that was typed; None where it has none such."""
    return typed if typed in rounds else next((r for r in rounds if r == round_named(typed)), None)


def round_and_id(name: str) -> Said:
    """A round as it is called, with its id where that is another word."""
    said = round_said(name)
    return said if said == name else say(AND_ID, name=said, id=name)


def rounds_listed(rounds: Sequence[str]) -> Said:
    """Rounds as they are called, each with its id."""
    return shown(", ".join(round_and_id(each) for each in rounds))


def _bare(name: str) -> str:
    return " ".join(folded(name).replace("-", " ").split())
