"""Confidence in each fault, and what each piece of evidence did to it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sootsayer.belief.contributions import without_each_of
from sootsayer.belief.inference import Solved, beliefs_of, solve
from sootsayer.belief.network import Beliefs, Fault, Kind, Network, Observable
from sootsayer.belief.weighing import weight, word
from sootsayer.judgement.findings import soft_levels
from sootsayer.judgement.grounds import rule_at
from sootsayer.judgement.rounding import six
from sootsayer.judgement.verdict import (
    CandidateSaid,
    Contribution,
    FamilySaid,
    FaultSaid,
    FindingSaid,
    RuleAt,
)
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.compiled import applies_slot, shift_slot
from sootsayer.rulebook.model import FaultDef, Model
from sootsayer.rulebook.network import lead_strengths, observable_for
from sootsayer.rulebook.reads import members_of

WORTH_NAMING = 1.1  # evidence that moves the odds by less is not listed
NOT_WORTH = 1.0999  # surely less, however it is rounded


@dataclass(frozen=True, slots=True)
class Believed:
    """The network of the case, what it says, and what it says without each family."""

    network: Network
    evidence: Mapping[str, tuple[float, ...]]
    solved: Solved
    beliefs: Beliefs
    without: Mapping[str, Mapping[str, float]]


def believe(work: Workings, families: Sequence[FamilySaid]) -> Believed:
    """Run the network on what the families' speakers say."""
    network, evidence = network_of(work, families)
    solved = solve(network, evidence)
    without = without_each_of(network, evidence, solved)
    return Believed(network, evidence, solved, beliefs_of(network, solved), without)


def network_of(
    work: Workings, families: Sequence[FamilySaid]
) -> tuple[Network, dict[str, tuple[float, ...]]]:
    """The case's network: faults that apply, priors shifted, one observable a speaking family."""
    model = work.model
    faults = tuple(
        Fault(fault.id, fault.kind, prior_now(work, fault))
        for fault in model.faults.values()
        if applies(work, applies_slot("fault", fault.id))
    )
    present = {fault.id for fault in faults}
    leads = tuple(
        lead
        for lead in lead_strengths(model)
        if lead.cause in present and lead.condition in present
    )
    observables: list[Observable] = []
    evidence: dict[str, tuple[float, ...]] = {}
    for family in families:
        if family.speaker is None or family.id not in model.evidence:
            continue
        through = channels_read(work, family.speaker)
        seen = observable_for(model, family.id, family.speaker, through)
        observables.append(seen if len(present) == len(model.faults) else _only(seen, present))
        evidence[family.id] = soft_levels(work, model.findings[family.speaker])
    return Network(faults, leads, tuple(observables)), evidence


def channels_read(work: Workings, finding: str) -> tuple[str, ...]:
    """The channels that the facts behind a finding came through in this case, sorted."""
    seen = work.view_of(finding)
    facts = (seen.facts.get(slot) for slot in work.rulebook.program.reads(finding))
    return tuple(sorted({c for fact in facts if fact is not None for c in fact.channels}))


def applies(work: Workings, name: str) -> bool:
    """Whether an `applies when` leaves a thing in: false takes it out, unknown does not."""
    return work.derived.get(name) is not False


def prior_now(work: Workings, fault: FaultDef) -> float:
    """The prior with the odds multiplied for every shift that is true."""
    odds = fault.prior / (1 - fault.prior)
    for number, shift in enumerate(fault.shifts):
        if work.derived.get(shift_slot(fault.id, number)) is True:
            odds *= shift.times
    return odds / (1 + odds)


def _only(seen: Observable, present: set[str]) -> Observable:
    if all(link.fault in present for links in (seen.seen, seen.hidden_by) for link in links):
        return seen
    return Observable(
        seen.id,
        seen.otherwise,
        tuple(link for link in seen.seen if link.fault in present),
        tuple(link for link in seen.hidden_by if link.fault in present),
    )


def faults_said(
    work: Workings,
    believed: Believed,
    families: Sequence[FamilySaid],
    findings: Sequence[FindingSaid],
) -> tuple[FaultSaid, ...]:
    """Every fault that applies, most probable first, then by id."""
    said = {finding.id: finding for finding in findings}
    speaking = [family for family in families if family.id in believed.evidence]
    linked = _linked(work.model, families)
    faults = [
        _fault(work, believed, speaking, linked[fault.id], said, work.model.faults[fault.id])
        for fault in believed.network.faults
    ]
    return tuple(sorted(faults, key=lambda fault: (-fault.confidence, fault.id)))


