"""All the links and hides of a rulebook that physics can give, computed."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from random import Random

from sootsayer.belief.inference import posteriors
from sootsayer.belief.network import Kind
from sootsayer.learning.computed import (
    SOUND,
    Tally,
    known_slots,
    leak,
    link,
    simulated_blocks,
    tally,
)
from sootsayer.learning.none_listed import none_listed, unlisted
from sootsayer.learning.projection import mixed
from sootsayer.learning.simulated.readings import readings
from sootsayer.learning.spreads import Spreads
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.network import whole_network
from sootsayer.rulebook.reads import evidence_targets

Spread = tuple[float, ...]

LEAST = 0.03  # what differs by less is noise of the simulation and its share of the unforeseen
LOWERED = 0.1


@dataclass(frozen=True, slots=True)
class Links:
    """Spreads over levels, lowest first, adding to 1, as the packs may state them.

    `otherwise` by evidence block; `seen` by block and fault, for every simulated fault, linked or
    not; `counted` the same as counted, before it was made to raise only; `hides` by fault and
    family. `vehicles`: how many stand behind each; `known`: on what share of them (0 to 1) the
    finding could be told, by block and fault ("" for none).
    """

    vehicles: int
    otherwise: Mapping[str, Spread]
    seen: Mapping[tuple[str, str], Spread]
    counted: Mapping[tuple[str, str], Spread]
    hides: Mapping[tuple[str, str], Spread]
    known: Mapping[tuple[str, str], float] = field(default_factory=dict)


def compute(rulebook: Rulebook, spreads: Spreads, vehicles: int, seed: int) -> Links:
    """Every spread of the plan's blocks, with `vehicles` for each fault and for none.

    A fault that turns nothing which a block looks at has there the spread of sound vehicles.

    Each fault has a generator of its own, seeded by `seed` and its id, so that one fault more or
    less in the files does not move the others.
    """
    model = rulebook.model
    blocks = computed_blocks(rulebook, spreads)
    plan = spreads.plan
    sound = tally(rulebook, spreads, [SOUND] * vehicles, Random(f"{seed} sound"), blocks)
    behind = {
        fault: _behind(rulebook, spreads, fault, vehicles, Random(f"{seed} {fault}"), blocks)
        for fault in sorted(spreads.faults.keys() & model.faults.keys())
    }
    counted = {
        (block, fault): shares
        for fault, tallies in behind.items()
        for block in blocks
        if (shares := _pooled(model, block, tallies, model.evidence[block].seen_with)) is not None
    }
    marginals = posteriors(whole_network(model), {})
    otherwise: dict[str, Spread] = {}
    for block in blocks:
        shares = sound.shares(model, block)
        if shares is not None:
            others = {f: counted[block, f] for f in unlisted(model, block, counted)}
            otherwise[block] = leak(none_listed(shares, others, marginals), plan.unforeseen)
    return Links(
        vehicles,
        otherwise,
        {
            (block, fault): link(otherwise[block], shares, plan.unforeseen)
            for (block, fault), shares in counted.items()
            if block in otherwise
        },
        {at: shares for at, shares in counted.items() if at[0] in otherwise},
        _hides(model, behind, otherwise, plan.unforeseen),
        _known(behind, sound, blocks),
    )


def computed_blocks(rulebook: Rulebook, spreads: Spreads) -> tuple[str, ...]:
    """The evidence blocks of the rulebook that the plan wants and simulated readings decide."""
    model = rulebook.model
    random = Random(0)
    slots = known_slots(model, readings(spreads.vehicle(SOUND, random), random))
    decided = set(simulated_blocks(rulebook, slots))
    return tuple(block for block in spreads.plan.blocks if block in decided)


def speaks(links: Links, block: str, fault: str) -> bool:
    """Whether physics gives a link: with the fault, what is seen is raised."""
    link_to = links.seen.get((block, fault))
    return link_to is not None and apart(link_to, links.otherwise[block]) >= LEAST


def lowers(links: Links, block: str, fault: str) -> bool:
    """Whether what is seen differs with the fault, and yet no link can say so: it is lowered."""
    return distance(links, block, fault) >= LOWERED and not speaks(links, block, fault)


def distance(links: Links, block: str, fault: str) -> float:
    """How far (0 to 1) what is seen with the fault is from sound vehicles; 0 where nothing was
    seen."""
    shares = links.counted.get((block, fault))
    return 0.0 if shares is None else apart(shares, links.otherwise[block])


def apart(one: Spread, other: Spread) -> float:
    """The total variation between two spreads, 0 to 1."""
    return sum(abs(x - y) for x, y in zip(one, other, strict=True)) / 2.0


def without_links(model: Model, links: Links, least: float) -> list[tuple[str, str, float]]:
    """(block, fault, distance): where a fault moves what is seen by at least `least` (total
    variation, 0 to 1) and the rulebook has neither link nor `hides` for it."""
    found = []
    targets = set(evidence_targets(model))
    for block, fault in links.counted:
        if block not in targets:
            continue
        far = distance(links, block, fault)
        known = fault in model.evidence[block].seen_with or block in model.faults[fault].hides
        if far >= least and not known:
            found.append((block, fault, far))
    return sorted(found, key=lambda item: (-item[2], item[:2]))


def _behind(
    rulebook: Rulebook,
    spreads: Spreads,
    fault: str,
    vehicles: int,
    random: Random,
    blocks: tuple[str, ...],
) -> list[tuple[float, frozenset[str], Tally]]:
    """The fault alone; a fault that lies or hides also with what may lie behind it, in the plan's
    shares."""
    definition = rulebook.model.faults[fault]
    lies = definition.kind is Kind.MEASUREMENT or bool(definition.hides)
    found = []
    for share, faults in spreads.plan.behind if lies else ((1.0, ()),):
        every = [frozenset({fault, *faults})] * max(round(share * vehicles), 1)
        found.append((share, frozenset(faults), tally(rulebook, spreads, every, random, blocks)))
    return found


def _known(
    behind: Mapping[str, Sequence[tuple[float, frozenset[str], Tally]]],
    sound: Tally,
    blocks: Sequence[str],
) -> dict[tuple[str, str], float]:
    found = {(block, ""): sound.known(block) for block in blocks}
    for fault, tallies in behind.items():
        for block in blocks:
            found[block, fault] = sum(share * each.known(block) for share, _, each in tallies)
    return found


def _hides(
    model: Model,
    behind: Mapping[str, Sequence[tuple[float, frozenset[str], Tally]]],
    families: Collection[str],
    unforeseen: float,
) -> dict[tuple[str, str], Spread]:
    found: dict[tuple[str, str], Spread] = {}
    for fault, tallies in behind.items():
        for family in model.faults[fault].hides.keys() & families:
            shares = _pooled(model, family, tallies, frozenset())
            if shares is not None:
                even = (1.0 / len(shares),) * len(shares)
                found[fault, family] = mixed(shares, even, unforeseen)
    return found


def _pooled(
    model: Model,
    block: str,
    tallies: Sequence[tuple[float, frozenset[str], Tally]],
    listed: Collection[str],
) -> Spread | None:
    """The shares of all sets together, those left out in which a listed fault is present: a link
    says what is seen when its fault is the only listed one, whatever else there is."""
    parts = [
        (share, shares)
        for share, faults, each in tallies
        if not faults & set(listed) and (shares := each.shares(model, block)) is not None
    ]
    whole = sum(share for share, _ in parts)
    if not parts:
        return None
    return tuple(
        sum(share * shares[k] for share, shares in parts) / whole for k in range(len(parts[0][1]))
    )
