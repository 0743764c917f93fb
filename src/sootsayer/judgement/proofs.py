"""Rules that prove themselves: each finding's own examples, run through the engine."""

from __future__ import annotations

from dataclasses import dataclass

from sootsayer.documents.nodes import Place
from sootsayer.engine.conditions import Value
from sootsayer.judgement.softness import as_level
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.model import Proof


@dataclass(frozen=True, slots=True)
class ProofFailed:
    """A proof that does not come out: what was expected of the finding, and what it said.

    Levels as words; None is unknown.
    """

    finding: str
    expected: str | None
    found: str | None
    place: Place


def failed_proofs(rulebook: Rulebook) -> tuple[ProofFailed, ...]:
    """Every proof of every finding that does not come out, by finding and order in the pack."""
    limits = {limit.id: limit.default for limit in rulebook.model.limits.values()}
    failed = []
    for finding in rulebook.model.findings.values():
        for proof in finding.proofs:
            values = proof_values(rulebook, proof)
            found = as_level(rulebook.program.run(values, limits, only=(finding.id,))[finding.id])
            expected = as_level(proof.then)
            if found != expected:
                failed.append(ProofFailed(finding.id, expected, found, proof.place))
    return tuple(failed)


def proof_values(rulebook: Rulebook, proof: Proof) -> dict[str, Value]:
    """A proof's facts as the engine takes them; a list of codes given is a complete one."""
    values: dict[str, Value] = dict(proof.given)
    if proof.codes is not None:
        for code in rulebook.model.codes:
            values[f"code:{code}"] = code in proof.codes
    return values
