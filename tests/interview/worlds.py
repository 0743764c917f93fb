"""Cases of the small world of this room."""

from __future__ import annotations

from collections.abc import Collection
from datetime import datetime, timedelta
from functools import cache
from pathlib import Path

from sootsayer.casework.case_file import case_of
from sootsayer.casework.model import Case
from sootsayer.casework.no_entries import parse_case
from sootsayer.judgement.looking import Looked, look
from sootsayer.rulebook.compiled import Rulebook, load_rulebook
from sootsayer.rulebook.model import Where
from sootsayer.rulebook.shop import Shop

HERE = Path(__file__).parent
NINE = datetime.fromisoformat("2031-03-14T09:00+01:00")
HEAD = "case: made\nformat: 1\nvehicle: {label: 2.0 L panel van}\nentries:\n"


@cache
def book() -> Rulebook:
    return load_rulebook([HERE / "small"])


def said(facts: str, source: str = "scan") -> str:
    """An entry's line with these facts."""
    return _line(f"source: {source}, facts: {{{facts}}}")


def absent(none: str) -> str:
    """An entry's line with why there is no value."""
    return _line(f"none: {{{none}}}")


def codes(listed: str = "") -> str:
    """An entry's line with a complete list of codes."""
    return _line(f"source: scan, codes: {{read: complete, list: [{listed}], monitors: run}}")


def _line(rest: str) -> str:
    return f"- {{at: 2031-03-14T09:00+01:00, by: tech-1, round: arrival, {rest}}}\n"


def case(*lines: str) -> Case:
    return case_of(parse_case((HEAD + "".join(lines)).encode(), "made.yaml"), book().model)


def seen(
    *lines: str,
    stage: Where | None = None,
    later: Collection[str] = (),
    shop: Shop | None = None,
    minutes: float = 0,
) -> Looked:
    """The case of these lines, `minutes` after nine o'clock."""
    now = NINE + timedelta(minutes=minutes)
    return look(case(*lines), book(), now=now, shop=shop, stage=stage, later=later)
