"""What is told again of a damaged rulebook is what the whole road would tell."""

from __future__ import annotations

from sootsayer.judgement.verdict import FaultSaid, Verdict
from sootsayer.rulebook.compiled import rulebook_of
from tests.cases.again import believed_again, permitted_again
from tests.cases.demonstrated import CASES, demonstrated, told, worked_out
from tests.cases.mutating import every, model
from tests.laws.making_cases import rulebook

SHOWN = demonstrated(CASES / "lamp-after-a-town-winter.yaml")
(EXPECTED,) = SHOWN.expected
LINK = "link dropped: short-trip-duty / trips-short"
INTERLOCK = "interlock removed: parked-regeneration / battery-held-up"


def test_a_dropped_link() -> None:
    """The same confidences; and that link speaks for the fault no more."""
    mutation = next(each for each in every() if each.name == LINK)
    book = rulebook_of(mutation.on(model()))
    work = worked_out(SHOWN.case, EXPECTED, rulebook())
    before = told(work, EXPECTED)
    again = believed_again(work, before, book, mutation.family)
    whole = told(worked_out(SHOWN.case, EXPECTED, book), EXPECTED)
    assert {f.id: f.confidence for f in again.faults} == {f.id: f.confidence for f in whole.faults}
    assert again.none == whole.none
    shares = [{s.family for s in _fault(v).for_} for v in (before, again, whole)]
    assert ["trips-short" in each for each in shares] == [True, False, False]


def test_a_removed_interlock() -> None:
    """The same permissions, without that interlock."""
    mutation = next(each for each in every() if each.name == INTERLOCK)
    book = rulebook_of(mutation.on(model()))
    work = worked_out(SHOWN.case, EXPECTED, rulebook())
    before = told(work, EXPECTED)
    again = permitted_again(work, before, book)
    whole = told(worked_out(SHOWN.case, EXPECTED, book), EXPECTED)
    assert again.permissions == whole.permissions != before.permissions
    assert again.drive_on == whole.drive_on


def _fault(verdict: Verdict) -> FaultSaid:
    return next(fault for fault in verdict.faults if fault.id == "short-trip-duty")
