"""Trouble codes: listed, absent, unknown."""

from __future__ import annotations

import pytest

from sootsayer.casework.codes import code_values
from tests.casework.small_model import ARRIVAL, START
from tests.casework.support import MODEL, case_with

COMPLETE = ARRIVAL + "codes: {read: complete, list: [P2463]"


def values(*entries: str, as_of: int | None = None) -> dict[str, bool | None]:
    """Code values with the limits 300 km and 10 warm-ups."""
    return code_values(case_with(*entries), MODEL, as_of, 300.0, 10).values


@pytest.mark.parametrize(
    ("entry", "unlisted"),
    [
        (COMPLETE + ", monitors: run}}", False),
        (COMPLETE + ", monitors: not run, distance since clearing: 900, warm-ups: 99}}", None),
        (COMPLETE + ", monitors: unknown, distance since clearing: 300 km, warm-ups: 10}}", False),
        (COMPLETE + ", distance since clearing: 299 km, warm-ups: 10}}", None),
        (COMPLETE + ", distance since clearing: 300 km, warm-ups: 9}}", None),
        (COMPLETE + ", distance since clearing: 300 km}}", None),
        (COMPLETE + "}}", None),
        (ARRIVAL + "codes: {read: partial, list: [P2463], monitors: run}}", None),
    ],
)
def test_absent_for_certain_or_unknown(entry: str, unlisted: bool | None) -> None:
    """A listed code is true; another is absent only when it would have been listed."""
    assert values(entry) == {"code:P2463": True, "code:P2453": unlisted}


def test_no_list_read() -> None:
    """Before a list is read every code is unknown, without grounds."""
    read = code_values(case_with(), MODEL, None, 300.0, 10)
    assert (read.values, read.entry) == ({"code:P2463": None, "code:P2453": None}, None)


def test_newest_list_of_any_round_and_its_grounds() -> None:
    """The newest list read counts, as corrected, and names the entry that says it."""
    case = case_with(
        COMPLETE + "}}",
        START + "round: after-clean, codes: {read: complete, list: [], monitors: run}}",
        "{at: 2031-03-15T09:02+01:00, by: t, corrects: 2, "
        "codes: {read: complete, list: [P2453], monitors: run}}",
        START + "corrects: 1, codes: {read: partial, list: []}}",
    )
    newest = code_values(case, MODEL, None, 300.0, 10)
    assert (newest.values, newest.entry) == ({"code:P2463": False, "code:P2453": True}, 3)
    assert newest.at == case.entries[1].at
    first = code_values(case, MODEL, 1, 300.0, 10)
    assert (first.values["code:P2463"], first.entry) == (True, 1)