def _linked(model: Model, families: Sequence[FamilySaid]) -> dict[str, list[FamilySaid]]:
    """For each fault the families that have a link with it, or that it hides."""
    found: dict[str, list[FamilySaid]] = {fault: [] for fault in model.faults}
    for family in families:
        block = model.evidence.get(family.id)
        if block is not None:
            hiding = (fault.id for fault in model.faults.values() if family.id in fault.hides)
            for fault in {*block.seen_with, *hiding} & found.keys():
                found[fault].append(family)
    return found


def _fault(
    work: Workings,
    believed: Believed,
    speaking: Sequence[FamilySaid],
    linked: Sequence[FamilySaid],
    said: Mapping[str, FindingSaid],
    fault: FaultDef,
) -> FaultSaid:
    beliefs = believed.beliefs
    confidence = beliefs.posteriors[fault.id]
    shares = []
    # Told apart before rounding: near certainty six digits no longer tell which way.
    raised = set()
    for family in speaking:
        without_it = believed.without[family.id][fault.id]
        if not _moves(confidence, without_it):
            continue
        share = _contribution(work, confidence, without_it, family, said, fault)
        if share is not None:
            shares.append(share)
        if without_it < confidence:
            raised.add(family.id)
    shares.sort(key=lambda share: (-share.weight, share.family))
    return FaultSaid(
        id=fault.id,
        label=fault.label,
        kind=fault.kind.value,
        confidence=six(confidence),
        low=six((beliefs.low or {}).get(fault.id, confidence)),
        high=six((beliefs.high or {}).get(fault.id, confidence)),
        for_=tuple(share for share in shares if share.family in raised),
        against=tuple(share for share in shares if share.family not in raised),
        set_aside=tuple(m for f in linked for m in _members_aside(work, f.id, said)),
        missing=tuple(f.id for f in linked if f.speaker is None),
        rule=rule_at(fault.place.file, fault.place.line, fault.revision),
    )


def _moves(with_it: float, without_it: float) -> bool:
    """Whether evidence may be worth naming: a quick look, for most of it is not."""
    over, under = with_it * (1.0 - without_it), without_it * (1.0 - with_it)
    return not (over < NOT_WORTH * under and under < NOT_WORTH * over)


def _members_aside(work: Workings, family: str, said: Mapping[str, FindingSaid]) -> tuple[str, ...]:
    members = members_of(work.model, family)
    return tuple(member for member in members if said[member].set_aside is not None)


def _contribution(
    work: Workings,
    with_it: float,
    without_it: float,
    family: FamilySaid,
    said: Mapping[str, FindingSaid],
    fault: FaultDef,
) -> Contribution | None:
    """What a family did to a fault; None where that is not worth naming."""
    assert family.speaker is not None
    speaker = said[family.speaker]
    # Rounded first: the word is of the number that is shown, whatever rounding leaves behind it.
    worth = six(weight(with_it, without_it))
    if worth < WORTH_NAMING:
        return None
    return Contribution(
        family=family.id,
        finding=speaker.id,
        says=speaker.says,
        level=speaker.level or "",
        with_it=six(with_it),
        without_it=six(without_it),
        weight=worth,
        word=word(worth),
        grounds=speaker.grounds,
        link=_link(work.model, family.id, speaker.id, fault),
    )


def _link(model: Model, family: str, speaker: str, fault: FaultDef) -> RuleAt:
    block = model.evidence.get(speaker) or model.evidence[family]
    hides = fault.place if family in fault.hides else block.places[""]
    place = block.places.get(fault.id, hides)
    return rule_at(place.file, place.line, "")


def candidates_said(beliefs: Beliefs) -> tuple[CandidateSaid, ...]:
    return tuple(CandidateSaid(c.faults, six(c.probability)) for c in beliefs.candidates)


def none_said(beliefs: Beliefs) -> dict[str, float]:
    """For each kind the probability that no fault of it is present."""
    return {kind.value: six(beliefs.none[kind]) for kind in Kind}
