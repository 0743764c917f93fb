"""Law 6: one observation counts once.

Two findings with evidence that one reading alone can decide belong to one family, or say
`apart because`. Whether one reading can decide a rule is worked out on its condition, with
that slot known and every other unknown: some value makes it true, some value false.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

from sootsayer.catalogue import say
from sootsayer.engine.conditions import (
    All,
    Any,
    AtLeast,
    Compare,
    Condition,
    Known,
    Not,
    OneOf,
)
from sootsayer.engine.reading import operand_slots
from sootsayer.rulebook.desk import Desk
from sootsayer.rulebook.model import FindingDef, Model
from sootsayer.rulebook.reads import (
    evidence_targets,
    facts_behind,
    finding_slots,
    members_of,
    sole_reading,
)

COUNTS_TWICE = (
    'one reading, {slot}, can decide both "{one}" and "{other}" ({place}), so it would count twice'
)


@dataclass(frozen=True, slots=True)
class Can:
    """What a condition can become when one slot alone is known."""

    true: bool
    false: bool


NOTHING, EITHER = Can(False, False), Can(True, True)


def counts_once(desk: Desk, model: Model) -> None:
    """Note every pair that one reading decides and nobody has explained, once a pair."""
    deciding = {
        (target, member): deciding_slots(model, model.findings[member])
        for target in evidence_targets(model)
        for member in members_of(model, target)
        if member in model.findings
    }
    decided: dict[str, list[tuple[str, str]]] = {}
    for each in sorted(deciding):
        for slot in deciding[each]:
            decided.setdefault(slot, []).append(each)
    for one, other in sorted({pair for of in decided.values() for pair in combinations(of, 2)}):
        if one[0] != other[0]:
            shared = sorted(deciding[one] & deciding[other])
            _explained(desk, model.findings[one[1]], model.findings[other[1]], shared)


def _explained(desk: Desk, one: FindingDef, other: FindingDef, shared: list[str]) -> None:
    if one.apart_because or other.apart_because:
        return
    desk.wrong(
        one.place,
        say(COUNTS_TWICE, slot=shared[0], one=one.id, other=other.id, place=other.place),
        say("put them into one family, or say `apart because:` on one of them"),
    )


def deciding_slots(model: Model, finding: FindingDef) -> set[str]:
    """The fact slots each of which alone can decide the finding."""
    found = set()
    for slot in {sole_reading(model, name) for name in facts_behind(model, finding.id)}:
        can = _finding(model, finding, slot, frozenset())
        if can.true or can.false:
            found.add(slot)
    return found


def _finding(model: Model, finding: FindingDef, slot: str, above: frozenset[str]) -> Can:
    if finding.id in above:
        return NOTHING
    above |= {finding.id}
    if finding.applies is not None and not _condition(model, finding.applies, slot, above).true:
        return NOTHING
    if finding.when is not None:
        return _condition(model, finding.when, slot, above)
    read = {sole_reading(model, name) for name in finding_slots(finding)}
    return EITHER if read == {slot} else NOTHING


def _condition(model: Model, condition: Condition, slot: str, above: frozenset[str]) -> Can:
    match condition:
        case Compare(name, _, operands):
            read = {name}.union(*(operand_slots(each) for each in operands))
            alone = {sole_reading(model, each) for each in read}
            return EITHER if alone == {slot} else NOTHING
        case OneOf(name, _):
            return _slot(model, name, slot, above)
        case Known(name):
            return Can(sole_reading(model, name) == slot, False)
        case Not(part):
            can = _condition(model, part, slot, above)
            return Can(can.false, can.true)
        case All(parts):
            return _counted(model, len(parts), parts, slot, above)
        case Any(parts):
            return _counted(model, 1, parts, slot, above)
        case AtLeast(count, parts):
            return _counted(model, count, parts, slot, above)


def _slot(model: Model, name: str, slot: str, above: frozenset[str]) -> Can:
    """A word compared: a finding that the slot decides can differ from what is wanted."""
    finding = model.findings.get(name)
    if finding is None:
        return EITHER if name == slot else NOTHING
    can = _finding(model, finding, slot, above)
    return EITHER if can.true or can.false else NOTHING


def _counted(
    model: Model, count: int, parts: tuple[Condition, ...], slot: str, above: frozenset[str]
) -> Can:
    cans = [_condition(model, part, slot, above) for part in parts]
    enough = sum(can.true for can in cans) >= count
    too_few = sum(can.false for can in cans) > len(parts) - count
    return Can(enough, too_few)
