"""The shipped interlocks prove themselves, and no wish or signature reaches them."""

from __future__ import annotations

from functools import lru_cache

import pytest

from sootsayer.rulebook.compiled import Rulebook, load_rulebook, shipped_rules
from sootsayer.rulebook.reads import condition_slots, facts_behind


@lru_cache(maxsize=1)
def rulebook() -> Rulebook:
    return load_rulebook([shipped_rules()])


@pytest.mark.parametrize("name", sorted(rulebook().model.interlocks))
def test_an_interlock_shows_every_outcome(name: str) -> None:
    """Each has an example that holds, one that does not, and one that leaves it unknown."""
    lock = rulebook().model.interlocks[name]
    assert {proof.then for proof in lock.proofs} == {True, False, None}
    if lock.applies is not None:
        assert {proof.then for proof in lock.applies_proofs} >= {True, False}


@pytest.mark.parametrize("name", sorted(rulebook().model.interlocks))
def test_nothing_known_never_holds(name: str) -> None:
    """Without a single fact no interlock holds: unknown is not permission."""
    slot = f"interlock:{name}"
    derived = rulebook().program.run({}, limits(), only=(slot,))
    assert derived[slot] is None


@pytest.mark.parametrize("name", sorted(rulebook().model.interlocks))
def test_an_interlock_needs_each_fact_that_clears_it(name: str) -> None:
    """Of the first example that holds, no fact can be left out of what it takes to hold it."""
    program = rulebook().program
    lock = rulebook().model.interlocks[name]
    slot = f"interlock:{name}"
    proof = next(p for p in lock.proofs if p.then is True)
    codes = {f"code:{c}": c in (proof.codes or ()) for c in rulebook().model.codes}
    values = {**proof.given, **(codes if proof.codes is not None else {})}
    for left_out in proof.given:
        kept = {k: v for k, v in values.items() if k != left_out}
        assert program.run(kept, limits(), only=(slot,))[slot] is not True, left_out


def test_no_wish_and_no_signature_is_read_by_an_interlock() -> None:
    """What the customer wants done or signs for stands in no condition that permits."""
    wishes = {n for n, s in rulebook().model.signals.items() if s.pack == "requests"}
    assert wishes == {"customer-wants-removal", "customer-takes-the-risk"}
    model = rulebook().model
    read: set[str] = set()
    for lock in model.interlocks.values():
        named = {*condition_slots(lock.holds), *condition_slots(lock.applies or lock.holds)}
        read |= named | {*facts_behind(model, *(named & {*model.findings}))}
    assert "oil-level" in read
    assert not wishes & read


def limits() -> dict[str, float]:
    return {each.id: each.default for each in rulebook().model.limits.values()}
