"""One round of a case: its facts, its instruments, and the views of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from sootsayer.casework.corrections import works
from sootsayer.casework.facts import fact_sheet
from sootsayer.casework.model import Case, Entry, Fact, FactSheet
from sootsayer.judgement.trust import TrustFound, settle, with_codes
from sootsayer.judgement.views import View, view, with_quantities
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.model import Model

Work = tuple[Entry, str]  # the entry that says it, and the id of the work


@dataclass(frozen=True, slots=True)
class RoundFacts:
    """`full` sees distrusted facts too, `trusted` does not, `proven` only settled channels."""

    sheet: FactSheet
    found: TrustFound
    full: View
    trusted: View
    proven: View


def round_facts(
    case: Case,
    rulebook: Rulebook,
    limits: Mapping[str, float],
    codes: Mapping[str, Fact],
    as_of: int | None,
    in_round: str | None = None,
    worked_until: int | None = None,
) -> RoundFacts:
    """The facts of `in_round`, or of the newest round that has readings.

    `worked_until`: work of later entries is not held against them (None: all work is), so that
    an earlier round reads as it did before an instrument was worked on.
    """
    model = rulebook.model
    done = [
        (entry, work)
        for entry, work in works(case, as_of)
        if worked_until is None or entry.number <= worked_until
    ]
    sheet = without_voided(fact_sheet(case, model, as_of, in_round=in_round), done, model)
    found = settle(model, rulebook.program, sheet, codes, limits)
    full, trusted, proven = _views(model, sheet, codes, found)
    return RoundFacts(sheet, found, full, trusted, proven)


def without_voided(sheet: FactSheet, done: Sequence[Work], model: Model) -> FactSheet:
    """The facts without those of an instrument that has been worked on since.

    Work that voids a channel makes it another instrument: what was read before is not of it.
    """
    voided = [
        (entry, channel)
        for entry, work in done
        if work in model.remedies
        for channel in model.remedies[work].voids
    ]
    if not voided:
        return sheet

    def stands(fact: Fact) -> bool:
        return not any(fact.channel == channel and before(fact, e) for e, channel in voided)

    kept = {slot: tuple(filter(stands, facts)) for slot, facts in sheet.by_source.items()}
    return replace(sheet, by_source={slot: facts for slot, facts in kept.items() if facts})


def before(fact: Fact, entry: Entry) -> bool:
    """Whether the fact was read before the entry was made."""
    return (fact.at, fact.entry) < (entry.at, entry.number)


def _views(
    model: Model, sheet: FactSheet, codes: Mapping[str, Fact], found: TrustFound
) -> tuple[View, View, View]:
    trust = found.trust
    trusted = view(sheet, model, lambda f: not trust.distrusted(f), trust.corrected)
    proven = view(sheet, model, trust.settled, trust.corrected)
    doubted = view(sheet, model, trust.distrusted)
    full = with_quantities({**doubted.facts, **trusted.facts}, model)
    return (
        with_codes(full, codes).given(found.tests),
        with_codes(trusted, codes).given(found.tests),
        with_codes(proven, codes).given(found.tests),
    )
