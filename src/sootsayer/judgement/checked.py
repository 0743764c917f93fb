"""What came of checking a rulebook, as data."""

from __future__ import annotations

from dataclasses import dataclass, field

from sootsayer.judgement.coverage import Shown
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.review.remark import Decision, Remark, Weight


@dataclass(frozen=True, slots=True)
class Counted:
    """How much was looked at."""

    packs: int
    findings: int
    faults: int
    links: int
    proofs: int


@dataclass(frozen=True, slots=True)
class Checked:
    """What came of it.

    `remarks`: errors first, then by place. `unread`: something could not be read at all; `whole`:
    everything was read, so that everything was looked into. `shown` is empty and `rulebook` None
    where the packs are refused.
    """

    counted: Counted
    remarks: tuple[Remark, ...]
    decisions: tuple[Decision, ...]
    shown: tuple[Shown, ...] = field(repr=False)
    whole: bool
    files: tuple[str, ...]
    unread: bool
    rulebook: Rulebook | None = field(default=None, repr=False)

    @property
    def errors(self) -> int:
        return sum(each.weight is Weight.ERROR for each in self.remarks)
