"""A record as one row of a list."""

from __future__ import annotations

import json

from sootsayer.casework.moments import MomentRefused, read_moment
from sootsayer.ledger.headlines import drive_on, leading_faults
from sootsayer.ledger.model import Row
from sootsayer.ledger.parts import VERDICT, part, text, whole

FIELDS = Row._fields


def stored(row: Row) -> tuple[object, ...]:
    """The row as the index holds it: with its moment in seconds."""
    return (*row, seconds(row.at))


def row_of(line: bytes) -> Row | None:
    """The row of a line; None where it is no record. Whether it is whole is not looked at."""
    try:
        told = json.loads(line)
    except (ValueError, RecursionError):
        return None
    if not isinstance(told, dict) or not text(told, "digest"):
        return None
    number, body = whole(told, "number"), part(told, "body")
    if number is None or not 0 < number < 2**53:
        return None
    return Row(
        number=number,
        at=text(body, "at"),
        by=text(body, "by"),
        kind=text(body, "kind"),
        case=text(body, "case", "id"),
        vehicle=text(body, "case", "vehicle"),
        faults=_faults(body),
        drive=drive_on(part(body, "verdict")),
        of=whole(body, "of", "number") or 0,
        digest=text(told, "digest"),
    )


def _faults(body: dict[str, object]) -> str:
    if text(body, "kind") == VERDICT:
        return " ".join(leading_faults(part(body, "verdict")))
    listed = part(body, "outcome").get("faults")
    return " ".join(str(each) for each in listed) if isinstance(listed, list) else ""


def seconds(at: str) -> float:
    """A moment as seconds of the epoch; 0 for what is none."""
    try:
        return read_moment(at).timestamp()
    except (MomentRefused, OverflowError, ValueError):
        return 0.0
