"""Judges vehicles simulated from physics and prints how often the verdict is right.

    python -m tests.learning.judge_simulated [--each 30] [--ordinary 300] [--complete]

`--ordinary`: vehicles as they come in (faults drawn by their priors). `--each`: as many with each
fault in turn, which shows where the knowledge errs; there confidence is not expected to come true,
since rare faults are as frequent as common ones.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Mapping, Sequence
from random import Random

from sootsayer.belief.network import Kind
from sootsayer.learning.judged import COMPLETE, DONE, Judged, faults_with, judged
from sootsayer.learning.leading import NONE, calibration_error
from sootsayer.learning.spreads import Spreads
from sootsayer.learning.spreads_file import read_spreads, shipped_spreads
from sootsayer.learning.visit import Visits
from sootsayer.rulebook.compiled import load_rulebook, shipped_rules
from sootsayer.rulebook.model import Where


def main(arguments: list[str]) -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--each", type=int, default=30)
    parser.add_argument("--ordinary", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--complete", action="store_true", help="every check is done")
    given = parser.parse_args(arguments)
    visits, spreads = Visits(load_rulebook([shipped_rules()])), read_spreads(shipped_spreads())
    done = COMPLETE if given.complete else DONE
    ordinary = some(visits, spreads, None, given.ordinary, given.seed, done)
    _summary("as they come in", ordinary)
    every = list(ordinary)
    if not given.each:
        return 0
    print("fault (simulated: *)             found  leads instead")
    for fault in visits.rulebook.model.faults.values():
        those = some(visits, spreads, fault.id, given.each, given.seed, done)
        every += those
        _line(fault.id, fault.kind, fault.id in spreads.faults, those)
    _summary("all", every)
    return 0


def some(
    visits: Visits,
    spreads: Spreads,
    fault: str | None,
    count: int,
    seed: int,
    done: Mapping[Where, float] = DONE,
) -> list[Judged]:
    """Vehicles with that fault, judged."""
    random = Random(f"{seed} {fault}")
    return [
        judged(visits, spreads, faults_with(visits, fault, random), random, done)
        for _ in range(count)
    ]


def right(vehicles: Sequence[Judged], kind: Kind) -> float:
    """The share of vehicles whose leading fault of that kind is right."""
    leads = [lead.right for one in vehicles for lead in one.leads if lead.kind is kind]
    return sum(leads) / len(leads)


def error(vehicles: Sequence[Judged]) -> float:
    """Expected calibration error of all leading faults."""
    return calibration_error(lead for one in vehicles for lead in one.leads)


def _summary(title: str, vehicles: Sequence[Judged]) -> None:
    if not vehicles:
        return
    shares = ", ".join(f"{kind.value} {right(vehicles, kind):.3f}" for kind in Kind)
    print(f"{title}: {len(vehicles)} vehicles; right: {shares}; calibration {error(vehicles):.3f}")
    for kind in Kind:
        leads = [lead for one in vehicles for lead in one.leads if lead.kind is kind]
        print(f"  {kind.value}: calibration {calibration_error(leads):.3f}")
    for what, count in Counter(w for one in vehicles for w in one.wrongly).most_common():
        print(f"  {what}: {count}")


def _line(fault: str, kind: Kind, simulated: bool, vehicles: Sequence[Judged]) -> None:
    leads = [(one, lead) for one in vehicles for lead in one.leads if lead.kind is kind]
    hits = sum(lead.fault == fault for _, lead in leads)
    others = Counter(
        lead.fault + ("" if lead.right and lead.fault != NONE else " (wrong)")
        for _, lead in leads
        if lead.fault != fault
    )
    instead = ", ".join(f"{name} {count}" for name, count in others.most_common(4))
    print(f"{fault + '*' * simulated:32} {hits / max(len(leads), 1):5.2f}  {instead}")


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
