"""What may be done: interlocks and actions, and the work that mends faults."""

from __future__ import annotations

from dataclasses import dataclass

from sootsayer.documents.nodes import Place
from sootsayer.engine.conditions import Condition
from sootsayer.rulebook.model_basis import Basis, Proof


@dataclass(frozen=True, slots=True)
class Interlock:
    """A condition that must hold before an action.

    `says`: what is so where it holds; `when_not`: what is so where it does not. `proofs` are of
    what it holds on, `applies_proofs`, here and elsewhere, of `applies`.
    """

    id: str
    says: str
    when_not: str
    holds: Condition
    basis: Basis
    pack: str
    place: Place
    within_minutes: float | None = None
    ask: tuple[str, ...] = ()
    applies: Condition | None = None
    proofs: tuple[Proof, ...] = ()
    applies_proofs: tuple[Proof, ...] = ()
    revision: str = ""


@dataclass(frozen=True, slots=True)
class DriveState:
    """A state of `drive-on` reached when at least `count` of `blocked_by` are blocked."""

    state: str
    blocked_by: tuple[str, ...]
    count: int = 1


@dataclass(frozen=True, slots=True)
class Action:
    """Something that can hurt if wrong.

    `needs`: interlocks that must be clear. `heeds`: interlocks that block when known not to
    hold, but are only named, not awaited, while unknown. `states`: of `drive-on`, worst first.
    """

    id: str
    does: str
    hurts: tuple[str, ...]
    needs: tuple[str, ...]
    caution: str
    pack: str
    place: Place
    heeds: tuple[str, ...] = ()
    states: tuple[DriveState, ...] = ()


@dataclass(frozen=True, slots=True)
class Money:
    """A price range in the shop's currency, lowest and highest; None where unknown."""

    lowest: float
    highest: float


@dataclass(frozen=True, slots=True)
class Span:
    """From the lowest to the highest; both the same where it is one number."""

    lowest: float
    highest: float


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a piece of work, with its own caution where it has one."""

    does: str
    caution: str = ""


@dataclass(frozen=True, slots=True)
class Recheck:
    """When to look again: after so many km, or so many days, whichever comes first."""

    km: float | None = None
    days: float | None = None


@dataclass(frozen=True, slots=True)
class RemedyDef:
    """Work that cures faults with some chance, at a price, by actions.

    `cures`: fault id to frequency; `by_actions`: actions it needs a permission for; `minutes`
    of work; `days` that the vehicle is away beyond it. `needs_mended`: faults with which it does
    not cure; `hides_faults`: faults that it would only cover up. `steps` in order, `stop_when`,
    `consumes`, `oil_afterwards`, `resets` (counters and learned values), `then` (follow-ups) and
    `tell_the_customer` in words; `verify_by`: slots read afterwards; `voids`: channels that are
    unproven again after it; `rechecks`: when to look again, the soonest first.
    """

    id: str
    label: str
    does: str
    cures: dict[str, float]
    by_actions: tuple[str, ...]
    minutes: Span
    parts: Money | None
    then: tuple[str, ...]
    verify_by: tuple[str, ...]
    voids: tuple[str, ...]
    basis: Basis
    pack: str
    place: Place
    caution: str = ""
    applies: Condition | None = None
    days: Span | None = None
    needs_mended: tuple[str, ...] = ()
    hides_faults: tuple[str, ...] = ()
    steps: tuple[Step, ...] = ()
    stop_when: tuple[str, ...] = ()
    consumes: tuple[str, ...] = ()
    oil_afterwards: str = ""
    resets: tuple[str, ...] = ()
    rechecks: tuple[Recheck, ...] = ()
    tell_the_customer: str = ""
    applies_proofs: tuple[Proof, ...] = ()
    revision: str = ""
