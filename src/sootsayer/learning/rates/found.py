"""What one closed case adds to rates and calibration."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sootsayer.belief.network import Kind
from sootsayer.learning.leading import Leading


@dataclass(frozen=True, slots=True)
class Observed:
    """`faults`: confirmed. `levels`: by what has evidence (a family, a finding, or a member that
    speaks for itself) the level that was seen, where any was. `confidences`: of every fault that
    applies; `leads`: what led of each kind, and whether it was right."""

    faults: tuple[str, ...]
    levels: tuple[tuple[str, str], ...]
    confidences: tuple[tuple[str, float], ...] = ()
    leads: tuple[Leading, ...] = ()


def plain(found: Observed) -> Any:
    """As lists, texts and numbers."""
    leads = [[x.kind.value, x.fault, x.confidence, x.right] for x in found.leads]
    return [found.faults, found.levels, found.confidences, leads]


def from_plain(plain: Any) -> Observed:
    """The same again."""
    faults, levels, confidences, leads = plain
    return Observed(
        tuple(faults),
        tuple((name, level) for name, level in levels),
        tuple((name, p) for name, p in confidences),
        tuple(Leading(Kind(kind), f, c, r) for kind, f, c, r in leads),
    )
