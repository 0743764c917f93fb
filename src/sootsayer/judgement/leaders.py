"""What leads of each kind: the more probable of `none` and its first fault."""

from __future__ import annotations

from dataclasses import dataclass

from sootsayer.belief.inference import Solved, none_of_each
from sootsayer.belief.network import Network


@dataclass(frozen=True, slots=True)
class Leader:
    """Of one kind, the more probable of `none` and its first fault, and its probability."""

    kind: str
    fault: str
    confidence: float


def leaders(network: Network, solved: Solved) -> tuple[Leader, ...]:
    """One for each kind; between equals `none`, then the first by id."""
    kinds = {fault.id: fault.kind for fault in network.faults}
    found = []
    for kind, none in none_of_each(network, solved).items():
        best = Leader(kind.value, "none", none)
        for fault, p in sorted(solved.posteriors.items()):
            if kinds[fault] is kind and p > best.confidence:
                best = Leader(kind.value, fault, p)
        found.append(best)
    return tuple(found)
