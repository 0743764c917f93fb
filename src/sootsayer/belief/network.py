"""The network of one case, as frozen data.

Faults in three kinds; causes lead to conditions (noisy-OR with leak: Pearl 1988; Henrion
1989); observables are seen with faults (noisy-MAX where graded: Henrion 1989; Díez 1993);
some faults hide an observable. Faults that do not apply are simply not in the network.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum


class Kind(Enum):
    MEASUREMENT = "measurement"
    CONDITION = "condition"
    CAUSE = "cause"


@dataclass(frozen=True, slots=True)
class Fault:
    """`prior`: probability, 0 < prior < 1, shifts applied; of a condition, with no listed cause."""

    id: str
    kind: Kind
    prior: float


@dataclass(frozen=True, slots=True)
class Lead:
    """A cause brings a condition with own `strength`, 1 - (1 - leads)/(1 - prior as written)."""

    cause: str
    condition: str
    strength: float


@dataclass(frozen=True, slots=True)
class Seen:
    """How an observable's levels fall when `fault` is the only listed one present (includes the
    leak); adds to 1, lowest level first."""

    fault: str
    spread: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Observable:
    """A family of findings as its speaking member sees it.

    `otherwise`: spread over the levels with none of the listed faults (the leak).
    `seen`: links. `hidden_by`: hiders, the nearest first; the first one present replaces
    everything by its own spread. Binary: two levels, false then true.
    """

    id: str
    otherwise: tuple[float, ...]
    seen: tuple[Seen, ...] = ()
    hidden_by: tuple[Seen, ...] = ()


@dataclass(frozen=True, slots=True)
class Network:
    faults: tuple[Fault, ...]
    leads: tuple[Lead, ...]
    observables: tuple[Observable, ...]


# Virtual evidence (Pearl 1988, section 2.2.2): for each observable that was seen, the
# likelihood of the reading under each level, lowest level first; hard = one 1, others 0.
Evidence = Mapping[str, tuple[float, ...]]


@dataclass(frozen=True, slots=True)
class Candidate:
    """A set of faults (sorted ids) that together explain the evidence, and its probability."""

    faults: tuple[str, ...]
    probability: float


@dataclass(frozen=True, slots=True)
class Beliefs:
    """What the network says of a case.

    `posteriors`: fault id to probability. `none`: for each kind, the exact probability that
    no fault of it is present. `candidates`: the 20 most probable sets over the dozen leading
    faults, all others summed out; `left_out` the exact mass not listed. `exact` is false
    where the network was too wide: then `low` and `high` bound each posterior.
    """

    posteriors: dict[str, float]
    none: dict[Kind, float]
    candidates: tuple[Candidate, ...]
    left_out: float
    exact: bool = True
    low: dict[str, float] | None = None
    high: dict[str, float] | None = None
