"""What was not checked: refused, unknown, untested, not looked at."""

from __future__ import annotations

from collections.abc import Iterator

from sootsayer.casework.model import Absence
from sootsayer.catalogue import Said, say
from sootsayer.judgement.verdict import ChannelState
from sootsayer.report import customer_texts as t
from sootsayer.report.reported import KINDS, Reported, worth_telling

_SAYS = {Absence.CANNOT: t.NOT_POSSIBLE, Absence.DO_NOT_KNOW: t.NOT_KNOWN}


def open_ends(of: Reported) -> tuple[Said, ...]:
    """Every one once: instruments first, then what was tried and could not be had, then what
    nobody looked at; the customer's page has room for the first of them only."""
    found = [*_instruments(of), *_absent(of), *_missing(of)]
    return tuple(dict.fromkeys(found))


def _instruments(of: Reported) -> Iterator[Said]:
    """Those that something was read through in the newest round."""
    used = {fact.channel for facts in of.work.sheet.by_source.values() for fact in facts}
    for channel in of.verdict.channels:
        if channel.state is ChannelState.UNPROVEN and channel.id in used:
            yield say(t.INSTRUMENT, label=channel.label)


def _missing(of: Reported) -> Iterator[Said]:
    for kind in KINDS:
        for fault in worth_telling(of.verdict, kind):
            yield from (say(t.MISSING, label=of.names.of(family)) for family in fault.missing)


def _absent(of: Reported) -> Iterator[Said]:
    for slot, facts in of.work.sheet.by_source.items():
        reason = facts[0].absence
        if all(fact.value is None for fact in facts) and reason in _SAYS:
            yield say(_SAYS[reason], label=of.names.of(slot))
