"""How a finding or a fault fared in cases: where it was so, and what was confirmed there."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sootsayer.casework.model import Case
from sootsayer.judgement.judge import tell
from sootsayer.judgement.softness import as_level
from sootsayer.judgement.workings import Workings, work_out
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.shop import Shop


@dataclass(frozen=True, slots=True)
class InCase:
    """One case as it ended. `level`: of the finding asked about, None where unknown. `led`: the
    fault asked about led its kind. `confirmed`: the faults of its outcome, None while open."""

    case: str
    level: str | None
    led: bool
    confirmed: tuple[str, ...] | None


@dataclass(frozen=True, slots=True)
class Lived:
    """Every case that could be read, and how many could not."""

    cases: tuple[InCase, ...]
    broken: int


def in_case(
    case: Case, rulebook: Rulebook, now: datetime, shop: Shop | None, kind: str, id_: str
) -> InCase:
    """What the case tells of a finding or a fault; of anything else only what was confirmed.

    A closed case is read as of the entry before its outcome.
    """
    closing = next((each for each in case.entries if each.outcome is not None), None)
    as_of = None if closing is None else closing.number - 1
    confirmed = None if closing is None or closing.outcome is None else closing.outcome.faults
    if kind == "finding":
        work = work_out(case, rulebook, now, as_of, shop)
        return InCase(case.id, as_level(work.derived[id_]), False, confirmed)
    if kind == "fault" and closing is not None:
        work = work_out(case, rulebook, now, as_of, shop)
        return InCase(case.id, None, _leads(work, id_), confirmed)
    return InCase(case.id, None, False, confirmed)


def _leads(work: Workings, fault: str) -> bool:
    """Whether it is more probable than the others of its kind, and than none of them."""
    verdict = tell(work, proposing=False)
    kind = work.model.faults[fault].kind.value
    first = next((each for each in verdict.faults if each.kind == kind), None)
    return first is not None and first.id == fault and first.confidence > verdict.none[kind]
