"""Section `overrides` of a shop's pack: its own numbers in place of a pack's.

They are put into the nodes before anything is read, so that every check holds for them, at
the place where the shop wrote them. Whatever is wrong with one leaves the pack's own number.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Listing, Mapping, Node, Scalar
from sootsayer.documents.problems import LEAVE_IT_OUT, did_you_mean
from sootsayer.rulebook.basis_from import basis_for
from sootsayer.rulebook.collect import items_of
from sootsayer.rulebook.desk import Desk, Item, Malformed, Pack, mapping_of, text_of
from sootsayer.rulebook.frequencies import WORDS
from sootsayer.rulebook.measures import looks_like_number
from sootsayer.rulebook.model import Override
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.paths import Found, follow, put, same, written
from sootsayer.rulebook.shops_packs import PREFIX, is_shops

KEY = "overrides"
BLOCK_KEYS = ("seen with", "otherwise")  # not said
ONLY_SHOPS = "write the number where it stands, or use a pack whose id begins with `{prefix}`"
HAS_MOVED = "the number beneath has moved: this replaces {was}, and the pack says {there} ({place})"
LOOK_AGAIN = "look at your number again; if it still holds, write `was: {there}`"
TWICE = '"{name}" is overridden twice here, first at {place}'


@dataclass(frozen=True, slots=True)
class Change:
    """An override that fits: the pack that it changes, and the path there from its root."""

    override: Override
    pack: str
    path: tuple[str | int, ...]
    now: Node


def apply_overrides(desk: Desk, packs: Sequence[Pack]) -> list[Pack]:
    """The packs with all overrides in them; those that fit are noted on the desk."""
    changes: list[Change] = []
    for pack in packs:
        for number, node in _written(desk, pack):
            change = _change(desk, packs, pack, number, node)
            if change is not None and _is_alone(desk, changes, change):
                changes.append(change)
    desk.overrides.extend(
        sorted((each.override for each in changes), key=lambda it: (it.of, it.path))
    )
    return [_changed(pack, changes) for pack in packs]


def _written(desk: Desk, pack: Pack) -> Iterator[tuple[int, Node]]:
    node = pack.document.root.get(KEY)
    if node is None:
        return
    if not is_shops(pack.id):
        desk.wrong(
            pack.document.root.key_places[KEY],
            say('"{pack}" overrides numbers, which only a shop\'s own pack may do', pack=pack.id),
            say(ONLY_SHOPS, prefix=PREFIX),
        )
        return
    yield from enumerate(node if isinstance(node, Listing) else (), start=1)


def _change(
    desk: Desk, packs: Sequence[Pack], pack: Pack, number: int, node: Node
) -> Change | None:
    try:
        return _read(packs, Item(desk, pack, f"override {number}", node.place, mapping_of(node)))
    except Malformed as malformed:
        if pack.shape_is_right:
            desk.misshapen(malformed)
        return None


def _read(packs: Sequence[Pack], item: Item) -> Change | None:
    of, was, now = (item.body.get(key) for key in ("of", "was", "now"))
    at = item.body.get("at")
    if of is None or was is None or now is None or at is None:
        raise Malformed(item.place, say("of, at, was, now and why"))
    keys: list[Node] = list(at) if isinstance(at, Listing) else [at]
    found = _target(item, packs, of, keys)
    if found is None:
        return None
    pack, path, there = found
    basis = basis_for(item)
    if not _is_number(item, of, there.node, now) or not _still_there(item, was, there.node):
        return None
    if same(there.node, now):
        item.wrong(now.place, say("this override changes nothing"), say(LEAVE_IT_OUT))
        return None
    override = Override(
        text_of(of),
        tuple(text_of(key) for key in keys),
        written(was),
        written(now),
        item.text("why").strip(),
        basis,
        item.pack.id,
        item.place,
    )
    return Change(override, pack, (*path, *there.path), now)


def _target(
    item: Item, packs: Sequence[Pack], of: Node, keys: list[Node]
) -> tuple[str, tuple[str | int, ...], Found] | None:
    """The pack, the path of the item in it, and what the keys lead to below it."""
    name = text_of(of)
    if not keys:
        place = item.body["at"].place
        raise Malformed(place, say("the keys below the item, such as `default`"))
    if text_of(keys[0]) in BLOCK_KEYS:
        places = _blocks(packs, name)
    else:
        places = [
            (pack.id, (section.value, id_), node)
            for pack in packs
            for section in Section
            for id_, _, node in items_of(pack, section)
            if id_ == name
        ]
    if not places:
        _nothing_there(item, packs, of, keys[0])
        return None
    found = [(pack, path, follow(node, keys)) for pack, path, node in places]
    best = max(found, key=lambda it: len(it[2].path))
    if not _may_change(item, best[0], best[1], of):
        return None
    if best[2].missing is not None:
        _no_such_key(item, name, best[2])
        return None
    return best


def _blocks(packs: Sequence[Pack], name: str) -> list[tuple[str, tuple[str | int, ...], Node]]:
    """Every evidence block about the finding."""
    found: list[tuple[str, tuple[str | int, ...], Node]] = []
    for pack in packs:
        body = pack.document.root.get("evidence")
        for number, node in enumerate(body if isinstance(body, Listing) else ()):
            about = node.get("finding") if isinstance(node, Mapping) else None
            if isinstance(about, Scalar) and about.text == name:
                found.append((pack.id, ("evidence", number), node))
    return found


def _nothing_there(item: Item, packs: Sequence[Pack], of: Node, key: Node) -> None:
    name, names = text_of(of), item.desk.names
    if name in names.retired:
        item.say_retired(name, of.place)
        return
    if item.pack.uses & names.unreadable:
        return
    known = {id_ for pack in packs for section in Section for id_, _, _ in items_of(pack, section)}
    if name in known:
        item.wrong(
            key.place,
            say('"{name}" has no evidence, and so no "{key}"', name=name, key=text_of(key)),
            say("name the family or finding that the evidence block names"),
        )
        return
    guess = did_you_mean(name, known)
    what = say('there is no "{name}" to override', name=name)
    item.wrong(of.place, what, guess or say("name an id that a pack has"))


def _may_change(item: Item, pack: str, path: tuple[str | int, ...], of: Node) -> bool:
    name = text_of(of)
    if pack == item.pack.id:
        item.wrong(
            of.place,
            say('"{name}" is this pack\'s own, and needs no override', name=name),
            say("write the number where it stands"),
        )
        return False
    if path[0] == Section.ACTION.value:
        item.wrong(
            of.place,
            say('"{name}" is an action, and what an action needs is not overridden', name=name),
            say(LEAVE_IT_OUT),
        )
        return False
    item.borrow(pack, name, of.place)
    return True


def _no_such_key(item: Item, name: str, found: Found) -> None:
    assert found.missing is not None
    below = " → ".join([name, *(str(each) for each in found.keys)])
    key = text_of(found.missing)
    if isinstance(found.node, Scalar):
        what = say('"{below}" holds nothing more', below=below)
        item.wrong(found.missing.place, what, say("leave this key out"))
        return
    if isinstance(found.node, Listing):
        size = len(found.node)
        what = say(
            '"{below}" is a list of {size}, and has no "{key}"', below=below, size=size, key=key
        )
        item.wrong(found.missing.place, what, say("count from 1 to {size}", size=size))
        return
    known = list(found.node.items)
    what = say('"{below}" has no "{key}"', below=below, key=key)
    instead = did_you_mean(key, known) or say("write one of {known}", known=", ".join(known))
    item.wrong(found.missing.place, what, instead)


def _still_there(item: Item, was: Node, there: Node) -> bool:
    if same(was, there):
        return True
    item.wrong(
        was.place,
        say(HAS_MOVED, was=written(was), there=written(there), place=there.place),
        say(LOOK_AGAIN, there=written(there)),
        first=True,
    )
    return False


def _is_number(item: Item, of: Node, there: Node, now: Node) -> bool:
    if not numeric(there):
        item.wrong(
            item.body["at"].place,
            say(
                'what stands there in "{name}" is no number ({place})',
                name=text_of(of),
                place=there.place,
            ),
            say("override numbers only: limits, frequencies, spreads, minutes, ages, prices"),
        )
        return False
    if not numeric(now):
        what = say('"{typed}" is no number', typed=written(now))
        item.wrong(now.place, what, say("write a number in its place"))
        return False
    return True


def numeric(node: Node) -> bool:
    """Whether it is a number, a frequency, a number with a unit, or made of nothing else."""
    if isinstance(node, Scalar):
        if isinstance(node.value, bool) or node.value is None:
            return False
        return not isinstance(node.value, str) or _text_is_number(node.value)
    parts = list(node) if isinstance(node, Listing) else list(node.items.values())
    return bool(parts) and all(numeric(part) for part in parts)


def _text_is_number(text: str) -> bool:
    return text in WORDS or looks_like_number(text)


def _is_alone(desk: Desk, before: list[Change], change: Change) -> bool:
    for other in before:
        size = min(len(other.path), len(change.path))
        if other.pack == change.pack and other.path[:size] == change.path[:size]:
            what = say(TWICE, name=change.override.of, place=other.override.place)
            desk.wrong(change.override.place, what, say("keep one of the two"))
            return False
    return True


def _changed(pack: Pack, changes: list[Change]) -> Pack:
    root: Node = pack.document.root
    for change in changes:
        if change.pack == pack.id:
            root = put(root, change.path, change.now)
    if root is pack.document.root:
        return pack
    assert isinstance(root, Mapping)
    return replace(pack, document=replace(pack.document, root=root))
