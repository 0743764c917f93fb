"""Everything worked out about a case, from which the verdict and every why are told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime

from sootsayer.casework.corrections import works
from sootsayer.casework.model import Case, Entry, Fact, FactSheet
from sootsayer.engine.conditions import Value
from sootsayer.engine.grounds import Grounds, Waits
from sootsayer.judgement.codes import code_facts
from sootsayer.judgement.limits import in_force
from sootsayer.judgement.rounds import round_facts
from sootsayer.judgement.trust import TrustFound
from sootsayer.judgement.verdict import LimitUsed
from sootsayer.judgement.views import View
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.shop import Shop

# By the id of a view, which is kept beside the answer so that its id stays its own.
Asked = dict[tuple[str, int, str], tuple[View, tuple[str, ...]]]


@dataclass(frozen=True, slots=True)
class Workings:
    """The newest round's views, and what the rulebook derives from them.

    `derived` is what it derives from `trusted`, `would_be` from `full`. A channel test has in
    both what its own channel's facts say, and a finding that keeps to a round what that
    round's facts say; `decided_in` has the view of each of these. `last_work`: the newest
    work on the vehicle. `soft`: level weights of findings; `asked`: what slots rest on and wait
    for in a view, `waits` and `rests` what looks into that, all as far as already worked out.
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
    decided_in: Mapping[str, View]
    last_work: Entry | None
    shop: Shop | None
    soft: dict[str, tuple[float, ...]] = field(default_factory=dict, compare=False)
    asked: Asked = field(default_factory=dict, compare=False)
    waits: dict[int, Waits] = field(default_factory=dict, compare=False)
    rests: dict[int, Grounds] = field(default_factory=dict, compare=False)

    @property
    def model(self) -> Model:
        return self.rulebook.model

    def view_of(self, name: str) -> View:
        """The view in which derived slot `name` was decided."""
        return self.decided_in.get(name, self.trusted)


def work_out(
    case: Case,
    rulebook: Rulebook,
    now: datetime,
    as_of: int | None,
    shop: Shop | None = None,
) -> Workings:
    """Facts, limits, channels and everything derived, as of entry `as_of` (None: the last)."""
    model, program = rulebook.model, rulebook.program
    limits_used = in_force(case, model, shop)
    limits = {used.id: used.value for used in limits_used}
    codes = code_facts(case, model, as_of, limits)
    newest = round_facts(case, rulebook, limits, codes, as_of)
    kept = _kept_to_rounds(case, rulebook, limits, codes, as_of)
    decided = {name: value for name, (value, _) in kept.items()}
    full, trusted = newest.full.given(decided), newest.trusted.given(decided)
    done = works(case, as_of)
    derived = program.run(trusted.values, limits)
    alike = full.values == trusted.values  # where no instrument is distrusted
    would_be = derived if alike else program.run(full.values, limits)
    return Workings(
        case=case,
        rulebook=rulebook,
        now=now,
        sheet=newest.sheet,
        codes=codes,
        limits=limits,
        limits_used=limits_used,
        found=newest.found,
        full=full,
        trusted=trusted,
        proven=newest.proven.given(decided),
        derived={**derived, **newest.found.tests, **decided},
        would_be={**would_be, **newest.found.tests, **decided},
        decided_in={
            **{name: tested.view for name, tested in newest.found.by_test.items()},
            **{name: seen for name, (_, seen) in kept.items()},
        },
        last_work=done[-1][0] if done else None,
        shop=shop,
        soft={
            name: tested.soft[name]
            for name, tested in newest.found.by_test.items()
            if name in tested.soft and name not in kept
        },
    )


def _kept_to_rounds(
    case: Case,
    rulebook: Rulebook,
    limits: Mapping[str, float],
    codes: Mapping[str, Fact],
    as_of: int | None,
) -> dict[str, tuple[Value, View]]:
    """The findings that keep to a named round: their value, and the view that they saw."""
    by_round: dict[str, list[str]] = {}
    for finding in rulebook.model.findings.values():
        if finding.in_round is not None:
            by_round.setdefault(finding.in_round, []).append(finding.id)
    kept: dict[str, tuple[Value, View]] = {}
    for name, findings in sorted(by_round.items()):
        facts = round_facts(case, rulebook, limits, codes, as_of, in_round=name)
        values = rulebook.program.run(facts.trusted.values, limits, only=findings)
        kept.update({f: (values[f], facts.trusted) for f in findings})
    return kept
