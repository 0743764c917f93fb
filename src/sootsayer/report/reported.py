"""Everything that a report draws, gathered once."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sootsayer.casework.corrections import outcome, works
from sootsayer.casework.model import Entry, Outcome
from sootsayer.console.compare_page import Told
from sootsayer.console.names import Names
from sootsayer.judgement.verdict import FaultSaid, PermissionSaid, Verdict
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.model import RemedyDef
from sootsayer.rulebook.shop import Shop

DRIVE_ON = "drive-on"
KINDS = ("measurement", "condition", "cause")
LIKELY = 0.4
"""Confidence from which a fault is told to a customer; below it, it is no more than a thought."""


@dataclass(frozen=True, slots=True)
class Reported:
    """`verdict` as the case stands, `at_arrival` as it stood when its first round was read (the
    same where there is but one). `told`: before and after, None where nothing can be compared.
    `digest`: SHA-256 (hex) of the case file; `made`: when the report was made; `head`: the last
    record of the shop's ledger, by number and digest, None where there is no record; number 0
    where it does not hold."""

    work: Workings
    verdict: Verdict
    at_arrival: Verdict
    names: Names
    told: Told | None
    digest: str
    made: datetime
    head: tuple[int, str] | None = None

    @property
    def shop(self) -> Shop | None:
        return self.work.shop

    @property
    def done(self) -> tuple[tuple[Entry, str], ...]:
        """The work done, in order, as corrected."""
        return works(self.work.case, self.work.sheet.as_of)

    @property
    def outcome(self) -> Outcome | None:
        found = outcome(self.work.case, self.work.sheet.as_of)
        return None if found is None else found[1]

    def remedy(self, work: str) -> RemedyDef | None:
        """What the rulebook knows of work of this name."""
        return self.work.model.remedies.get(work)

    def permission(self, action: str) -> PermissionSaid | None:
        return next((p for p in self.verdict.permissions if p.action == action), None)


def leading(verdict: Verdict, kind: str) -> FaultSaid | None:
    """The first fault of the kind, where it is more probable than that there is none."""
    first = next((fault for fault in verdict.faults if fault.kind == kind), None)
    return first if first is not None and first.confidence > verdict.none[kind] else None


def worth_telling(verdict: Verdict, kind: str) -> tuple[FaultSaid, ...]:
    """The faults of the kind that are at least about even, likeliest first; no more than three."""
    of_kind = [f for f in verdict.faults if f.kind == kind and f.confidence >= LIKELY]
    return tuple(of_kind[:3])
