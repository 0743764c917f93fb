"""One round of a case as a comparison sees it: every pressure reading with its conditions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sootsayer.advice.like_for_like import Taken, Warmth
from sootsayer.advice.like_for_like_outcome import Standing
from sootsayer.casework.facts import rounds_read
from sootsayer.casework.model import Fact
from sootsayer.judgement import compare_rules as rules
from sootsayer.judgement.codes import code_facts
from sootsayer.judgement.rounds import RoundFacts, round_facts
from sootsayer.judgement.softness import as_level, borderline, weights
from sootsayer.judgement.views import SETTLED
from sootsayer.judgement.workings import Workings
from sootsayer.physics.measured import Measured
from sootsayer.physics.units import convert, convert_difference
from sootsayer.rulebook.reads import members_of


@dataclass(frozen=True, slots=True)
class RoundSeen:
    """`taken`: slot of a pressure reading to how it was taken; `facts` of that slot, and of the
    zero, are the entries behind it. `first`, `last`: the entries between which it was read."""

    name: str
    first: int
    last: int
    facts: RoundFacts
    taken: dict[str, Taken]
    read: dict[str, Fact]
    standing: Standing
    unsettled: tuple[str, ...]


def see_round(work: Workings, name: str) -> RoundSeen:
    """The round as it stood when it was read: work done afterwards is not held against it."""
    first, last = rounds_read(work.case, work.model, work.sheet.as_of)[name]
    codes = code_facts(work.case, work.model, last, work.limits)
    facts = round_facts(
        work.case, work.rulebook, work.limits, codes, work.sheet.as_of, name, worked_until=last
    )
    read = dict(_pressures(work, facts))
    taken = {slot: _taken(work, facts, name, fact) for slot, fact in read.items()}
    standing, unsettled = _standing(work, facts)
    return RoundSeen(name, first, last, facts, taken, read, standing, unsettled)


def _pressures(work: Workings, facts: RoundFacts) -> Iterator[tuple[str, Fact]]:
    """Each pressure that was read with gas flowing: the best source that is not distrusted, else
    the best."""
    signal = rules.signals_taken(work.model)["dp"]
    for slot, told in facts.sheet.by_source.items():
        name, _, point = slot.partition("@")
        numbers = [fact for fact in told if isinstance(fact.value, float)]
        if name != signal or point in rules.NO_FLOW or not numbers:
            continue
        kept = [fact for fact in numbers if not facts.found.trust.distrusted(fact)]
        yield slot, (kept or numbers)[0]


def _taken(work: Workings, facts: RoundFacts, name: str, fact: Fact) -> Taken:
    signal, _, point = fact.slot.partition("@")
    shown = measured(fact, "mbar")
    assert shown is not None
    tested = facts.found.channels.get(fact.channel)
    distrusted = facts.found.trust.distrusted(fact)
    known = {
        key: _known(work, facts, key, point)
        for key in ("air", "exhaust-temperature", "barometer", "recirculated")
    }
    values = facts.trusted.values
    speed = values.get(f"{rules.SPEED}@{point}")
    wet, egr = values.get(rules.WET), values.get(rules.EGR)
    return Taken(
        slot=fact.slot,
        point=point,
        round=name,
        entry=fact.entry,
        shown=shown,
        channel=fact.channel,
        warmth=_warmth(work, facts, known["exhaust-temperature"]),
        zero=_zero(facts, f"{signal}@{rules.AT_REST}", fact.channel),
        air=known["air"],
        exhaust=known["exhaust-temperature"],
        barometer=known["barometer"],
        recirculated=known["recirculated"],
        speed=speed if isinstance(speed, float) else None,
        burning=_burning(work, facts),
        wet=wet if isinstance(wet, bool) else None,
        egr=egr if isinstance(egr, str) else None,
        leads_back=values.get(rules.LEADS_BACK) is True,
        distrusted=tested.failed if distrusted and tested is not None else (),
    )


def measured(fact: Fact | None, unit: str) -> Measured | None:
    """A number in `unit` with its standard deviation; None for anything else."""
    if fact is None or not isinstance(fact.value, float):
        return None
    own = fact.unit or unit
    return Measured(convert(fact.value, own, unit), convert_difference(fact.sd, own, unit))


def _known(work: Workings, facts: RoundFacts, key: str, point: str) -> Measured | None:
    """A condition of the reading, at its point or once for the round; only what is trusted."""
    signal = rules.signals_taken(work.model)[key]
    seen = facts.trusted.facts
    fact = seen.get(f"{signal}@{point}") or seen.get(signal)
    unit = rules.UNITS.get(key)
    return measured(fact, unit if unit is not None else (fact.unit or "") if fact else "")


def _zero(facts: RoundFacts, slot: str, channel: str) -> Measured | None:
    told = facts.sheet.by_source.get(slot, ())
    own = next((fact for fact in told if fact.channel == channel), None)
    return measured(own, "mbar")


def _warmth(work: Workings, facts: RoundFacts, exhaust: Measured | None) -> Warmth:
    """By the coolant; where nobody read it, exhaust that is dry at the point shows a hot one."""
    coolant = measured(facts.trusted.facts.get(rules.COOLANT), "C")
    if coolant is not None:
        hot = coolant.value >= rules.coolant_hot(work.limits)
        return Warmth.HOT if hot else Warmth.COLD
    if exhaust is not None and exhaust.value >= rules.tolerances(work.limits).dry:
        return Warmth.HOT
    return Warmth.UNKNOWN


def _burning(work: Workings, facts: RoundFacts) -> bool | None:
    if rules.BURNING not in work.rulebook.program.definitions:
        return None
    run = work.rulebook.program.run
    value = run(facts.trusted.values, work.limits, only=(rules.BURNING,))[rules.BURNING]
    return value if isinstance(value, bool) else None


def _standing(work: Workings, facts: RoundFacts) -> tuple[Standing, tuple[str, ...]]:
    """What the round says of the filter, by the member of the family that speaks, and the tests
    that its instruments still wait for."""
    model, program = work.model, work.rulebook.program
    members = members_of(model, rules.FAMILY) if rules.FAMILY in model.families else ()
    for member in members:
        values = program.run(facts.trusted.values, work.limits, only=(member,))
        level = as_level(values[member])
        if level is None:
            continue
        levels = model.findings[member].levels
        soft = weights(program, facts.trusted, work.limits, member, levels, values[member])
        tested = [facts.found.channels[c] for c in _channels(work, facts, member)]
        settled = all(one.state in SETTLED for one in tested)
        open_ = tuple(name for one in tested for name in one.unsettled)
        standing = Standing(level, borderline(soft), _point(work, member), settled, member)
        return standing, open_
    return Standing(None), ()


def _point(work: Workings, member: str) -> str:
    of = work.model.findings[member].of or ""
    return of.partition("@")[2]


def _channels(work: Workings, facts: RoundFacts, member: str) -> tuple[str, ...]:
    """The instruments that the finding's own number came through."""
    of = work.model.findings[member].of
    fact = facts.trusted.facts.get(of) if of is not None else None
    return tuple(sorted(fact.channels)) if fact is not None else ()
