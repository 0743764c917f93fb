"""Breaks to plant in the program, each a plausible slip, for seeing that the laws notice them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime
from math import prod
from pathlib import Path
from typing import Any

import pytest

from sootsayer.belief import elimination
from sootsayer.belief.inference import infer
from sootsayer.belief.network import Beliefs, Evidence, Kind, Network, Observable
from sootsayer.casework.codes import code_values
from sootsayer.casework.corrections import Statement, statements
from sootsayer.casework.model import Absence, Case, Entry, Fact
from sootsayer.documents.problems import Refused
from sootsayer.engine.conditions import NOT_FITTED, Rule, Value
from sootsayer.engine.grounds import minimal_grounds
from sootsayer.engine.program import Program
from sootsayer.judgement.beliefs import network_of
from sootsayer.judgement.findings import soft_levels
from sootsayer.judgement.verdict import ChannelState, FamilySaid
from sootsayer.judgement.views import View
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook import network as rulebook_network
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.network import hiders_in_order, observable_for
from sootsayer.rulebook.reads import members_of

Plant = Callable[[pytest.MonkeyPatch], None]


def swapped(target: str, value: object) -> Plant:
    """Something by its dotted name replaced; it must be there."""
    return lambda patch: patch.setattr(target, value)


def wrapped(target: str, change: Callable[..., Any]) -> Plant:
    """A function by its dotted name whose result is changed: `change(result, *arguments)`."""

    def plant(patch: pytest.MonkeyPatch) -> None:
        module, _, name = target.rpartition(".")
        real = getattr(__import__(module, fromlist=[name]), name)

        def changed(*args: Any, **kwargs: Any) -> Any:
            return change(real(*args, **kwargs), *args)

        patch.setattr(target, changed)

    return plant


# Law 1


def hiders_as_written(model: Model, channels: Sequence[str]) -> tuple[str, ...]:
    """Hiders in the order in which they stand in the files, not the nearest first."""
    found = hiders_in_order(model, channels)
    return tuple(sorted(found, key=lambda name: model.faults[name].place.line))


def three_facts_an_entry(case: Case, as_of: int | None = None) -> tuple[Statement, ...]:
    """Only the first three facts of an entry count."""
    short = tuple(replace(entry, said=entry.said[:3]) for entry in case.entries)
    return statements(replace(case, entries=short), as_of)


# Laws 2 and 3


def missing_as_false(patch: pytest.MonkeyPatch) -> None:
    """The engine takes what it does not know for false."""
    real = Program.run

    def run(self: Program, *args: Any, **kwargs: Any) -> dict[str, Value]:
        return {
            name: False if value is None and isinstance(self.definitions.get(name), Rule) else value
            for name, value in real(self, *args, **kwargs).items()
        }

    patch.setattr(Program, "run", run)


def never_taken_back(case: Case, as_of: int | None = None) -> tuple[Statement, ...]:
    """An answer corrected to "not asked" stays as it was."""

    def without(entry: Entry) -> Entry:
        kept = tuple(s for s in entry.said if s.absence is not Absence.NOT_ASKED)
        return replace(entry, said=kept)

    return statements(replace(case, entries=tuple(map(without, case.entries))), as_of)


def not_known_as_not_fitted(fact: Fact, *_: object) -> Fact:
    """Who does not know whether it holds says that the thing is not there."""
    return replace(fact, value=NOT_FITTED) if fact.absence is Absence.DO_NOT_KNOW else fact


def every_list_complete(patch: pytest.MonkeyPatch) -> None:
    """A list of trouble codes read in part counts as read to its end."""

    def whole(case: Case, *args: Any) -> Any:
        entries = tuple(
            e if e.codes is None else replace(e, codes=replace(e.codes, complete=True))
            for e in case.entries
        )
        return code_values(replace(case, entries=entries), *args)

    patch.setattr("sootsayer.judgement.codes.code_values", whole)


# Law 4


def all_inputs_as_grounds(work: Workings, name: str, seen: View) -> tuple[str, ...]:
    """Everything that a rule read, whether it mattered or not."""
    program, values = work.rulebook.program, seen.before(name)
    if not minimal_grounds(program, values, work.limits, name):
        return ()
    return tuple(sorted(s for s in program.cone_given(name, values) if values.get(s) is not None))


def without_grounds(faults: Any, *_: object) -> Any:
    """What speaks for a fault stands there without what it rests on."""
    return tuple(
        replace(fault, for_=tuple(replace(share, grounds=()) for share in fault.for_))
        for fault in faults
    )


# Law 5

EVERY_STATE = tuple(ChannelState)


def untested_is_proven(
    failed: set[str], correcting: set[str], unsettled: Sequence[str]
) -> ChannelState:
    """An instrument is proven until a test of it fails."""
    del unsettled
    if failed - correcting:
        return ChannelState.DISTRUSTED
    return ChannelState.CORRECTED if failed else ChannelState.PROVEN


# Law 6


def every_member_speaks(
    work: Workings, families: Sequence[FamilySaid]
) -> tuple[Network, dict[str, tuple[float, ...]]]:
    """Each known member of a family counts as evidence of its own."""
    whole, evidence = network_of(work, families)
    more: list[Observable] = []
    for family in families:
        if family.id not in evidence:
            continue
        for member in members_of(work.model, family.id):
            if member != family.speaker and work.derived[member] is not None:
                more.append(replace(observable_for(work.model, family.id, member), id=member))
                evidence[member] = soft_levels(work, work.model.findings[member])
    return replace(whole, observables=(*whole.observables, *more)), evidence


# Law 7


def hiding_is_one_more_sight(patch: pytest.MonkeyPatch) -> None:
    """A hider's spread is multiplied with what the others show, instead of replacing it."""
    real = rulebook_network._observable

    def observable(*args: Any) -> Observable:
        seen = real(*args)
        return replace(seen, seen=(*seen.seen, *seen.hidden_by), hidden_by=())

    patch.setattr(rulebook_network, "_observable", observable)


