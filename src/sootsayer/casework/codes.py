"""Trouble codes as facts: listed, absent for certain, or unknown."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sootsayer.casework.corrections import code_lists
from sootsayer.casework.model import Case, CodeList
from sootsayer.documents.nodes import Place
from sootsayer.rulebook.model import Model


@dataclass(frozen=True, slots=True)
class CodeValues:
    """Slot `code:P2463` to true, false or unknown, for every code that the model names.

    `entry` and `place` are those of the list read (None before the first): its grounds. `at`
    is when it was read: correcting a list does not make it fresh.
    """

    values: dict[str, bool | None]
    entry: int | None
    place: Place | None
    at: datetime | None = None


def code_values(
    case: Case,
    model: Model,
    as_of: int | None,
    absent_after_km: float,
    absent_after_warm_ups: int,
) -> CodeValues:
    """What the newest list read says, in whichever round.

    A code that is listed is true. One that is not is false only if the list was read
    completely and the monitors are known to have run since the last clearing, or, where that
    is not known, after so many kilometres and warm-ups; otherwise it is unknown.
    """
    lists = code_lists(case, as_of)
    if not lists:
        return CodeValues({f"code:{code}": None for code in model.codes}, None, None)
    newest = lists[-1]
    absent = _can_be_absent(newest.codes, absent_after_km, absent_after_warm_ups)
    unlisted = False if absent else None
    values = {
        f"code:{code}": True if code in newest.codes.codes else unlisted for code in model.codes
    }
    return CodeValues(values, newest.entry.number, newest.codes.place, newest.root.at)


def _can_be_absent(codes: CodeList, after_km: float, after_warm_ups: int) -> bool:
    """Whether a code that is not in the list counts as absent."""
    if not codes.complete:
        return False
    if codes.monitors_run is not None:
        return codes.monitors_run
    if codes.distance_km is None or codes.warm_ups is None:
        return False
    return codes.distance_km >= after_km and codes.warm_ups >= after_warm_ups
