"""Proofs stand at and beside thresholds; a drawn reading stands well inside its level."""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot, inf, sqrt

from sootsayer.engine.conditions import Const, Limit, Operand, Value
from sootsayer.engine.thresholds import thresholds
from sootsayer.judgement.proofs import proof_values
from sootsayer.judgement.softness import as_level
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.model import FindingDef, Model

CLEAR = 4.0  # standard deviations from the nearest threshold: no error blurs it


def clear_proofs(
    rulebook: Rulebook, finding: FindingDef, limits: Mapping[str, float]
) -> dict[str, list[dict[str, Value]]]:
    """By outcome (as a word), the facts of each proof that has it and is no borderline case; the
    clearest one where all are.

    Of trouble codes only those that the finding looks at; a graded number in the middle of its
    level.
    """
    reads = rulebook.program.reads(finding.id)
    found: dict[str, list[tuple[float, dict[str, Value]]]] = {}
    for proof in finding.proofs:
        level = as_level(proof.then)
        if level is None:
            continue
        values = {s: v for s, v in proof_values(rulebook, proof).items() if s in reads}
        values = amid(rulebook.model, finding, level, values, limits)
        kept = found.setdefault(level, [])
        if all(values != other for _, other in kept):
            kept.append((_clearance(rulebook, finding.id, values, limits), values))
    return {level: _clearest(kept) for level, kept in found.items()}


def _clearest(kept: list[tuple[float, dict[str, Value]]]) -> list[dict[str, Value]]:
    enough = min(CLEAR, max(clearance for clearance, _ in kept))
    return [values for clearance, values in kept if clearance >= enough]


def _clearance(
    rulebook: Rulebook, finding: str, values: Mapping[str, Value], limits: Mapping[str, float]
) -> float:
    """How many standard deviations of its instrument the nearest reading is from a threshold."""
    nearest = inf
    for slot, cuts in thresholds(rulebook.program, values, limits, finding).items():
        signal = rulebook.model.signals.get(slot.partition("@")[0])
        value = values.get(slot)
        if signal is None or not isinstance(value, float):
            continue
        sd = hypot(signal.error, signal.step / sqrt(12.0))
        for cut in cuts if sd > 0 else ():
            nearest = min(nearest, abs(value - cut) / sd)
    return nearest


def amid(
    model: Model,
    finding: FindingDef,
    level: str,
    values: Mapping[str, Value],
    limits: Mapping[str, float],
) -> dict[str, Value]:
    """A proof's facts, its graded number moved to the middle of its level.

    The lowest level has its middle as far below its cut as that of the next is above it, the
    highest likewise. Left alone: findings that are not graded, cuts that are facts themselves.
    """
    cuts = [_number(cut, limits) for cut in finding.cuts]
    if finding.of is None or not finding.cuts or None in cuts:
        return dict(values)
    signal = model.signals[finding.of.partition("@")[0]]
    low, high = signal.possible or (float("-inf"), float("inf"))
    edges = [cut for cut in cuts if cut is not None]
    at = finding.levels.index(level)
    if 0 < at < len(edges):
        middle = (edges[at - 1] + edges[at]) / 2.0
    elif at == 0:
        width = edges[1] - edges[0] if len(edges) > 1 else abs(edges[0])
        middle = max(edges[0] - width / 2.0, (max(low, 0.0) + edges[0]) / 2.0)
    else:
        width = edges[-1] - edges[-2] if len(edges) > 1 else abs(edges[-1])
        middle = min(edges[-1] + width / 2.0, (high + edges[-1]) / 2.0)
    step = signal.step
    rounded = round(middle / step) * step if step and finding.of not in model.quantities else middle
    return {**values, finding.of: float(f"{rounded:.6g}")}


def _number(operand: Operand, limits: Mapping[str, float]) -> float | None:
    if isinstance(operand, Const):
        return operand.value
    return limits.get(operand.name) if isinstance(operand, Limit) else None
