"""Every lint of the rulebook, in one place."""

from __future__ import annotations

from sootsayer.rulebook.desk import Desk
from sootsayer.rulebook.lint import (
    channels,
    evidence,
    faults,
    findings,
    one_reading,
    opening,
    packs,
    quantities,
    width,
)
from sootsayer.rulebook.model import Model


def lint(desk: Desk, model: Model) -> None:
    """Note on the desk everything that is wrong across items and across packs."""
    packs.borrowed_ids(desk)
    quantities.none_rests_on_itself(desk, model)
    findings.proofs_are_there(desk, model)
    findings.cuts_rise(desk, model)
    channels.tests_are_declared(desk, model)
    channels.none_test_each_other(desk, model)
    faults.leads_are_possible(desk, model)
    faults.hiders_are_placed(desk, model)
    evidence.links_only_raise(desk, model)
    opening.opening_can_be_asked(desk, model)
    one_reading.counts_once(desk, model)
    width.inference_stays_exact(desk, model)