# Law 9


def priors_dropped(network: Network, evidence: Evidence) -> Beliefs:
    """Every fault is taken to be as likely as not beforehand."""
    return infer(
        replace(network, faults=tuple(replace(f, prior=0.5) for f in network.faults)), evidence
    )


def silently_narrowed(network: Network, evidence: Evidence) -> Beliefs:
    """Evidence that ties a knot is dropped, and nobody told."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(elimination, "WIDEST", 3)
        return replace(infer(network, evidence), exact=True, low=None, high=None)


def none_as_if_independent(network: Network, evidence: Evidence) -> Beliefs:
    """That there is no fault of a kind is reckoned as if faults knew nothing of each other."""
    found = infer(network, evidence)
    none = {
        kind: prod(1 - found.posteriors[f.id] for f in network.faults if f.kind is kind)
        for kind in Kind
    }
    return replace(found, none=none)


# Law 10


def with_the_clock(told: dict[str, object], *_: object) -> dict[str, object]:
    """The verdict says when it was printed."""
    return {**told, "printed": datetime.now().isoformat()}


ORDER_OF_A_SET = """
import sootsayer.judgement.judge as judge
real = judge.faults_said
judge.faults_said = lambda *args: tuple(sorted(real(*args), key=lambda f: hash(f.id)))
"""


# Law 12


def reading_leaves_a_trace(case: Case, *_: object) -> Case:
    """Reading a case writes something beside it."""
    Path(case.file).with_suffix(".seen").write_text("seen", encoding="utf-8")
    return case


def trips_over(*_: object) -> Case:
    """A slip of the program itself, on a good case."""
    raise TypeError("'NoneType' object is not subscriptable")


def refuses_in_silence(run: Callable[[], int]) -> int:
    """A file that is refused ends the program without a word."""
    try:
        return run()
    except Refused:
        return 2
