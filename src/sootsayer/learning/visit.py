"""A whole visit drawn: the faults, what every finding then says, and facts that show it.

Pure but for the generator that is passed in. Used where somebody has to be asked: the bench of
the questionnaire, the shop's measurements, synthetic cases.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from random import Random

from sootsayer.belief.network import Network
from sootsayer.engine.conditions import Value
from sootsayer.judgement.softness import as_level
from sootsayer.judgement.workings import work_out
from sootsayer.learning.behind import REFERENCE, Behind
from sootsayer.learning.case_of_facts import MADE_AT, case_of
from sootsayer.learning.clear_proofs import clear_proofs
from sootsayer.learning.draw import Drawn, draw
from sootsayer.learning.outcomes import outcomes_of
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.network import whole_network
from sootsayer.rulebook.reads import family_of, members_of


@dataclass(frozen=True, slots=True)
class DrawnVisit:
    """One vehicle, and what could be found out about it.

    `faults`: ids of those present. `outcomes`: of every finding with evidence, the level drawn,
    as a word (`true` and `false` of a binary one). `facts`: slot to value, as they would be
    entered: readings in the signals' own units, with the zero of their instrument still in them,
    and `code:P2463` true or false for every code that a rule names.

    What would have shown an outcome but contradicts other facts was left out. `unknown`: the
    findings that therefore say nothing; `contrary`: those that say something else, because facts
    laid for others decide them as well. A finding set aside with its instrument is in neither.
    """

    faults: frozenset[str]
    outcomes: Mapping[str, str]
    facts: Mapping[str, Value]
    unknown: tuple[str, ...]
    contrary: tuple[str, ...]


@dataclass(slots=True)
class _Laid:
    """Facts laid so far: as the engine sees them (zero removed), and which carry a zero."""

    values: dict[str, Value]
    raw: set[str]


class Visits:
    """Draws visits from one rulebook; what does not change from vehicle to vehicle is kept.

    `usual`: by slot, what a reading is taken to be where a quantity needs it and nothing else
    says: one reference vehicle in the units of its signals.
    """

    def __init__(self, rulebook: Rulebook, usual: Mapping[str, float] = REFERENCE) -> None:
        self.rulebook = rulebook
        self.network: Network = whole_network(rulebook.model)
        model, program = rulebook.model, rulebook.program
        self._limits = {limit.id: limit.default for limit in model.limits.values()}
        self._behind = Behind(model, usual)
        self._order = _laying_order(rulebook)
        self._reads = {name: program.reads(name) for name in self._order}
        self._readings = {name: self._behind.readings(slots) for name, slots in self._reads.items()}
        self._readers: dict[str, list[str]] = {}
        for name, slots in self._reads.items():
            for slot in slots:
                self._readers.setdefault(slot, []).append(name)
        self._proofs = {
            name: clear_proofs(rulebook, model.findings[name], self._limits) for name in self._order
        }

    def draw(self, random: Random) -> DrawnVisit:
        """One visit. Its faults and the levels of the families are those of `draw`."""
        return self.dressed(draw(self.network, random), random)

    def dressed(
        self, drawn: Drawn, random: Random, given: Mapping[str, Value] | None = None
    ) -> DrawnVisit:
        """Facts for a vehicle already drawn from this rulebook's network.

        `given`: facts already known, as entered. They stay as they are; a finding that they
        alone decide has no outcome drawn, and no fact is laid for it.
        """
        given = {} if given is None else given
        outcomes = {
            name: level
            for name, level in outcomes_of(self.rulebook.model, drawn, random).items()
            if not given or not self._readings[name] <= given.keys()
        }
        laid = _Laid(dict(given), set(given))
        told: dict[str, str] = {}
        # Twice: what no proof could be found for may by then be shown by the facts of others.
        for name in 2 * sorted(outcomes, key=lambda name: self._turn(name, outcomes[name])):
            if name not in told and self._lay(name, outcomes, laid, told, random):
                told[name] = outcomes[name]
        facts = self._entered(laid, outcomes)
        unknown, contrary = self._not_shown(facts, outcomes)
        return DrawnVisit(drawn.faults, outcomes, facts, unknown, contrary)

    def _not_shown(
        self, facts: Mapping[str, Value], outcomes: Mapping[str, str]
    ) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """The findings that, judged from the facts, say nothing, and those that say otherwise."""
        work = work_out(case_of(self.rulebook.model, facts), self.rulebook, MADE_AT, None)
        unknown, contrary = [], []
        for name, level in sorted(outcomes.items()):
            says = as_level(work.derived[name])
            if says is None and work.would_be[name] is None:
                unknown.append(name)
            elif says not in (None, level):
                contrary.append(name)
        return tuple(unknown), tuple(contrary)

    def _turn(self, name: str, level: str) -> tuple[bool, bool, int, int]:
        """When a finding is laid: instruments that fail a test first, for they are rare and
        tell most; then what is graded, best member first; then what looks at fewest facts, and
        last what, graded by itself or not, is asked only where something else allows it."""
        finding = self.rulebook.model.findings[name]
        failed = finding.tests_channel is not None and level == "true"
        # "How much?" by itself would make "is it so?" true; a family is judged in any vehicle.
        alone = family_of(self.rulebook.model, name) == name
        freely = finding.graded and not (finding.applies and alone)
        rank = 0 if freely else len(self._reads[name]) + 100 * bool(finding.applies)
        return not failed, not freely, rank, self._order.index(name)

    def _lay(
        self,
        name: str,
        outcomes: Mapping[str, str],
        laid: _Laid,
        told: Mapping[str, str],
        random: Random,
    ) -> bool:
        """Whether the facts now show the finding as drawn: as they are, or with a proof's.

        Of the proofs that fit all that is told already, one that speaks against fewest of the
        other outcomes is taken.
        """
        level = outcomes[name]
        if self._says(name, laid.values) == level:
            return True
        proofs = self._proofs[name].get(level, ())
        mixed = random.sample(proofs, len(proofs))
        best: tuple[int, dict[str, Value]] | None = None
        for values in (*mixed, *(_shifted(values, laid.values) for values in mixed)):
            more = self._behind.facts(values, laid.values)
            if more is None:
                continue
            wrong = self._against(more, laid.values, outcomes)
            if name in wrong or wrong & told.keys():
                continue
            if best is None or len(wrong) < best[0]:
                best = len(wrong), more
        if best is None or self._says(name, {**laid.values, **best[1]}) != level:
            return False
        if self._zero_of(name) is not None:
            laid.raw |= best[1].keys() - laid.values.keys()
        laid.values.update(best[1])
        return True

    def _against(
        self, more: Mapping[str, Value], there: Mapping[str, Value], outcomes: Mapping[str, str]
    ) -> set[str]:
        """The findings that more facts would make say something else than was drawn."""
        both = {**there, **more}
        touched = {
            reader
            for slot in more
            if slot not in there
            for reader in self._readers.get(slot, ())
            if reader in outcomes
        }
        return {n for n in touched if self._says(n, both) not in (None, outcomes[n])}

    def _says(self, name: str, values: Mapping[str, Value]) -> str | None:
        return as_level(self.rulebook.program.run(values, self._limits, only=(name,))[name])

    def _zero_of(self, name: str) -> str | None:
        """The slot of a zero that the finding itself reads: what it was shown is raw then."""
        zeros = {f.corrects_by for f in self.rulebook.model.findings.values() if f.corrects_by}
        return next((slot for slot in sorted(zeros) if slot in self._reads[name]), None)

    def _entered(self, laid: _Laid, outcomes: Mapping[str, str]) -> dict[str, Value]:
        """The facts as they would be entered: computed ones away, the zero put back."""
        model = self.rulebook.model
        facts: dict[str, Value] = {
            slot: value
            for slot, value in laid.values.items()
            if slot.partition("@")[0] not in model.quantities
        }
        for code in model.codes:
            facts.setdefault(f"code:{code}", False)
        for finding in model.findings.values():
            zero = facts.get(finding.corrects_by or "")
            if outcomes.get(finding.id) != "true" or not isinstance(zero, float):
                continue
            signal = (finding.corrects_by or "").partition("@")[0]
            for slot in sorted(facts):
                value = facts[slot]
                if slot.partition("@")[0] != signal or slot in laid.raw:
                    continue
                if isinstance(value, float):
                    facts[slot] = value + zero
        return dict(sorted(facts.items()))


def _shifted(values: Mapping[str, Value], there: Mapping[str, Value]) -> dict[str, Value]:
    """A proof's numbers moved alike, so that the first that is already there agrees: a gap
    between two readings is the same gap elsewhere."""
    for slot in sorted(values):
        value, now = values[slot], there.get(slot)
        if isinstance(value, float) and isinstance(now, float) and value != now:
            moved = {s: v + now - value for s, v in values.items() if isinstance(v, float)}
            return {**values, **moved}
    return dict(values)


def _laying_order(rulebook: Rulebook) -> tuple[str, ...]:
    """Findings with evidence: tests of instruments first, then families, best member first."""
    model = rulebook.model
    ranked = sorted(
        (
            model.findings[name].tests_channel is None,
            family_of(model, name),
            members_of(model, family_of(model, name)).index(name),
            name,
        )
        for name in model.findings
        if family_of(model, name) in model.evidence
    )
    return tuple(name for *_, name in ranked)
