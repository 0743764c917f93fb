"""How good confidence is over many vehicles: leading faults, and whether confidence comes true."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from sootsayer.belief.inference import leading
from sootsayer.belief.network import Evidence, Kind, Network

NONE = "none"
BINS = 10


@dataclass(frozen=True, slots=True)
class Leading:
    """The leading fault of a kind (`none` where no fault of it is more probable), how sure, and
    whether it is right: that fault is present, or none of the kind is."""

    kind: Kind
    fault: str
    confidence: float
    right: bool


def leading_of(
    network: Network, evidence: Evidence, present: Collection[str]
) -> tuple[Leading, ...]:
    """What the network makes of the evidence: one for each kind that has faults, in the order of
    `Kind`."""
    posteriors, none = leading(network, evidence)
    kinds = {kind: sorted(f.id for f in network.faults if f.kind is kind) for kind in Kind}
    return tuple(
        lead(kind, {name: posteriors[name] for name in names}, none[kind], present)
        for kind, names in kinds.items()
        if names
    )


def lead(
    kind: Kind, confidences: Mapping[str, float], none: float, present: Collection[str]
) -> Leading:
    """The more probable of `none` and the kind's first fault, equals by id."""
    first = min(confidences, key=lambda name: (-confidences[name], name))
    if confidences[first] > none:
        return Leading(kind, first, confidences[first], first in present)
    return Leading(kind, NONE, none, not any(name in present for name in confidences))


def calibration_error(leads: Iterable[Leading], bins: int = BINS) -> float:
    """Expected calibration error (0 to 1): over `bins` equal parts of confidence, the mean
    distance between confidence and how often it was right, weighted by how many fall there.
    Raises ValueError for nothing."""
    surplus, count = [0.0] * bins, 0
    for each in leads:
        surplus[min(int(each.confidence * bins), bins - 1)] += each.right - each.confidence
        count += 1
    if not count:
        raise ValueError("no leading faults to measure")
    return math.fsum(abs(part) for part in surplus) / count
