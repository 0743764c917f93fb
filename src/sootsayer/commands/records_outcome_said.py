"""The outcome as the options of `records outcome` say it, or as it is asked."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from sootsayer.catalogue import say
from sootsayer.commands.heard import says
from sootsayer.commands.leaving import Stop
from sootsayer.commands.usage import short
from sootsayer.console import heard_texts as h

if TYPE_CHECKING:
    from sootsayer.casework.model import Outcome
    from sootsayer.commands.ask_typing import AtTerminal
    from sootsayer.ledger.model import Record
    from sootsayer.rulebook.model import Model

NOT_SAID = "what was found is not said"
NOT_SAID_NEXT = "say it: --faults ID,ID or --faults none"


def outcome_said(arguments: argparse.Namespace, record: Record, model: Model) -> Outcome:
    """By the options; what they leave out is asked at a terminal. Raises Stop."""
    from sootsayer.casework.model import Outcome
    from sootsayer.commands.ask_typing import AtTerminal, at_a_terminal
    from sootsayer.console import records_texts as t

    cured, proved = arguments.cured_by, arguments.proved_by
    if arguments.faults is not None:
        return Outcome(ids_of(arguments.faults), ids_of(cured or ""), (proved or "").strip())
    if not at_a_terminal():
        raise Stop(say(NOT_SAID), say(NOT_SAID_NEXT))
    typing = AtTerminal()
    faults = _asked_faults(typing, record, model)
    cured = typing.line(say(t.ASK_CURED)) or "" if cured is None else cured
    proved = typing.line(say(t.ASK_PROVED)) or "" if proved is None else proved
    works = ("-".join(each.lower().split()) for each in ids_of(cured))
    return Outcome(faults, tuple(works), proved.strip())


def _asked_faults(typing: AtTerminal, record: Record, model: Model) -> tuple[str, ...]:
    """Faults of the rulebook: what is none is said, and asked again."""
    from sootsayer.console import records_texts as t
    from sootsayer.console.screen import show_lines
    from sootsayer.documents.problems import did_you_mean
    from sootsayer.ledger.headlines import leading_faults
    from sootsayer.ledger.parts import part

    led = ", ".join(leading_faults(part(record.body, "verdict"))) or say(t.NOTHING_LED)
    show_lines([say(t.LED, number=record.number, faults=led)], sys.stdout)
    while True:
        found = ids_of(typing.line(say(t.ASK_FAULTS)) or "")
        wrong = next((each for each in found if each not in model.faults), None)
        if wrong is None:
            return found
        near = did_you_mean(wrong, model.faults)
        show_lines([say(t.NO_SUCH_FAULT, fault=short(wrong), near=near)], sys.stdout)


def ids_of(text: str) -> tuple[str, ...]:
    found = tuple(each.strip() for each in text.split(",") if each.strip())
    return () if len(found) == 1 and says(found[0], h.NONE) else found
