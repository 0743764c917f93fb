"""`python -m tests.bench.asking [VEHICLES] [ORDERS...] [--until MINUTES]`: minutes until every kind
is clear.

Vehicles are drawn from the rulebook's own model, with every answer hidden from the asker, who
does one check after the other until each kind of fault has 90 % in its first fault or in `none`.
Who does not get there in 90 minutes (or `--until`) counts as that. All orders only do checks that
can still tell something, and all pay for the way between stages.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from multiprocessing import Pool
from random import Random
from statistics import mean, median, quantiles

from sootsayer.belief.inference import solve
from sootsayer.belief.network import Kind
from sootsayer.casework.model import Absence, Case, CodeList, Entry, Said, Vehicle
from sootsayer.documents.nodes import Place
from sootsayer.engine.conditions import Value
from sootsayer.interview.bundles import Bundle, bundles
from sootsayer.interview.choosing import ranked
from sootsayer.interview.orders import by_custom, cheapest_first, telling
from sootsayer.interview.scoring import CLEAR, Scorer
from sootsayer.interview.situation import Situation, moving_minutes, source_of
from sootsayer.judgement.asking import scorer_for, situation
from sootsayer.judgement.beliefs import network_of
from sootsayer.judgement.families import families
from sootsayer.judgement.findings import findings
from sootsayer.judgement.leaders import Leader, leaders
from sootsayer.judgement.permissions import permissions
from sootsayer.judgement.workings import work_out
from sootsayer.learning.case_of_facts import MADE_AT
from sootsayer.learning.visit import DrawnVisit, Visits
from sootsayer.rulebook.compiled import Rulebook, load_rulebook, shipped_rules
from sootsayer.rulebook.model import CODES, Where
from sootsayer.rulebook.reads import slots_given

NEVER = 90.0
HERE = Place("asked.yaml", 1, 1)


@dataclass(frozen=True, slots=True)
class State:
    """What the asker sees after some checks, and what was answered so far."""

    entries: Sequence[Entry]
    now: Situation
    leaders: tuple[Leader, ...]
    offered: tuple[Bundle, ...]
    scorer: Callable[[], Scorer]


Choice = Callable[[State, Random], str | None]


def by_usefulness(state: State, _: Random) -> str | None:
    order = ranked(state.scorer(), state.offered)
    return next((s.bundle.first for s in order if s.gain_bits > 0.0), None)


def fixed(state: State, _: Random) -> str | None:
    return next(iter(by_custom(state.now, telling(state.now, state.offered))), None)


def cheapest(state: State, _: Random) -> str | None:
    return next(iter(cheapest_first(state.now, telling(state.now, state.offered))), None)


def arbitrary(state: State, chance: Random) -> str | None:
    left = sorted(telling(state.now, state.offered))
    return chance.choice(left) if left else None


ORDERS: dict[str, Choice] = {
    "useful": by_usefulness,
    "fixed": fixed,
    "cheapest": cheapest,
    "random": arbitrary,
}


@dataclass(frozen=True, slots=True)
class Walked:
    """One vehicle asked in one order: minutes until each kind was clear for the first time, and
    until all were at once (the last minute where it did not come to that); checks done; and whether
    what led at the end was so of the vehicle, for each kind."""

    kinds: Mapping[str, float]
    all: float
    checks: int
    right: Mapping[str, bool]


def walked(
    rulebook: Rulebook, drawn: DrawnVisit, choose: Choice, chance: Random, until: float = NEVER
) -> Walked:
    """Asks one vehicle until every kind is clear, no check is left, or `until` is reached."""
    faults = rulebook.model.faults
    kinds = {fault.id: fault.kind.value for fault in faults.values()}
    there = {kind.value: {f for f in drawn.faults if kinds[f] == kind.value} for kind in Kind}
    entries: list[Entry] = []
    clear: dict[str, float] = {}
    minutes, stage = 0.0, Where.COUNTER
    while True:
        state = seen_by(rulebook, entries, stage)
        for leader in state.leaders:
            if leader.confidence >= CLEAR:
                clear.setdefault(leader.kind, minutes)
        done = all(leader.confidence >= CLEAR for leader in state.leaders)
        check_id = None if done or minutes >= until else choose(state, chance)
        if check_id is None:
            break
        check = rulebook.model.checks[check_id]
        minutes += check.minutes + moving_minutes(stage, check.where)
        stage = check.where
        entries.append(answered(rulebook, drawn.facts, check_id, len(entries) + 1))
    found = {leader.kind: leader.fault for leader in state.leaders}
    return Walked(
        kinds={kind: min(clear.get(kind, until), until) for kind in found},
        all=min(minutes, until) if done else until,
        checks=len(entries),
        right={k: f in there[k] if f != "none" else not there[k] for k, f in found.items()},
    )


def seen_by(rulebook: Rulebook, entries: Sequence[Entry], stage: Where) -> State:
    """What the asker sees: permissions too, where any check takes an action."""
    work = work_out(case_asked(entries), rulebook, MADE_AT, None)
    found = findings(work)
    kin = families(rulebook.model, found)
    takes_actions = any(check.by_actions for check in rulebook.model.checks.values())
    permitted = permissions(work) if takes_actions else ()
    now = situation(work, found, kin, permitted, stage=stage)
    network, evidence = network_of(work, kin)
    solved = solve(network, evidence)
    scorer = partial(scorer_for, network, evidence, solved)
    return State(tuple(entries), now, leaders(network, solved), bundles(now), scorer)


def case_asked(entries: Sequence[Entry]) -> Case:
    """The case of an ordinary van with these entries."""
    return Case("asked", "asked.yaml", Vehicle("2.0 L panel van"), {}, tuple(entries))


def answered(rulebook: Rulebook, facts: Mapping[str, Value], check_id: str, number: int) -> Entry:
    """The entry that doing the check makes; what the vehicle does not tell is not known."""
    check = rulebook.model.checks[check_id]
    said = tuple(
        Said(slot, facts.get(slot), None if slot in facts else Absence.DO_NOT_KNOW, "", HERE)
        for slot in check.gives
        if slot != CODES
    )
    codes = None
    if CODES in check.gives:
        there = [s[5:] for s in slots_given(rulebook.model, check) if facts.get(s) is True]
        codes = CodeList(True, tuple(sorted(there)), HERE, monitors_run=True)
    return Entry(number, MADE_AT, "asker", "arrival", source_of(check), said, HERE, codes=codes)


def vehicle(
    rulebook: Rulebook, names: Sequence[str], seed: int, until: float = NEVER
) -> dict[str, Walked]:
    """The vehicle of this number, asked in each of the orders."""
    drawn = drawn_vehicle(rulebook, seed)
    return {
        name: walked(rulebook, drawn, ORDERS[name], Random(f"{name} {seed}"), until)
        for name in names
    }


def drawn_vehicle(rulebook: Rulebook, seed: int) -> DrawnVisit:
    """The vehicle of this number; what the network says nothing of is as it should be."""
    drawn = Visits(rulebook).draw(Random(f"asked {seed}"))
    return replace(drawn, facts={**harmless(rulebook), **drawn.facts})


def harmless(rulebook: Rulebook) -> dict[str, Value]:
    """Facts with which every interlock holds, as its own proofs have them: what the network says
    nothing of is as it should be."""
    facts: dict[str, Value] = {}
    for lock in rulebook.model.interlocks.values():
        holding = next((proof for proof in lock.proofs if proof.then is True), None)
        for slot, value in sorted(holding.given.items()) if holding is not None else ():
            facts.setdefault(slot, value)
    return facts


_SHIPPED: list[Rulebook] = []  # read once in each process


def _of_shipped(names: Sequence[str], until: float, seed: int) -> dict[str, Walked]:
    if not _SHIPPED:
        _SHIPPED.append(load_rulebook([shipped_rules()]))
    return vehicle(_SHIPPED[0], names, seed, until)


def told(name: str, walks: Sequence[Walked], until: float) -> str:
    """One line of the result."""
    each = [minutes for walk in walks for minutes in walk.kinds.values()]
    together = [walk.all for walk in walks]
    right = [ok for walk in walks for ok in walk.right.values()]
    return (
        f"{name:<10} each kind {_quartiles(each)} mean {mean(each):5.1f}"
        f" never {sum(m >= until for m in each):4}"
        f"   all {_quartiles(together)} mean {mean(together):5.1f}"
        f" never {sum(m >= until for m in together):4}"
        f"   right {mean(right):.3f}  checks {median(walk.checks for walk in walks):.0f}"
    )


def _quartiles(minutes: Sequence[float]) -> str:
    return " ".join(f"{q:5.1f}" for q in quantiles(minutes, n=4))


def main() -> None:
    read = argparse.ArgumentParser()
    read.add_argument("vehicles", type=int, nargs="?", default=300)
    read.add_argument("orders", nargs="*", choices=[*ORDERS, []])
    read.add_argument("--until", type=float, default=NEVER)
    given = read.parse_intermixed_args()
    names = given.orders or list(ORDERS)
    with Pool(2) as pool:
        asked = partial(_of_shipped, names, given.until)
        results = pool.map(asked, range(given.vehicles), chunksize=1)
    for name in names:
        print(told(name, [result[name] for result in results], given.until), flush=True)


if __name__ == "__main__":
    main()
