"""Everything worked out about a case, from which the verdict and every why are told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from sootsayer.casework.facts import fact_sheet
from sootsayer.casework.model import Case, Fact, FactSheet
from sootsayer.engine.conditions import Value
from sootsayer.judgement.codes import code_facts
from sootsayer.judgement.limits import in_force
from sootsayer.judgement.trust import TrustFound, settle, with_codes
from sootsayer.judgement.verdict import LimitUsed
from sootsayer.judgement.views import View, view
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.model import Model


@dataclass(frozen=True, slots=True)
class Workings:
    """`full` sees distrusted facts too, `trusted` does not, `proven` only settled channels.

    `derived` is what the rulebook derives from `trusted`, `would_be` from `full`; of a channel
    test both have what its own channel's facts say.
    """

    case: Case
    rulebook: Rulebook
    now: datetime
    sheet: FactSheet
    codes: Mapping[str, Fact]
    limits: Mapping[str, float]
    limits_used: tuple[LimitUsed, ...]
    found: TrustFound
    full: View
    trusted: View
    proven: View
    derived: Mapping[str, Value]
    would_be: Mapping[str, Value]

    @property
    def model(self) -> Model:
        return self.rulebook.model

    def view_of(self, name: str) -> View:
        """The view in which derived slot `name` was decided."""
        tested = self.found.by_test.get(name)
        return self.trusted if tested is None else tested.view


def work_out(case: Case, rulebook: Rulebook, now: datetime, as_of: int | None) -> Workings:
    """Facts, limits, channels and everything derived, as of entry `as_of` (None: the last)."""
    model, program = rulebook.model, rulebook.program
    sheet = fact_sheet(case, model, as_of)
    limits_used = in_force(case, model)
    limits = {used.id: used.value for used in limits_used}
    codes = code_facts(case, model, as_of, limits)
    found = settle(model, program, sheet, codes, limits)
    full, trusted, proven = _views(model, sheet, codes, found)
    derived = program.run(trusted.values, limits)
    would_be = program.run(full.values, limits)
    return Workings(
        case=case,
        rulebook=rulebook,
        now=now,
        sheet=sheet,
        codes=codes,
        limits=limits,
        limits_used=limits_used,
        found=found,
        full=full,
        trusted=trusted,
        proven=proven,
        derived={**derived, **found.tests},
        would_be={**would_be, **found.tests},
    )


def zeroed_signals(model: Model) -> dict[str, str]:
    """Channel to the signal whose readings have its zero removed."""
    return {
        finding.tests_channel: finding.corrects_by.partition("@")[0]
        for finding in model.findings.values()
        if finding.tests_channel is not None and finding.corrects_by is not None
    }


def _views(
    model: Model, sheet: FactSheet, codes: Mapping[str, Fact], found: TrustFound
) -> tuple[View, View, View]:
    zeroed = zeroed_signals(model)
    trust = found.trust

    def corrected(fact: Fact) -> Fact:
        return trust.corrected(fact, zeroed)

    trusted = view(sheet, lambda f: not trust.distrusted(f), corrected)
    proven = view(sheet, trust.settled, corrected)
    doubted = view(sheet, trust.distrusted)
    full = View({**doubted.facts, **trusted.facts}, {**doubted.values, **trusted.values})
    return (
        with_codes(full, codes).given(found.tests),
        with_codes(trusted, codes).given(found.tests),
        with_codes(proven, codes).given(found.tests),
    )
