"""Section `faults`."""

from __future__ import annotations

from sootsayer.belief.network import Kind
from sootsayer.catalogue import say
from sootsayer.documents.nodes import Node
from sootsayer.rulebook.basis_from import basis_for
from sootsayer.rulebook.conditions_from import condition, condition_under
from sootsayer.rulebook.desk import Item, Malformed, listing_of, mapping_of, number_of, text_of
from sootsayer.rulebook.frequencies import frequency, spread
from sootsayer.rulebook.model import FaultDef, Filling, Shift
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.proofs_from import applies_proofs, proofs_in
from sootsayer.rulebook.targets import key_node, target

ONLY_CAUSES = '"{id}" is a {kind}, and only causes lead to something'


def fault(item: Item) -> FaultDef | None:
    kind_node, prior_node = item.body.get("kind"), item.body.get("prior")
    if kind_node is None or prior_node is None:
        raise Malformed(item.place, say("kind and prior"))
    word = text_of(kind_node)
    if word not in {kind.value for kind in Kind}:
        raise Malformed(kind_node.place, say("a kind of fault"))
    prior = frequency(item, prior_node)
    parts = FaultDef(
        id=item.id,
        label=item.text("label"),
        kind=Kind(word),
        prior=0.5 if prior is None else prior,
        basis=basis_for(item),
        pack=item.pack.id,
        place=item.place,
        shifts=_shifts(item),
        leads_to=_leads(item, Kind(word)),
        hides=_hides(item),
        applies=condition_under(item, "applies when", known=True),
        fills_with=_filling(item, Kind(word)),
        applies_proofs=applies_proofs(item),
    )
    return None if prior is None else parts


def _filling(item: Item, kind: Kind) -> Filling | None:
    node = item.body.get("fills with")
    if node is None:
        return None
    if text_of(node) not in {each.value for each in Filling}:
        raise Malformed(node.place, say("soot or ash"))
    if kind is not Kind.CONDITION:
        item.wrong(
            item.body.key_places["fills with"],
            say("a {kind} fills with nothing", kind=kind.value),
            say("write it of the condition that comes back"),
        )
    return Filling(text_of(node))


def _shifts(item: Item) -> tuple[Shift, ...]:
    node = item.body.get("shifts")
    if node is None:
        return ()
    shifts = [_shift(item, each) for each in listing_of(node)]
    return tuple(shift for shift in shifts if shift is not None)


def _shift(item: Item, node: Node) -> Shift | None:
    body = mapping_of(node)
    when, times = body.get("when"), body.get("times")
    if when is None or times is None:
        raise Malformed(body.place, say("when and times"))
    factor = number_of(times)
    if factor <= 0:
        item.wrong(
            times.place,
            say("odds cannot be multiplied by {factor}", factor=f"{factor:g}"),
            say("write a number above 0; below 1 makes the fault less likely"),
        )
        return None
    test = condition(item, when)
    return (
        None
        if test is None
        else Shift(test, factor, body.place, proofs_in(item, body.get("proofs")))
    )


def _leads(item: Item, kind: Kind) -> dict[str, float]:
    node = item.body.get("leads to")
    if node is None:
        return {}
    body = mapping_of(node)
    if kind is not Kind.CAUSE:
        item.wrong(
            item.body.key_places["leads to"],
            say(ONLY_CAUSES, id=item.id, kind=kind.value),
            say("leave out `leads to`, or make it a cause"),
        )
    found: dict[str, float] = {}
    for name in sorted(body.items):
        place = body.key_places[name]
        declared = item.refer(key_node(name, place), Section.FAULT)
        share = frequency(item, body[name])
        if declared is not None and share is not None:
            item.desk.places["leads", item.id, name] = place
            found[name] = share
    return found


def _hides(item: Item) -> dict[str, tuple[float, ...]]:
    node = item.body.get("hides")
    if node is None:
        return {}
    body = mapping_of(node)
    found: dict[str, tuple[float, ...]] = {}
    for name in sorted(body.items):
        place = body.key_places[name]
        hidden = target(item, key_node(name, place), whole=True)
        if hidden is None or hidden.levels is None:
            continue
        shares = spread(item, body[name], hidden.levels)
        if shares is not None:
            item.desk.places["hides", item.id, name] = place
            found[name] = shares
    return found
