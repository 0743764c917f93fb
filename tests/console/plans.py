"""Plans to draw: cases of the small rulebook with remedies, judged."""

from __future__ import annotations

from sootsayer.console.names import Names, names_of
from sootsayer.judgement.verdict import Verdict
from sootsayer.rulebook.shop import Shop
from sootsayer.rulebook.shop_file import read_shop
from sootsayer.rulebook.shop_fit import fitted
from tests.judgement.plan_cases import BLOCKED, HERE, TRIPS, YARD, case, planning, verdict

OWN_RATE = "soot-measured: 30, km-since-burn: 600, km-a-week: 35"
# The facts of a case, and whether there is a shop with prices.
ALL: dict[str, tuple[tuple[str, ...], bool]] = {
    "all-clear": ((BLOCKED, TRIPS, YARD, OWN_RATE), True),
    "not-yet-clear": ((BLOCKED, TRIPS), False),
    "forbidden": ((BLOCKED, TRIPS, "outdoors: no, cool: no"), True),
    "hides-a-fault": (("dp@rest: 12",), True),
    "healthy": (("dp@rest: 0, dp@2500: 20, hose: whole", "trip: 60 km"), True),
    "wish-to-remove": ((BLOCKED, TRIPS, "customer-wants-removal: yes"), True),
    "nothing-entered": ((), False),
}


def priced() -> Shop:
    return fitted(read_shop(HERE / "plan_shop"), planning().model)


def drawn_from(plan: tuple[tuple[str, ...], bool]) -> tuple[Verdict, Names]:
    """The verdict with its plan, and the names for its page."""
    facts, has_prices = plan
    shop = priced() if has_prices else None
    return verdict(*facts, shop=shop), names_of(planning().model, case(*facts), shop)
