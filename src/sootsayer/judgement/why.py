"""Why and why not, for any id: down to the entry and the rule's line."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime
from difflib import get_close_matches

from sootsayer.belief.network import Kind
from sootsayer.casework.model import Case
from sootsayer.judgement.judge import tell
from sootsayer.judgement.why_answer import ThingKind, UnknownThing, WhyAnswer
from sootsayer.judgement.why_faults import of_fault
from sootsayer.judgement.why_links import Told, links_of, told
from sootsayer.judgement.why_readings import of_channel, of_family, of_finding, of_signal, of_slot
from sootsayer.judgement.why_remedy import of_remedy
from sootsayer.judgement.why_rules import of_action, of_check, of_interlock, of_limit
from sootsayer.judgement.workings import work_out
from sootsayer.judgement.would_change import WouldChange, cheapest_that_could
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.shop import Shop

NEAR = 3


def why(
    case: Case,
    rulebook: Rulebook,
    thing: str,
    *,
    now: datetime,
    as_of: int | None = None,
    shop: Shop | None = None,
) -> WhyAnswer:
    """The answer for one id or slot. Raises UnknownThing with what is spelt like it."""
    kind = kind_of(rulebook.model, thing)
    if kind is None:
        raise UnknownThing(thing, _near(rulebook.model, thing))
    if kind is ThingKind.CODE:
        thing = f"code:{thing.removeprefix('code:')}"
    work = work_out(case, rulebook, now, as_of, shop)
    asked = told(work, tell(work, proposing=False, planning=kind is ThingKind.REMEDY))
    answer = ANSWERS[kind](asked, thing)
    return replace(
        answer,
        case=case.id,
        as_of_entry=asked.verdict.as_of_entry,
        related=links_of(asked, kind, thing),
        overrides=tuple(o for o in asked.verdict.overrides if o.of == thing),
        would_change=_would_change(asked, kind, thing),
    )


def _would_change(asked: Told, kind: ThingKind, thing: str) -> WouldChange | None:
    """The cheapest check that could change what the answer is about."""
    model = asked.work.model
    if kind is ThingKind.CHECK:
        return None
    kinds: tuple[Kind, ...] = tuple(Kind)
    actions = tuple(model.actions)
    if kind is ThingKind.FAULT:
        kinds, actions = (model.faults[thing].kind,), ()
    elif kind is ThingKind.ACTION:
        kinds, actions = (), (thing,)
    elif kind is ThingKind.INTERLOCK:
        kinds = ()
        actions = tuple(a.id for a in model.actions.values() if thing in (*a.needs, *a.heeds))
    elif kind is ThingKind.REMEDY:
        kinds, actions = (), model.remedies[thing].by_actions
    return cheapest_that_could(asked.work, asked.verdict, kinds, actions)


def kind_of(model: Model, thing: str) -> ThingKind | None:
    """What an id is, None if it means nothing."""
    shelves: Sequence[tuple[ThingKind, object]] = (
        (ThingKind.FINDING, model.findings),
        (ThingKind.FAMILY, model.families),
        (ThingKind.FAULT, model.faults),
        (ThingKind.CHANNEL, model.channels),
        (ThingKind.INTERLOCK, model.interlocks),
        (ThingKind.ACTION, model.actions),
        (ThingKind.LIMIT, model.limits),
        (ThingKind.CHECK, model.checks),
        (ThingKind.REMEDY, model.remedies),
    )
    for kind, shelf in shelves:
        if isinstance(shelf, dict) and thing in shelf:
            return kind
    if thing.removeprefix("code:") in model.codes:
        return ThingKind.CODE
    name, _, point = thing.partition("@")
    signal = model.signals.get(name)
    if signal is None or (point and point not in signal.points):
        return None
    return ThingKind.SIGNAL if signal.points and not point else ThingKind.SLOT


def every_thing(model: Model) -> tuple[str, ...]:
    """Every id and slot that `why` can answer for, sorted."""
    slots = [f"{signal.id}@{point}" for signal in model.signals.values() for point in signal.points]
    shelves = (
        model.findings,
        model.families,
        model.faults,
        model.channels,
        model.interlocks,
        model.actions,
        model.limits,
        model.checks,
        model.remedies,
        model.signals,
        model.codes,
        slots,
    )
    return tuple(sorted({name for shelf in shelves for name in shelf}))


def _near(model: Model, thing: str) -> tuple[str, ...]:
    return tuple(get_close_matches(thing[:200], every_thing(model), n=NEAR, cutoff=0.5))


ANSWERS: dict[ThingKind, Callable[[Told, str], WhyAnswer]] = {
    ThingKind.SLOT: of_slot,
    ThingKind.CODE: of_slot,
    ThingKind.SIGNAL: of_signal,
    ThingKind.FINDING: of_finding,
    ThingKind.FAMILY: of_family,
    ThingKind.CHANNEL: of_channel,
    ThingKind.FAULT: of_fault,
    ThingKind.INTERLOCK: of_interlock,
    ThingKind.ACTION: of_action,
    ThingKind.LIMIT: of_limit,
    ThingKind.CHECK: of_check,
    ThingKind.REMEDY: of_remedy,
}
