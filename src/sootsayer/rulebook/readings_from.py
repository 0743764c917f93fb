"""Sections about what is read: points, channels, signals, checks, limits."""

from __future__ import annotations

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Mapping, Node, Scalar
from sootsayer.rulebook.basis_from import basis_for
from sootsayer.rulebook.conditions_from import condition_under
from sootsayer.rulebook.desk import Item, Malformed, listing_of, number_of, text_of
from sootsayer.rulebook.measures import quantity
from sootsayer.rulebook.model import (
    CODES,
    Channel,
    Check,
    Lasts,
    LimitDef,
    Point,
    Signal,
    SignalKind,
    Where,
)
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.proofs_from import applies_proofs
from sootsayer.rulebook.slots import FACTS, is_computed, slot_at


def point(item: Item) -> Point:
    return Point(item.id, item.text("label"), item.text("conditions"), item.pack.id, item.place)


def channel(item: Item) -> Channel:
    return Channel(
        item.id,
        item.text("label"),
        item.refer_all("proven by", Section.FINDING),
        item.refer_all("nearest first", Section.FAULT),
        item.pack.id,
        item.place,
    )


def signal(item: Item) -> Signal | None:
    kind = SignalKind(_one_of(item.body, "kind", {each.value for each in SignalKind}))
    lasts = Lasts(_one_of(item.body, "lasts", {"visit", "round"}, "round"))
    if not _fits_kind(item, kind):
        return None
    return Signal(
        id=item.id,
        label=item.text("label"),
        kind=kind,
        lasts=lasts,
        pack=item.pack.id,
        place=item.place,
        unit=unit_word(item) if kind is SignalKind.NUMBER else None,
        possible=possible_range(item),
        step=item.number("step"),
        error=item.number("error"),
        choices=_different(item, "choices"),
        points=item.refer_all("at", Section.POINT),
        channels=_channels(item),
        how=item.text("how"),
        asks=item.text("asks"),
        shown_as=_different(item, "shown as"),
    )


def _fits_kind(item: Item, kind: SignalKind) -> bool:
    """Whether the signal states what its kind needs, and nothing that only others have."""
    needs = {
        SignalKind.NUMBER: ("unit", "possible"),
        SignalKind.CHOICE: ("choices",),
        SignalKind.YES_NO: (),
    }[kind]
    owned = {"unit", "possible", "step", "error", "choices"} - set(needs)
    if kind is SignalKind.NUMBER:
        owned = {"choices"}
    missing = [key for key in needs if key not in item.body]
    for key in missing:
        what = say('"{id}" is a {kind} and has no `{key}`', id=item.id, kind=kind.value, key=key)
        item.wrong(item.place, what, say("add `{key}:`", key=key))
    for key in sorted(owned):
        if key in item.body:
            item.wrong(
                item.body.key_places[key],
                say("a {kind} signal has no `{key}`", kind=kind.value, key=key),
                say("leave it out, or change the kind"),
            )
    return not missing


def unit_word(item: Item) -> str:
    """The unit as the model has it: "" for none."""
    unit = item.text("unit")
    return "" if unit == "none" else unit


def possible_range(item: Item) -> tuple[float, float] | None:
    """The lowest and the highest possible number, None where not stated. Raises Malformed."""
    node = item.body.get("possible")
    if node is None:
        return None
    ends = [number_of(each) for each in listing_of(node)]
    if len(ends) != 2:
        raise Malformed(node.place, say("a lowest and a highest number"))
    if ends[0] >= ends[1]:
        item.wrong(
            node.place,
            say(
                "nothing lies between {low} and {high}",
                low=f"{ends[0]:g}",
                high=f"{ends[1]:g}",
            ),
            say("write the lowest possible number first, then the highest"),
        )
    return ends[0], ends[1]


def _different(item: Item, key: str) -> tuple[str, ...]:
    """The words under `key`; one that stands twice is a problem."""
    node = item.body.get(key)
    words: list[str] = []
    for each in listing_of(node) if node is not None else ():
        word = text_of(each)
        if word in words:
            item.desk.named_twice(each.place, word, key)
        words.append(word)
    return tuple(dict.fromkeys(words))


def _channels(item: Item) -> dict[str, str]:
    node = item.body.get("channel")
    if node is None:
        return {}
    if isinstance(node, Scalar):
        declared = item.refer(node, Section.CHANNEL)
        return {} if declared is None else {"": declared.id}
    if not isinstance(node, Mapping):
        raise Malformed(node.place, say("a channel, or a mapping from sources to channels"))
    found = {key: item.refer(each, Section.CHANNEL) for key, each in sorted(node.items.items())}
    return {source: declared.id for source, declared in found.items() if declared is not None}


def check(item: Item) -> Check:
    return Check(
        id=item.id,
        does=item.text("does"),
        where=Where(_one_of(item.body, "where", {each.value for each in Where})),
        minutes=item.number("minutes"),
        gives=_given_slots(item),
        pack=item.pack.id,
        place=item.place,
        tools=item.texts("tools"),
        caution=item.text("caution"),
        applies=condition_under(item, "applies when", known=True),
        applies_proofs=applies_proofs(item),
        by_actions=item.refer_all("by action", Section.ACTION),
    )


def _given_slots(item: Item) -> tuple[str, ...]:
    """What a check gives: facts that are read, none that are computed, or the list of codes."""
    slots = slots_under(item, "gives", besides=CODES)
    node = item.body.get("gives")
    for each in listing_of(node) if node is not None else ():
        if is_computed(item, text_of(each)):
            item.wrong(
                each.place,
                say('"{slot}" is computed, and no check gives it', slot=text_of(each)),
                say("name the facts that it is computed from"),
            )
    return slots


def slots_under(item: Item, key: str, besides: str | None = None) -> tuple[str, ...]:
    """The fact slots listed under `key`, and the word `besides`; repeats are a problem."""
    node = item.body.get(key)
    found: list[str] = []
    for each in listing_of(node) if node is not None else ():
        name = text_of(each)
        if name != besides:
            slot = slot_at(item, name, each.place, FACTS)
            if slot is None:
                continue
            name = slot.name
        if name in found:
            item.desk.named_twice(each.place, name, key)
            continue
        found.append(name)
    return tuple(found)


def limit(item: Item) -> LimitDef | None:
    node = item.body.get("default")
    if node is None:
        raise Malformed(item.place, say("`default`, a number with its unit"))
    found = quantity(node)
    basis = item.desk.overriding_basis(item.id, "default") or basis_for(item)
    if found is None:
        item.wrong(
            node.place,
            say('"{text}" is not a number with a unit that is known', text=text_of(node)),
            say("write a number and its unit, such as `5 mbar`"),
        )
        return None
    value, unit = found
    return LimitDef(item.id, item.text("label"), value, unit or "", basis, item.pack.id, item.place)


def _one_of(body: Mapping, key: str, known: set[str], default: str | None = None) -> str:
    """A word that the schema enumerates. Raises Malformed where it is another."""
    node: Node | None = body.get(key)
    if node is None and default is not None:
        return default
    word = text_of(node) if node is not None else ""
    if word not in known:
        place = node.place if node is not None else body.place
        raise Malformed(place, say("a known `{key}`", key=key))
    return word
