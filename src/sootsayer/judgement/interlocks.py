"""Every interlock weighed on ever stricter facts: what is trusted, proven, young enough, not close.

Most of these sets of facts are alike in most cases, and are then asked once.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sootsayer.advice.permissions import Permitted, Readings, Reason, weigh
from sootsayer.casework.model import Fact
from sootsayer.engine.conditions import Truth, Value
from sootsayer.judgement.decided import close_ones, decided_by
from sootsayer.judgement.rounds import before
from sootsayer.judgement.softness import worse_ends
from sootsayer.judgement.trust import with_codes
from sootsayer.judgement.views import View, view
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.compiled import applies_slot, interlock_slot
from sootsayer.rulebook.memory import remembered
from sootsayer.rulebook.model import Interlock

Values = Mapping[str, Value]


@dataclass(frozen=True, slots=True)
class Weighed:
    """How an interlock stands, and what it sees of the facts that are young enough for it."""

    state: Permitted
    reason: Reason
    young: View


def weighed(work: Workings) -> dict[str, Weighed]:
    """Every interlock, by id."""
    derived = _Derived(work)
    ends = _Ends(work, derived)
    views = _young_views(work)
    trusted, proven = derived.of(work.trusted), derived.of(work.proven)
    found = {}
    for name, young in views.items():
        holds, applies = interlock_slot(name), applies_slot("interlock", name)
        needed = _truth(trusted[applies]) if applies in trusted else True
        on_all, on_proven = _truth(trusted[holds]), _truth(proven[holds])
        on_young, at_ends = _truth(derived.of(young)[holds]), None
        if on_all is on_proven is on_young is True:  # else nothing asks for the worse ends
            at_ends = ends.truth(holds, young)
        state, reason = weigh(Readings(needed, on_all, on_proven, on_young, at_ends))
        found[name] = Weighed(state, reason, young)
    return found


def _truth(value: Value) -> Truth:
    return value if isinstance(value, bool) else None


class _Derived:
    """What the interlocks read, derived once from views that have the same values."""

    def __init__(self, work: Workings) -> None:
        self._work = work
        self._wanted = _wanted(work)
        self._found: list[tuple[Values, Values]] = [(work.trusted.values, work.derived)]
        self._of: dict[int, tuple[View, Values]] = {}

    def of(self, seen: View) -> Values:
        known = self._of.get(id(seen))
        if known is None:
            known = self._of[id(seen)] = seen, self._from(seen.values)
        return known[1]

    def _from(self, values: Values) -> Values:
        for same, found in self._found:
            if same is values or same == values:
                return found
        work = self._work
        found = work.rulebook.program.run(values, work.limits, only=self._wanted)
        self._found.append((values, found))
        return found


def _wanted(work: Workings) -> frozenset[str]:
    """The slots of all interlocks, and of when they are needed."""
    definitions = work.rulebook.program.definitions

    def make() -> frozenset[str]:
        every = ((interlock_slot(i), applies_slot("interlock", i)) for i in work.model.interlocks)
        return frozenset(slot for pair in every for slot in pair if slot in definitions)

    return remembered(work.model, "interlock slots", make)


class _Ends:
    """What is left of young facts when every reading near a threshold is taken at its worse end."""

    def __init__(self, work: Workings, derived: _Derived) -> None:
        self._work, self._derived = work, derived
        self._close = dict.fromkeys(close_ones(work))
        self._left: dict[int, View] = {}

    def truth(self, name: str, young: View) -> Truth:
        """Whether it holds at all of the ends; None if not, for it may hold."""
        program, limits = self._work.rulebook.program, self._work.limits
        seen = self._without_close(young)
        if self._derived.of(seen)[name] is not True:
            return None
        for values in worse_ends(program, seen, limits, name):
            if program.run(values, limits, only=(name,))[name] is not True:
                return None
        return True

    def _without_close(self, young: View) -> View:
        """Without what was decided by less than the error of its reading."""
        if not self._close:
            return young
        found = self._left.get(id(young))
        if found is None:
            found = self._left[id(young)] = young.given(self._close)
        return found


def _young_views(work: Workings) -> dict[str, View]:
    """What each interlock sees of the facts that are young enough for it."""
    ages = {i.id: _within(work, i) for i in work.model.interlocks.values()}
    minutes = _minutes(work)
    by_age: dict[float | None, View] = {None: work.proven}
    by_old: dict[frozenset[int], View] = {frozenset(): work.proven}  # by what is too old
    for within in dict.fromkeys(ages.values()):
        if within is None:
            continue
        old = frozenset(i for i, age in minutes.items() if age is None or age > within)
        if old not in by_old:
            by_old[old] = _fresh_view(work, old)
        by_age[within] = by_old[old]
    return {name: by_age[within] for name, within in ages.items()}


def _minutes(work: Workings) -> dict[int, float | None]:
    """The age of every fact, by its id."""
    facts = {id(fact): fact for each in work.sheet.by_source.values() for fact in each}
    facts |= {id(fact): fact for fact in work.codes.values()}
    views = {id(seen): seen for seen in work.decided_in.values()}.values()
    facts |= {id(fact): fact for seen in views for fact in seen.facts.values()}
    ages: dict[tuple[int, int], float | None] = {}  # what was entered together is as old
    minutes: dict[int, float | None] = {}
    for i, fact in facts.items():
        entered = id(fact.at), fact.entry
        if entered not in ages:
            ages[entered] = age_of(work, fact)
        minutes[i] = ages[entered]
    return minutes


def _fresh_view(work: Workings, old: frozenset[int]) -> View:
    """What is left without the facts of these ids."""
    trust = work.found.trust
    seen = view(
        work.sheet,
        work.model,
        lambda fact: id(fact) not in old and trust.settled(fact),
        trust.corrected,
    )
    codes = {slot: fact for slot, fact in work.codes.items() if id(fact) not in old}
    return with_codes(seen, codes).given(decided_by(work, old))


def _within(work: Workings, interlock: Interlock) -> float | None:
    """The greatest age in minutes: the shop's own where it has one, else the pack's."""
    own = work.shop.ages.get(interlock.id) if work.shop is not None else None
    return interlock.within_minutes if own is None else own


def age_of(work: Workings, fact: Fact) -> float | None:
    """The age of a fact in minutes; None where it is of a later time, or made old by work."""
    minutes = (work.now - fact.at).total_seconds() / 60
    worked = work.last_work is not None and before(fact, work.last_work)
    return None if worked or minutes < 0 else minutes
