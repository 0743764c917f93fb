"""The spreads that packs call computed, computed again.

Another seed and fewer vehicles: what the packs state must lie within four standard errors of both
simulations. The same seed and number, to the digit, is the slow test below.
"""

from __future__ import annotations

import math
import re
from functools import cache
from pathlib import Path
from random import Random

import pytest

from sootsayer.learning.computed import SOUND, simulated_blocks, tally
from sootsayer.learning.computed_links import Links, compute, computed_blocks, speaks
from sootsayer.learning.projection import raised
from sootsayer.learning.spreads import Spreads
from sootsayer.learning.spreads_file import read_spreads, shipped_spreads
from sootsayer.rulebook.compiled import shipped_rules
from sootsayer.rulebook.model import BasisKind
from tests.laws.making_cases import rulebook
from tests.learning.packs_rewritten import rewritten
from tests.learning.recompute_spreads import source_of

VEHICLES, SEED = 60, 99
FAR, ROUNDING = 4.0, 0.005
AGAIN = "run python -m tests.learning.recompute_spreads --write"
SOURCE = re.compile(r"rules/spreads, seed (\d+), (\d+) vehicles a fault")


@cache
def spreads() -> Spreads:
    return read_spreads(shipped_spreads())


@cache
def again() -> Links:
    return compute(rulebook(), spreads(), VEHICLES, SEED)


def claims() -> list[tuple[str, str]]:
    """(block, fault) of every number that is said to come from here; fault "" is `otherwise`."""
    return [
        (block, fault)
        for block, evidence in rulebook().model.evidence.items()
        for fault, basis in evidence.bases.items()
        if basis.kind is BasisKind.COMPUTED and basis.source.startswith("rules/spreads")
    ]


def stated_with() -> int:
    """How many vehicles a fault stand behind the packs' numbers."""
    evidence = rulebook().model.evidence
    found = {SOURCE.fullmatch(evidence[block].bases[fault].source) for block, fault in claims()}
    assert None not in found, AGAIN
    numbers = {(int(m[1]), int(m[2])) for m in found if m is not None}
    assert len(numbers) == 1, AGAIN
    seed, vehicles = numbers.pop()
    assert seed == spreads().plan.seed, AGAIN
    return vehicles


def close(one: tuple[float, ...], other: tuple[float, ...], known: float) -> bool:
    """Whether two spreads are within what so many vehicles leave open, of which a share `known`
    (0 to 1) showed anything."""
    few = max(VEHICLES * known, 2.0)
    counts = 1.0 / few + 1.0 / (stated_with() * max(known, 0.01))
    for x, y in zip(one, other, strict=True):
        share = min(max((x + y) / 2, 1.0 / few), 1 - 1.0 / few)
        if abs(x - y) > FAR * math.sqrt(share * (1 - share) * counts) + ROUNDING:
            return False
    return True


def test_packs_state_what_physics_gives() -> None:
    """Every number that a pack calls computed from these ranges comes out again."""
    model, links = rulebook().model, again()
    assert len(claims()) > 25
    apart = []
    for block, fault in claims():
        evidence = model.evidence[block]
        if fault == "":
            same = close(evidence.otherwise, links.otherwise[block], links.known[block, ""])
        else:
            assert (block, fault) in links.seen, f"{fault} turns nothing: {AGAIN}"
            fitted = raised(evidence.otherwise, links.seen[block, fault])
            same = close(evidence.seen_with[fault], fitted, links.known[block, fault])
        if not same:
            apart.append((block, fault))
    assert apart == [], AGAIN


def test_hides_of_packs_state_what_physics_gives() -> None:
    """So do the `hides` of every fault that is simulated, for the families that are computed."""
    model, links = rulebook().model, again()
    assert len(links.hides) > 5
    apart = [
        (fault, family)
        for (fault, family), spread in links.hides.items()
        if not close(model.faults[fault].hides[family], spread, links.known[family, fault])
    ]
    assert apart == [], AGAIN


def test_packs_do_not_guess_what_physics_gives() -> None:
    """Where physics speaks of a link, the packs say so: nobody typed a number beside it."""
    model, claimed = rulebook().model, set(claims())
    links = again()
    guessed = [
        (block, fault)
        for block in computed_blocks(rulebook(), spreads())
        for fault in model.evidence[block].seen_with
        if speaks(links, block, fault)
        and far(links, block, fault)
        and (block, fault) not in claimed
    ]
    assert guessed == [], AGAIN


def far(links: Links, block: str, fault: str) -> bool:
    """Whether the difference cannot be noise of so few vehicles."""
    shares = zip(links.counted[block, fault], links.otherwise[block], strict=True)
    return max(abs(x - y) for x, y in shares) > FAR * 0.5 * math.sqrt(2.0 / VEHICLES)


def test_thresholds_decide() -> None:
    """The spreads are those of the rules' own thresholds: with the limit of `raised` twice as
    high, fewer sound vehicles are raised."""
    found = tally(rulebook(), spreads(), [SOUND] * 40, Random(1), ("restriction",))
    shares = found.shares(rulebook().model, "restriction")
    assert shares is not None
    assert shares[1] > 0.5
    assert sum(shares) == pytest.approx(1.0)


def test_only_what_is_simulated_is_computed() -> None:
    """A block that rests on what people tell or on trouble codes is never computed."""
    blocks = simulated_blocks(rulebook(), ["dp@rest", "sensor-volts@rest"])
    assert "sensor-zero" in blocks
    assert {"restriction", "soot-code", "tailpipe-sooty"}.isdisjoint(blocks)


@pytest.mark.slow
def test_packs_state_it_to_the_digit() -> None:
    """With the seed and the number that the packs name, rewriting them changes nothing."""
    vehicles = stated_with()
    links = compute(rulebook(), spreads(), vehicles, spreads().plan.seed)
    source = source_of(spreads().plan.seed, vehicles)
    for path in sorted(Path(shipped_rules()).glob("*.yaml")):
        assert rewritten(path, rulebook().model, links, source) == path.read_text("utf-8"), AGAIN
