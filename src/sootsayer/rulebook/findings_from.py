"""Sections `findings` and `families`."""

from __future__ import annotations

import re

from sootsayer.catalogue import say, say_count
from sootsayer.documents.nodes import Mapping
from sootsayer.engine.conditions import Condition, Operand
from sootsayer.rulebook.basis_from import basis_for
from sootsayer.rulebook.conditions_from import condition_under
from sootsayer.rulebook.desk import Item, Malformed, listing_of, mapping_of, text_of
from sootsayer.rulebook.model import Family, FindingDef
from sootsayer.rulebook.names import BINARY, Section
from sootsayer.rulebook.operands import operand
from sootsayer.rulebook.proofs_from import proofs
from sootsayer.rulebook.slots import FACTS, Holds, is_computed, slot_at

OTHER_LEVELS = '"{id}" has the levels {levels}; "{other}" of the same family has {others}'
CUTS = (
    "{levels} levels need {count} cut, not {given}",
    "{levels} levels need {count} cuts, not {given}",
)
ROUND_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


def finding(item: Item) -> FindingDef | None:
    if ("when" in item.body) == ("grade" in item.body):
        item.wrong(
            item.place,
            say('"{id}" needs either `when` or `grade`', id=item.id),
            say("write `when:` with a condition, or `grade:` with of, levels and at"),
        )
        return None
    when: Condition | None = None
    of: str | None = None
    levels: tuple[str, ...] = BINARY
    cuts: tuple[Operand, ...] = ()
    if "grade" in item.body:
        of, levels, cuts = _grade(item, mapping_of(item.body["grade"]))
    else:
        when = condition_under(item, "when")
    basis = basis_for(item)
    channel, corrects = _tests(item)
    defined = FindingDef(
        id=item.id,
        says=item.text("says"),
        levels=levels,
        basis=basis,
        proofs=proofs(item, levels),
        pack=item.pack.id,
        place=item.place,
        when=when,
        of=of,
        cuts=cuts,
        applies=condition_under(item, "applies when", known=True),
        tests_channel=channel,
        corrects_by=corrects,
        in_round=_round(item),
        apart_because=item.text("apart because").strip(),
        acquits_at=_acquits_at(item, levels),
    )
    return defined if when is not None or of is not None else None


def _acquits_at(item: Item, levels: tuple[str, ...]) -> tuple[str, ...]:
    """The levels that may say that the filter is well; each must be one of its own."""
    found = []
    for node in listing_of(item.body["acquits at"]) if "acquits at" in item.body else ():
        level = text_of(node)
        if level in levels:
            found.append(level)
        else:
            item.wrong(
                node.place,
                say('"{level}" is no level of "{id}"', level=level, id=item.id),
                say("write one of: {known}", known=", ".join(levels)),
            )
    return tuple(found)


def _round(item: Item) -> str | None:
    """The round whose readings the finding keeps to; None for the newest."""
    node = item.body.get("in round")
    if node is None:
        return None
    name = text_of(node)
    if ROUND_ID.fullmatch(name) is None:
        item.wrong(
            node.place,
            say('"{name}" cannot be the name of a round', name=name),
            say("write it in lower case with hyphens, such as `arrival` or `after-clean`"),
        )
        return None
    return name


def _grade(item: Item, body: Mapping) -> tuple[str | None, tuple[str, ...], tuple[Operand, ...]]:
    levels = _levels(item, body)
    of_node, at = body.get("of"), body.get("at")
    if of_node is None or at is None:
        raise Malformed(body.place, say("of, levels and at"))
    slot = slot_at(item, text_of(of_node), of_node.place, FACTS)
    if slot is not None and slot.holds not in (Holds.NUMBER, Holds.UNCLEAR):
        item.wrong(
            of_node.place,
            say(
                '"{slot}" holds {holds} and cannot be graded',
                slot=slot.name,
                holds=slot.holds.words,
            ),
            say("grade a fact that is a number"),
        )
        slot = None
    unit = slot.unit if slot is not None and slot.holds is Holds.NUMBER else None
    nodes = listing_of(at).items
    if len(nodes) != len(levels) - 1:
        item.wrong(
            at.place,
            say_count(*CUTS, count=len(levels) - 1, levels=len(levels), given=len(nodes)),
            say("write one cut between each level and the next"),
        )
    if slot is None or slot.holds is Holds.UNCLEAR:
        return None, levels, ()
    for rank, node in enumerate(nodes):
        item.desk.places["cut", item.id, str(rank)] = node.place
    cuts = [operand(item, node, unit) for node in nodes]
    return slot.name, levels, tuple(cut for cut in cuts if cut is not None)


def _levels(item: Item, body: Mapping) -> tuple[str, ...]:
    node = body.get("levels")
    if node is None:
        raise Malformed(body.place, say("levels, the lowest first"))
    levels: list[str] = []
    for each in listing_of(node):
        level = text_of(each)
        if level in ("true", "false", "unknown"):
            what = say('"{level}" cannot be a level', level=level)
            item.wrong(each.place, what, say("name the level by a word"))
        if level in levels:
            what = say('the level "{level}" is repeated', level=level)
            item.wrong(each.place, what, say("name each level once"))
        levels.append(level)
    if len(levels) < 2:
        what = say("a grade needs at least two levels")
        item.wrong(node.place, what, say("add a level, or use `when`"))
    return tuple(levels)


def _tests(item: Item) -> tuple[str | None, str | None]:
    """The channel that the finding tests, and the slot that corrects it."""
    node, zero = item.body.get("tests channel"), item.body.get("corrects by")
    channel = item.refer(node, Section.CHANNEL) if node is not None else None
    if node is not None:
        item.desk.places["tests", item.id] = node.place
    if zero is None:
        return channel.id if channel else None, None
    if node is None:
        item.wrong(
            zero.place,
            say("`corrects by` stands without `tests channel`"),
            say("name the channel that this finding tests"),
        )
    slot = slot_at(item, text_of(zero), zero.place, FACTS)
    if slot is not None and is_computed(item, slot.name):
        item.wrong(
            zero.place,
            say('"{slot}" is computed, and a zero is read', slot=slot.name),
            say("name the reading that is removed from the others"),
        )
    elif slot is not None and slot.holds not in (Holds.NUMBER, Holds.UNCLEAR):
        item.wrong(
            zero.place,
            say('"{slot}" holds {holds} and is no zero', slot=slot.name, holds=slot.holds.words),
            say("name the number that is removed from the readings"),
        )
    return channel.id if channel else None, slot.name if slot else None


def family(item: Item) -> Family | None:
    """A family and its members, best first."""
    node = item.body.get("members")
    if node is None:
        raise Malformed(item.place, say("members, best first"))
    members = item.refer_all("members", Section.FINDING)
    label = item.text("label", item.id.replace("-", " "))
    names = item.desk.names
    kept: list[str] = []
    levels: tuple[str, ...] | None = None
    places = {text_of(each): each.place for each in listing_of(node)}
    for member in members:
        declared = names.things[member]
        item.desk.places["member", item.id, member] = places[member]
        if declared.levels is None:
            continue
        if levels is None:
            levels = declared.levels
        if declared.levels != levels:
            item.wrong(
                places[member],
                say(
                    OTHER_LEVELS,
                    id=member,
                    levels=", ".join(declared.levels),
                    other=kept[0],
                    others=", ".join(levels),
                ),
                say("give all members the same levels, in the same order, or leave it out"),
            )
            continue
        kept.append(member)
    if levels is None:
        return None
    return Family(item.id, label, tuple(kept), levels, item.pack.id, item.place)
