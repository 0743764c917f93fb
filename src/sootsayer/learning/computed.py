"""Spreads computed by Monte Carlo: simulated readings through the real rulebook.

For each vehicle the readings become a case, and the rulebook's own program derives the findings
from it, so that thresholds, quantities and the removal of a zero are those of the rules.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from random import Random

from sootsayer.engine.conditions import Value
from sootsayer.judgement.softness import as_level
from sootsayer.judgement.workings import work_out
from sootsayer.learning.case_of_facts import MADE_AT, case_of
from sootsayer.learning.projection import mixed, raised
from sootsayer.learning.simulated.readings import readings
from sootsayer.learning.spreads import Spreads
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.reads import facts_behind, family_of, levels_of, members_of, readings_behind

SOUND: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Tally:
    """Of one set of vehicles: `counts` by evidence block, how often each level was shown, by any
    member that the block is about; what is unknown is in none."""

    vehicles: int
    counts: Mapping[str, Mapping[str, int]]

    def shares(self, model: Model, block: str) -> tuple[float, ...] | None:
        """The share of each level, lowest first; None where none was seen."""
        counted = self.counts.get(block, {})
        seen = sum(counted.values())
        if not seen:
            return None
        return tuple(
            counted.get(level, 0) / seen for level in levels_of(model, _family(model, block))
        )

    def known(self, block: str) -> float:
        """The share of the vehicles (0 to 1) on which a member of the block said anything."""
        return min(sum(self.counts.get(block, {}).values()) / self.vehicles, 1.0)


def simulated_blocks(rulebook: Rulebook, slots: Iterable[str]) -> tuple[str, ...]:
    """The evidence blocks that simulated readings decide: all that one of their members needs is
    among `slots`."""
    model, given = rulebook.model, frozenset(slots)
    return tuple(
        block
        for block in model.evidence
        if any(_decided(rulebook, member, given) for member in members_of_block(model, block))
    )


def members_of_block(model: Model, block: str) -> tuple[str, ...]:
    """The findings that a block is about: a member itself, or those of the family that have no
    block of their own, best first."""
    if family_of(model, block) != block:
        return (block,)
    return tuple(m for m in members_of(model, block) if m == block or m not in model.evidence)


def tally(
    rulebook: Rulebook,
    spreads: Spreads,
    faults: Iterable[frozenset[str]],
    random: Random,
    blocks: tuple[str, ...],
) -> Tally:
    """One vehicle for each set of faults; what the members of each block show of it."""
    model = rulebook.model
    counts: dict[str, Counter[str]] = {block: Counter() for block in blocks}
    vehicles = 0
    for each in faults:
        vehicles += 1
        shown = derived(rulebook, _facts(model, spreads, each, random))
        for block in blocks:
            for member in members_of_block(model, block):
                level = as_level(shown[member])
                if level is not None:
                    counts[block][level] += 1
    return Tally(vehicles, counts)


def derived(rulebook: Rulebook, facts: Mapping[str, Value]) -> Mapping[str, Value]:
    """What the rulebook derives from the facts, nothing set aside."""
    return work_out(case_of(rulebook.model, facts), rulebook, MADE_AT, None).would_be


def link(
    otherwise: tuple[float, ...], seen: tuple[float, ...], unforeseen: float
) -> tuple[float, ...]:
    """A counted spread as a link may have it, with its share of what is not foreseen."""
    return raised(otherwise, mixed(seen, otherwise, unforeseen))


def leak(shares: tuple[float, ...], unforeseen: float) -> tuple[float, ...]:
    """A counted spread of sound vehicles as `otherwise`: what is not foreseen may be any level."""
    even = (1.0 / len(shares),) * len(shares)
    return mixed(shares, even, unforeseen)


def known_slots(model: Model, facts: Mapping[str, Value]) -> dict[str, Value]:
    """The facts whose slots the packs declare."""
    return {slot: value for slot, value in facts.items() if _declared(model, slot)}


def _facts(
    model: Model, spreads: Spreads, faults: frozenset[str], random: Random
) -> dict[str, Value]:
    facts = known_slots(model, readings(spreads.vehicle(faults, random), random))
    if random.random() >= spreads.plan.zero_read:
        facts.pop("dp@rest", None)
    return facts


def _declared(model: Model, slot: str) -> bool:
    name, _, point = slot.partition("@")
    signal = model.signals.get(name)
    return signal is not None and (point in signal.points if signal.points else not point)


def _decided(rulebook: Rulebook, finding: str, given: frozenset[str]) -> bool:
    model = rulebook.model
    read = rulebook.program.reads(finding)
    facts = {slot for fact in facts_behind(model, finding) for slot in readings_behind(model, fact)}
    return not any(s.startswith("code:") for s in read) and facts <= given


def _family(model: Model, block: str) -> str:
    return family_of(model, block) if block in model.findings else block
