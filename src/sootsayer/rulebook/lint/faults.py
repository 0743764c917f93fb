"""Faults: what causes may lead to, and what hiders may hide."""

from __future__ import annotations

from sootsayer.belief.network import Kind
from sootsayer.catalogue import say
from sootsayer.rulebook.desk import Desk
from sootsayer.rulebook.model import FaultDef, Model
from sootsayer.rulebook.network import hiders_in_order
from sootsayer.rulebook.reads import channels_behind, members_of

ONLY_CONDITIONS = '"{id}" is a {kind}, and causes lead only to conditions'
BELOW_PRIOR = '"{cause}" leads to "{condition}" at {leads}, below its prior {prior}'
NOT_NEAREST = '"{fault}" hides "{finding}" and stands in `nearest first` of none of its channels'


def leads_are_possible(desk: Desk, model: Model) -> None:
    """A cause leads to conditions, at least as often as they occur by themselves."""
    for cause in model.faults.values():
        for name, leads in cause.leads_to.items():
            led = model.faults.get(name)
            if led is None:
                continue
            place = desk.places["leads", cause.id, name]
            if led.kind is not Kind.CONDITION:
                desk.wrong(
                    place,
                    say(ONLY_CONDITIONS, id=name, kind=led.kind.value),
                    say("name a fault of the kind `condition`"),
                )
            elif leads < led.prior:
                desk.wrong(
                    place,
                    say(
                        BELOW_PRIOR,
                        cause=cause.id,
                        condition=name,
                        leads=f"{leads:g}",
                        prior=f"{led.prior:g}",
                    ),
                    say("`leads to` includes the prior: write at least that"),
                )


def hiders_are_placed(desk: Desk, model: Model) -> None:
    """A hider stands in `nearest first` of the channel, and never in `seen with`."""
    for fault in model.faults.values():
        for name in fault.hides:
            _is_placed(desk, model, fault, name)
            _is_not_seen(desk, model, fault, name)


def _is_placed(desk: Desk, model: Model, fault: FaultDef, name: str) -> None:
    members = members_of(model, name)
    if any(member not in model.findings for member in members):
        return
    channels = channels_behind(model, *members)
    if fault.id in hiders_in_order(model, channels):
        return
    place = desk.places["hides", fault.id, name]
    if not channels:
        desk.wrong(
            place,
            say('"{finding}" is read through no channel, so nothing can hide it', finding=name),
            say("give its signals a `channel`, or leave it out here"),
        )
        return
    desk.wrong(
        place,
        say(NOT_NEAREST, fault=fault.id, finding=name),
        say("add it to `nearest first` of {channels}", channels=", ".join(channels)),
    )


def _is_not_seen(desk: Desk, model: Model, fault: FaultDef, name: str) -> None:
    for each in dict.fromkeys((name, *members_of(model, name))):
        evidence = model.evidence.get(each)
        if evidence is not None and fault.id in evidence.seen_with:
            desk.wrong(
                evidence.places[fault.id],
                say(
                    '"{fault}" is seen with "{finding}", which it hides at {place}',
                    fault=fault.id,
                    finding=each,
                    place=desk.places["hides", fault.id, name],
                ),
                say("keep one: `hides` if it lowers or freezes the reading, else `seen with`"),
            )
