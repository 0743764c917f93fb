"""Faults that nothing tells apart, or hardly anything; and the check that does it best."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations, pairwise

from sootsayer.catalogue import say
from sootsayer.catalogue_numbers import fixed
from sootsayer.rulebook.model import FaultDef, Model
from sootsayer.rulebook.reads import evidence_targets, facts_behind, members_of, slots_given
from sootsayer.rulebook.review.bench import Bench
from sootsayer.rulebook.review.remark import Concern, Decided, Weight

HARDLY = 0.15  # total variation between what two faults show: a bare mention
NOTHING = 'nothing tells "{one}" from "{other}" ({place}): all they show is alike'
HARDLY_BY_CHECK = (
    'hardly anything tells "{one}" from "{other}" ({place}); best does the check "{check}", by '
    '"{target}", with {per_cent}% of difference'
)
HARDLY_BY_LEADS = (
    'hardly anything tells "{one}" from "{other}" ({place}); best does what they lead to, by '
    '"{target}", with {per_cent}% of difference'
)
LINK_ONE = "link one of them with a finding that the other does not show"
LINK_FROM_A_NEW_CHECK = (
    "link one of them with a finding that the other does not show, from a new check"
)
MOST_FAULTS = 200  # beyond this only faults that show exactly the same are looked for

Spread = tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Shows:
    """What a fault does to what is seen: target to spread, a condition that it leads to too."""

    fault: FaultDef
    spreads: Mapping[str, Spread]


def faults_apart(bench: Bench) -> None:
    """Two faults of one kind differ in something that a check can see."""
    model = bench.model
    usual = {name: model.evidence[name].otherwise for name in evidence_targets(model)}
    shown = [_shows(model, fault) for fault in model.faults.values()]
    for one, other in _pairs(shown):
        if one.fault.kind is not other.fault.kind:
            continue
        best, target = _best(one, other, usual)
        if best >= HARDLY:
            continue
        _say(bench, one.fault, other.fault, best, target)
    sure = Decided.PROVEN if len(shown) <= MOST_FAULTS else Decided.NOT_DECIDED
    told = {each.thing for each in bench.found.remarks if each.concern is Concern.APART}
    for each in shown:
        if each.fault.id not in told:
            claim = say("something tells it apart")
            bench.decided(Concern.APART, each.fault.id, claim, sure)


def _pairs(shown: list[Shows]) -> Iterator[tuple[Shows, Shows]]:
    if len(shown) <= MOST_FAULTS:
        yield from combinations(shown, 2)
        return
    groups: dict[object, list[Shows]] = {}
    for each in shown:
        groups.setdefault(tuple(sorted(each.spreads.items())), []).append(each)
    for group in groups.values():
        yield from pairwise(group)


def _shows(model: Model, fault: FaultDef) -> Shows:
    spreads: dict[str, Spread] = {}
    for target in evidence_targets(model):
        seen = model.evidence[target].seen_with.get(fault.id)
        if seen is not None:
            spreads[target] = seen
    spreads.update(fault.hides)
    spreads.update({f"> {name}": (1 - often, often) for name, often in fault.leads_to.items()})
    return Shows(fault, spreads)


def _best(one: Shows, other: Shows, usual: Mapping[str, Spread]) -> tuple[float, str]:
    """The greatest difference between what both show, and where it lies."""
    best, where = 0.0, ""
    for name in sorted({*one.spreads, *other.spreads}):
        otherwise = usual.get(name, (1.0, 0.0))
        first, second = one.spreads.get(name, otherwise), other.spreads.get(name, otherwise)
        apart = sum(abs(a - b) for a, b in zip(first, second, strict=True)) / 2
        if apart > best:
            best, where = apart, name
    return best, where


def _say(bench: Bench, one: FaultDef, other: FaultDef, best: float, target: str) -> None:
    check = _check_for(bench.model, target)
    claim = say("something tells it apart from {other}", other=other.id)
    bench.decided(Concern.APART, one.id, claim, Decided.PROVEN if best > 0 else Decided.DISPROVEN)
    both = {"one": one.id, "other": other.id, "place": other.place}
    if best == 0:
        what, instead = say(NOTHING, **both), say(LINK_FROM_A_NEW_CHECK)
    else:
        by = {"target": target.removeprefix("> "), "per_cent": fixed(100 * best)}
        template = HARDLY_BY_CHECK if check else HARDLY_BY_LEADS
        what, instead = say(template, check=check, **both, **by), say(LINK_ONE)
    weight = Weight.WARNING if best == 0 else Weight.NOTE
    bench.remark(Concern.APART, weight, one.id, one.place, what, instead)


def _check_for(model: Model, target: str) -> str:
    """The quickest check that gives a reading behind the target; "" where none does."""
    if target.startswith("> "):
        return ""
    facts = set(facts_behind(model, *members_of(model, target)))
    giving = [
        check for check in model.checks.values() if facts & set(slots_given(model, check))
    ]  # fmt: skip
    return min(giving, key=lambda check: (check.minutes, check.id)).id if giving else ""
