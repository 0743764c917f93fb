"""Vehicles simulated from physics, visited, and judged: how often the verdict is right.

What instruments show comes from physics; what people tell and see is drawn from the rulebook's own
links, since nothing better is known of it. The faults themselves are drawn, so that what the
rulebook believes of physics is tried, not what it says of itself.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from random import Random
from typing import Final

from sootsayer.belief.network import Kind
from sootsayer.engine.conditions import Value
from sootsayer.judgement.beliefs import network_of
from sootsayer.judgement.families import families
from sootsayer.judgement.findings import findings
from sootsayer.judgement.permissions import drive_on, permissions
from sootsayer.judgement.verdict import DriveOn, Permitted
from sootsayer.judgement.workings import Workings, work_out
from sootsayer.learning.case_of_facts import MADE_AT, case_of
from sootsayer.learning.computed import known_slots
from sootsayer.learning.draw import draw, shown_by
from sootsayer.learning.leading import Leading, leading_of
from sootsayer.learning.simulated.readings import readings
from sootsayer.learning.simulated.vehicle import Vehicle
from sootsayer.learning.spreads import Spreads
from sootsayer.learning.visit import Visits
from sootsayer.rulebook.model import Where

DONE: Final[Mapping[Where, float]] = {Where.COUNTER: 0.9, Where.SCAN: 0.8, Where.HANDS_ON: 0.5}
"""How often a check is done in a visit: somebody asks nearly everything, and unscrews half."""
COMPLETE: Final[Mapping[Where, float]] = dict.fromkeys(Where, 1.0)
CEILING = 8.0  # g/L of silicon carbide above which no soot is burnt in place (common practice)
SOOT_CLEAR, BURN = "soot-known-below-ceiling", "parked-regeneration"
PERMITTED = "wrongly permitted: soot held to be below the ceiling that is above it"
FORBIDDEN = "wrongly forbidden: soot held to be above the ceiling that is far below it"


@dataclass(frozen=True, slots=True)
class Judged:
    """One visit judged. `facts` as entered; `leads`: a kind's leading fault each; `wrongly`: what
    was permitted or forbidden against what the vehicle is (PERMITTED, FORBIDDEN)."""

    faults: frozenset[str]
    vehicle: Vehicle
    facts: Mapping[str, Value]
    leads: tuple[Leading, ...]
    drive: DriveOn
    wrongly: tuple[str, ...]


def judged(
    visits: Visits,
    spreads: Spreads,
    faults: frozenset[str],
    random: Random,
    done: Mapping[Where, float] = DONE,
) -> Judged:
    """A vehicle with these faults, visited and judged. `done`: how often (0 to 1) a check of each
    stage is done; trouble codes are read as often as a scan tool shows anything else."""
    facts, vehicle = visit(visits, spreads, faults, random, done)
    work = work_out(case_of(visits.rulebook.model, facts), visits.rulebook, MADE_AT, None)
    network, evidence = network_of(work, families(work.model, findings(work)))
    leads = leading_of(network, evidence, faults)
    drive = drive_on(work, permissions(work)).state
    return Judged(faults, vehicle, facts, leads, drive, _wrongly(work, vehicle, faults))


def visit(
    visits: Visits,
    spreads: Spreads,
    faults: frozenset[str],
    random: Random,
    done: Mapping[Where, float] = DONE,
) -> tuple[dict[str, Value], Vehicle]:
    """What was found out in a visit to a simulated vehicle, and the vehicle."""
    model = visits.rulebook.model
    vehicle = spreads.vehicle(faults, random)
    seen = known_slots(model, readings(vehicle, random))
    told = visits.dressed(shown_by(visits.network, faults, random), random, seen)
    made = {check.id for check in model.checks.values() if random.random() < done[check.where]}
    codes = random.random() < done[Where.SCAN]
    given = {
        slot: [check.id for check in model.checks.values() if slot in check.gives]
        for slot in told.facts
    }
    facts = {
        slot: value
        for slot, value in told.facts.items()
        if (codes if slot.startswith("code:") else not given[slot] or made & {*given[slot]})
    }
    return facts, vehicle


def faults_with(visits: Visits, fault: str | None, random: Random) -> frozenset[str]:
    """The faults of a vehicle that has this one, as the network has such vehicles; None: any.

    A rare fault is put to others drawn without it, and what it leads to drawn as well.
    """
    found = draw(visits.network, random).faults
    if fault is None or fault in found:
        return found
    kind = {f.id: f.kind for f in visits.network.faults}
    found -= {other for other in found if kind[other] is kind[fault] is Kind.MEASUREMENT}
    led = {
        lead.condition
        for lead in visits.network.leads
        if lead.cause == fault and random.random() < lead.strength
    }
    return found | {fault} | led


def _wrongly(work: Workings, vehicle: Vehicle, faults: frozenset[str]) -> tuple[str, ...]:
    """What the verdict says of burning soot in place against what is in the filter."""
    found = []
    for permission in permissions(work):
        for interlock in (*permission.interlocks, *permission.named):
            if interlock.id != SOOT_CLEAR or permission.action != BURN:
                continue
            if interlock.state is Permitted.CLEAR and vehicle.soot_per_litre > CEILING * 1.1:
                found.append(PERMITTED)
            # A filter full of ash is not burnt free: that its soot reads high forbids rightly.
            full = "ash-full" in faults
            if interlock.state is Permitted.BLOCKED and vehicle.soot_per_litre < CEILING * 0.6:
                found += [] if full else [FORBIDDEN]
    return tuple(found)
