"""Law 5. A lying instrument never acquits a filter."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict import Verdict
from sootsayer.judgement.views import SETTLED
from tests.laws.making_cases import NOW, readings, rulebook, some_case

SLOW = settings(deadline=None, max_examples=80, suppress_health_check=list(HealthCheck))


def may_call_well(verdict: Verdict) -> bool:
    return verdict.filter_well.shown


@SLOW
@given(st.data())
def test_without_a_proven_instrument_nothing_says_the_filter_is_well(
    data: st.DataObject,
) -> None:
    """Unless some channel is proven or corrected, no verdict calls the filter well."""
    verdict = judge(some_case(data.draw(readings(rulebook().model, most=40))), rulebook(), now=NOW)
    if not any(c.state in SETTLED for c in verdict.channels):
        assert not may_call_well(verdict)
        assert verdict.filter_well.because
