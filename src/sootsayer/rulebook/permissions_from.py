"""Sections `actions` and `interlocks`."""

from __future__ import annotations

from sootsayer.catalogue import say, shown
from sootsayer.documents.nodes import Node
from sootsayer.rulebook.basis_from import basis_for
from sootsayer.rulebook.conditions_from import condition_under
from sootsayer.rulebook.desk import Item, Malformed, listing_of, mapping_of, number_of, text_of
from sootsayer.rulebook.measures import AGE_FORMS, minutes_in
from sootsayer.rulebook.model import Action, DriveState, Interlock
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.proofs_from import applies_proofs, proofs

# Worst first.
STATES = ("not-to-be-started", "not-to-be-driven", "workshop-only")
DRIVE_ON = "drive-on"


def interlock(item: Item) -> Interlock | None:
    holds = condition_under(item, "holds when", known=True)
    if "holds when" not in item.body:
        raise Malformed(item.place, shown("holds when"))
    within = item.body.get("within")
    basis = basis_for(item)
    minutes = _minutes(item, within) if within is not None else None
    ask = item.refer_all("if unknown ask", Section.CHECK)
    applies = condition_under(item, "applies when", known=True)
    if holds is None:
        return None
    return Interlock(
        id=item.id,
        says=item.text("says"),
        when_not=item.text("when not"),
        holds=holds,
        basis=basis,
        pack=item.pack.id,
        place=item.place,
        within_minutes=minutes,
        ask=ask,
        applies=applies,
        proofs=proofs(item),
        applies_proofs=applies_proofs(item),
    )


def _minutes(item: Item, node: Node) -> float | None:
    minutes = minutes_in(text_of(node))
    if minutes is None:
        what = say('"{text}" is not a length of time', text=text_of(node))
        item.wrong(node.place, what, say(AGE_FORMS))
    return minutes


def action(item: Item) -> Action:
    needs = item.refer_all("needs", Section.INTERLOCK)
    heeds = item.refer_all("heeds", Section.INTERLOCK)
    _not_both(item, needs, heeds)
    return Action(
        id=item.id,
        does=item.text("does"),
        hurts=item.texts("hurts if wrong"),
        needs=needs,
        caution=item.text("caution"),
        pack=item.pack.id,
        place=item.place,
        heeds=heeds,
        states=_states(item, {*needs, *heeds}),
    )


def _not_both(item: Item, needs: tuple[str, ...], heeds: tuple[str, ...]) -> None:
    for name in sorted({*needs} & {*heeds}):
        item.wrong(
            item.body.key_places["heeds"],
            say('"{id}" stands in `needs` and in `heeds`', id=name),
            say("keep it in `needs` if it must be known, else in `heeds`"),
        )


def _states(item: Item, known: set[str]) -> tuple[DriveState, ...]:
    node = item.body.get("states")
    if node is None:
        return ()
    if item.id != DRIVE_ON:
        item.wrong(
            item.body.key_places["states"],
            say('"{id}" has states, which only `{only}` has', id=item.id, only=DRIVE_ON),
            say("leave them out"),
        )
    states = []
    worst = 0
    for each in listing_of(node):
        state = _state(item, each, known)
        rank = STATES.index(state.state)
        if rank < worst:
            item.wrong(
                each.place,
                say('"{state}" stands after a state that is less bad', state=state.state),
                say("put the worst first: {states}", states=", ".join(STATES)),
            )
        worst = max(worst, rank)
        states.append(state)
    return tuple(states)


def _state(item: Item, node: Node, known: set[str]) -> DriveState:
    body = mapping_of(node)
    word, blocked = body.get("state"), body.get("blocked by")
    if word is None or blocked is None or text_of(word) not in STATES:
        raise Malformed(body.place, say("a state and what it is blocked by"))
    names = []
    for each in listing_of(blocked):
        declared = item.refer(each, Section.INTERLOCK)
        if declared is None:
            continue
        if declared.id not in known:
            item.wrong(
                each.place,
                say('"{id}" is neither in `needs` nor in `heeds`', id=declared.id),
                say("add it to one of them"),
            )
        names.append(declared.id)
    count_node = body.get("at least")
    count = 1.0 if count_node is None else number_of(count_node)
    size = len(listing_of(blocked))
    if count_node is not None and (count != int(count) or not 1 <= count <= size):
        item.wrong(
            count_node.place,
            say("at least {count} of {size} can never be reached", count=f"{count:g}", size=size),
            say("write a whole number from 1 to {size}", size=size),
        )
    return DriveState(text_of(word), tuple(names), int(count))
