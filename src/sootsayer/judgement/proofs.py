"""Rules that prove themselves: their own examples, run through the engine."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from sootsayer.documents.nodes import Place
from sootsayer.engine.conditions import Value
from sootsayer.engine.program import Program, compile_program
from sootsayer.judgement.softness import as_level
from sootsayer.rulebook.compiled import Rulebook, applies_slot, interlock_slot, shift_slot
from sootsayer.rulebook.model import Model, Proof


@dataclass(frozen=True, slots=True)
class ProofFailed:
    """A proof that does not come out: of what, what was expected of it, and what it said.

    `slot` is a finding's id, or `interlock:ID`, `shift:FAULT:NUMBER`, `applies:KIND:ID`.
    Levels as words; None is unknown.
    """

    slot: str
    expected: str | None
    found: str | None
    place: Place


def failed_proofs(
    rulebook: Rulebook, only: Collection[str] | None = None
) -> tuple[ProofFailed, ...]:
    """Every proof that does not come out, by what it proves and its order in the pack.

    `only`: the slots whose proofs are run, None for all.
    """
    limits = {limit.id: limit.default for limit in rulebook.model.limits.values()}
    failed = []
    for slot, proofs in proofs_by_slot(rulebook.model):
        if not proofs or (only is not None and slot not in only):
            continue
        program = program_of(rulebook, slot)
        for proof in proofs:
            values = proof_values(rulebook, proof)
            found = as_level(program.run(values, limits)[slot])
            expected = as_level(proof.then)
            if found != expected:
                failed.append(ProofFailed(slot, expected, found, proof.place))
    return tuple(failed)


def program_of(rulebook: Rulebook, slot: str) -> Program:
    """What `slot` rests on and nothing else, so that a proof costs the same in any rulebook."""
    whole = rulebook.program
    cone = whole.cone((slot,))
    return compile_program([whole.definitions[each] for each in cone if each in whole.definitions])


def proofs_by_slot(model: Model) -> Iterator[tuple[str, tuple[Proof, ...]]]:
    """The slot of everything that can be proven, with its proofs."""
    for finding in model.findings.values():
        yield finding.id, finding.proofs
    for interlock in model.interlocks.values():
        yield interlock_slot(interlock.id), interlock.proofs
        yield applies_slot("interlock", interlock.id), interlock.applies_proofs
    for check in model.checks.values():
        yield applies_slot("check", check.id), check.applies_proofs
    for remedy in model.remedies.values():
        yield applies_slot("remedy", remedy.id), remedy.applies_proofs
    for fault in model.faults.values():
        yield applies_slot("fault", fault.id), fault.applies_proofs
        for number, shift in enumerate(fault.shifts):
            yield shift_slot(fault.id, number), shift.proofs


def proof_values(rulebook: Rulebook, proof: Proof) -> dict[str, Value]:
    """A proof's facts as the engine takes them; a list of codes given is a complete one."""
    values: dict[str, Value] = dict(proof.given)
    if proof.codes is not None:
        for code in rulebook.model.codes:
            values[f"code:{code}"] = code in proof.codes
    return values
