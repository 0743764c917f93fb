"""Section `remedies`: work, what it cures, what it costs, and what follows it."""

from __future__ import annotations

from sootsayer.catalogue import say, shown
from sootsayer.documents.nodes import Mapping, Node
from sootsayer.rulebook.basis_from import basis_for
from sootsayer.rulebook.conditions_from import condition_under
from sootsayer.rulebook.desk import Item, Malformed, listing_of, mapping_of, number_of, text_of
from sootsayer.rulebook.frequencies import frequency
from sootsayer.rulebook.model import Money, Recheck, RemedyDef, Span, Step
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.proofs_from import applies_proofs
from sootsayer.rulebook.readings_from import slots_under
from sootsayer.rulebook.targets import key_node

CURES_ITSELF = "keep it in one of them: work does not need mended what it cures itself"
HIDES_NOT = "keep it in one of them: work does not hide what it cures"
DOWNWARD = "`{key}` goes from {lowest} down to {highest}"


def remedy(item: Item) -> RemedyDef:
    cures = _cures(item)
    needs = item.refer_all("needs mended", Section.FAULT)
    hides = item.refer_all("hides fault", Section.FAULT)
    _not_cured(item, cures, needs, "needs mended", CURES_ITSELF)
    _not_cured(item, cures, hides, "hides fault", HIDES_NOT)
    return RemedyDef(
        id=item.id,
        label=item.text("label"),
        does=item.text("does"),
        cures=cures,
        by_actions=item.refer_all("by action", Section.ACTION),
        minutes=_minutes(item),
        parts=_parts(item),
        then=item.texts("then"),
        verify_by=slots_under(item, "verify by"),
        voids=item.refer_all("voids", Section.CHANNEL),
        basis=basis_for(item),
        pack=item.pack.id,
        place=item.place,
        caution=item.text("caution"),
        applies=condition_under(item, "applies when", known=True),
        applies_proofs=applies_proofs(item),
        days=_span_under(item, "days"),
        needs_mended=needs,
        hides_faults=hides,
        steps=tuple(_step(each) for each in _list(item, "steps")),
        stop_when=item.texts("stop when"),
        consumes=item.texts("consumes"),
        oil_afterwards=item.text("oil afterwards"),
        resets=item.texts("resets"),
        rechecks=tuple(_recheck(mapping_of(each)) for each in _list(item, "recheck")),
        tell_the_customer=item.text("tell the customer"),
    )


def _cures(item: Item) -> dict[str, float]:
    node = item.body.get("cures")
    if node is None:
        raise Malformed(item.place, shown("cures"))
    body = mapping_of(node)
    found: dict[str, float] = {}
    for name in sorted(body.items):
        declared = item.refer(key_node(name, body.key_places[name]), Section.FAULT)
        share = frequency(item, body[name])
        if declared is not None and share is not None:
            found[name] = share
    return found


def _not_cured(
    item: Item, cures: dict[str, float], faults: tuple[str, ...], key: str, instead: str
) -> None:
    for fault in faults:
        if fault in cures:
            item.wrong(
                item.body.key_places[key],
                say('"{id}" stands in `cures` and in `{key}`', id=fault, key=key),
                say(instead),
            )


def _list(item: Item, key: str) -> tuple[Node, ...]:
    node = item.body.get(key)
    return () if node is None else listing_of(node).items


def _step(node: Node) -> Step:
    if not isinstance(node, Mapping):
        return Step(text_of(node))
    does, caution = node.get("does"), node.get("caution")
    if does is None:
        raise Malformed(node.place, say("what the step does"))
    return Step(text_of(does), "" if caution is None else text_of(caution))


def _recheck(body: Mapping) -> Recheck:
    km, days = body.get("after km"), body.get("after days")
    return Recheck(None if km is None else number_of(km), None if days is None else number_of(days))


def _minutes(item: Item) -> Span:
    minutes = _span_under(item, "minutes")
    if minutes is None:
        raise Malformed(item.place, shown("minutes"))
    return minutes


def _span_under(item: Item, key: str) -> Span | None:
    node = item.body.get(key)
    if node is None:
        return None
    if not isinstance(node, Mapping):
        return Span(number_of(node), number_of(node))
    lowest, highest = _ends(node)
    if lowest > highest:
        item.wrong(
            node.place,
            say(DOWNWARD, key=key, lowest=f"{lowest:g}", highest=f"{highest:g}"),
            say("write the lower number under `from`"),
        )
    return Span(lowest, highest)


def _parts(item: Item) -> Money | None:
    node = item.body.get("parts")
    return None if node is None else money(item, node)


def money(item: Item, node: Node) -> Money:
    """A range of prices; the lowest first, or a problem. Raises Malformed."""
    price = Money(*_ends(mapping_of(node)))
    if price.lowest > price.highest:
        item.wrong(
            node.place,
            say(
                "the price goes from {lowest} down to {highest}",
                lowest=f"{price.lowest:g}",
                highest=f"{price.highest:g}",
            ),
            say("write the lower price under `from`"),
        )
    return price


def _ends(body: Mapping) -> tuple[float, float]:
    lowest, highest = body.get("from"), body.get("to")
    if lowest is None or highest is None:
        raise Malformed(body.place, say("from and to"))
    return number_of(lowest), number_of(highest)
