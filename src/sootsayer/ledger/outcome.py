"""What came of a case: the body of the record that points back to a verdict."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sootsayer import __version__
from sootsayer.casework import case_file
from sootsayer.casework.corrections import outcome as outcome_of
from sootsayer.casework.corrections import works
from sootsayer.casework.model import Case, Outcome
from sootsayer.casework.moments import write_moment
from sootsayer.ledger import seal
from sootsayer.ledger.folder import Ledger
from sootsayer.ledger.model import Record
from sootsayer.ledger.parts import OUTCOME, part, text, whole
from sootsayer.ledger.reading import outcomes_of


@dataclass(frozen=True, slots=True)
class Confirmed:
    """The outcome in force in a case, and the entry that says it."""

    outcome: Outcome
    entry: int


def confirmed(case: Case) -> Confirmed | None:
    """The outcome as last corrected; None while the case is open."""
    found = outcome_of(case)
    return None if found is None else Confirmed(found[1], found[0].number)


def outcome_body(
    record: Record, case: Case, found: Confirmed, *, at: datetime, by: str
) -> dict[str, object]:
    """The body of the record: the outcome, and the work done since the verdict was kept."""
    since = whole(record.body, "case", "entries") or 0
    return {
        "kind": OUTCOME,
        "at": write_moment(at),
        "by": by,
        "program": __version__,
        "formats": {"record": seal.FORMAT, "case": case_file.FORMAT},
        "of": {"number": record.number, "digest": record.line.digest},
        "case": {
            "id": case.id,
            "vehicle": text(record.body, "case", "vehicle"),
            "entry": found.entry,
        },
        "outcome": told(found.outcome),
        "done": [
            {"entry": e.number, "at": write_moment(e.at), "by": e.by, "work": work}
            for e, work in works(case)
            if e.number > since
        ],
    }


def told(outcome: Outcome) -> dict[str, object]:
    return {
        "faults": list(outcome.faults),
        "cured_by": list(outcome.cured_by),
        "proved_by": outcome.proved_by,
    }


def already(ledger: Ledger, record: Record, found: Confirmed) -> Record | None:
    """The record that says this outcome of the verdict already, if the newest does."""
    earlier = outcomes_of(ledger, record)
    if earlier and part(earlier[-1].body, "outcome") == told(found.outcome):
        return earlier[-1]
    return None
