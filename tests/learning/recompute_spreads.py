"""Computes the spreads that follow from physics and writes them into the packs.

    python -m tests.learning.recompute_spreads            prints what would change
    python -m tests.learning.recompute_spreads --write    changes the packs in rules/

Run it again after any change of rules/spreads/, of a threshold or of physics/. Evidence blocks
that hold links of both sorts are split in two: what physics gives says `basis: computed`, what
only people know keeps the basis it had.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from sootsayer.learning.computed_links import compute, lowers, without_links
from sootsayer.learning.spreads_file import read_spreads, shipped_spreads
from sootsayer.rulebook.compiled import load_rulebook, shipped_rules
from tests.learning.packs_rewritten import rewritten

APART = 0.15


def main(arguments: list[str]) -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--write", action="store_true", help="change the packs")
    parser.add_argument("--vehicles", type=int, help="vehicles a fault, else the plan's number")
    given = parser.parse_args(arguments)
    rulebook, spreads = load_rulebook([shipped_rules()]), read_spreads(shipped_spreads())
    vehicles = given.vehicles or spreads.plan.vehicles
    links = compute(rulebook, spreads, vehicles, spreads.plan.seed)
    changed = 0
    for path in sorted(Path(shipped_rules()).glob("*.yaml")):
        before = path.read_text(encoding="utf-8")
        after = rewritten(path, rulebook.model, links, source_of(spreads.plan.seed, vehicles))
        if after != before:
            changed += 1
            _show(path, before, after)
            if given.write:
                path.write_text(after, encoding="utf-8")
    for block, fault, distance in without_links(rulebook.model, links, APART):
        print(f"no link: {block} moves by {distance:.2f} with {fault}")
    for block, evidence in rulebook.model.evidence.items():
        for fault in evidence.seen_with:
            if lowers(links, block, fault):
                print(f"contrary: physics has {fault} lower {block}, which the packs say it raises")
    print(f"{changed} packs {'changed' if given.write else 'would change'}")
    return 0


def source_of(seed: int, vehicles: int) -> str:
    """What a pack says of numbers computed here."""
    return f"rules/spreads, seed {seed}, {vehicles} vehicles a fault"


def _show(path: Path, before: str, after: str) -> None:
    old, new = before.splitlines(), after.splitlines()
    for line in new:
        if line not in old:
            print(f"{path.name}: {line.strip()}")


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
