"""A small rulebook with remedies, and plans of cases written in lines for it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from sootsayer.casework.case_file import case_of
from sootsayer.casework.model import Case
from sootsayer.casework.no_entries import parse_case
from sootsayer.judgement.judge import judge
from sootsayer.judgement.plan_said import Plan, RemedySaid
from sootsayer.judgement.verdict import Verdict
from sootsayer.rulebook.compiled import Rulebook, load_rulebook
from sootsayer.rulebook.shop import Shop
from sootsayer.rulebook.shop_file import read_shop
from sootsayer.rulebook.shop_fit import fitted
from tests.judgement.small_cases import HEAD, NINE, scan

HERE = Path(__file__).parent
PRICED = "format: 1\ncurrency: EUR\nlabour rate: 60\n"  # a minute is one EUR
BLOCKED = "dp@rest: 0, dp@2500: 90, hose: whole, ash-shown: 10"
TRIPS = "trip: 5 km"
YARD = "outdoors: yes, cool: yes"


@cache
def planning() -> Rulebook:
    return load_rulebook([HERE / "plan"])


def shop(folder: Path, more: str = "", *, head: str = PRICED) -> Shop:
    """A shop's settings, held against the small rulebook."""
    (folder / "shop.yaml").write_text(head + more, encoding="utf-8")
    return fitted(read_shop(folder), planning().model)


def case(*facts: str) -> Case:
    """A case with an entry for each of these lots of facts."""
    lines = "".join(f"{scan(each, source='technician')}\n" for each in facts)
    return case_of(parse_case(f"{HEAD}entries:\n{lines}".encode(), "made.yaml"), planning().model)


def verdict(*facts: str, shop: Shop | None = None) -> Verdict:
    return judge(case(*facts), planning(), now=NINE, shop=shop, planning=True)


def plan(*facts: str, shop: Shop | None = None) -> Plan:
    found = verdict(*facts, shop=shop).plan
    assert found is not None
    return found


def remedy(of: Plan, name: str) -> RemedySaid:
    return next(each for each in of.remedies if each.remedy == name)
