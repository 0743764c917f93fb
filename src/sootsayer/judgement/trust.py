"""The instrument first: the state of every channel, from its own tests alone.

A test of a channel sees the facts that came through that channel, and of other signals only
what is not distrusted; so channels are settled one after the other, in the order in which
their tests read each other.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sootsayer.casework.model import Fact, FactSheet
from sootsayer.engine.conditions import Value
from sootsayer.engine.program import Program
from sootsayer.judgement.softness import borderline, weights
from sootsayer.judgement.verdict import ChannelState
from sootsayer.judgement.views import Trust, View, view
from sootsayer.rulebook.memory import remembered
from sootsayer.rulebook.model import Channel, FindingDef, Model


@dataclass(frozen=True, slots=True)
class Tested:
    """One channel's tests: their values, the view they saw, and what follows.

    `soft`: of those that are known the weight of either level, as far as the reading's error goes.
    `unsettled` are required tests that are unknown or borderline.
    """

    channel: str
    state: ChannelState
    zero: Fact | None
    view: View
    values: Mapping[str, Value]
    soft: Mapping[str, tuple[float, ...]]
    failed: tuple[str, ...]
    unsettled: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TrustFound:
    """All channels settled: `tests` has the value of every test finding, `by_test` who saw it."""

    trust: Trust
    channels: Mapping[str, Tested]
    tests: Mapping[str, Value]
    by_test: Mapping[str, Tested]


def settle(
    model: Model,
    program: Program,
    sheet: FactSheet,
    codes: Mapping[str, Fact],
    limits: Mapping[str, float],
) -> TrustFound:
    """The state of every channel."""
    trust = Trust({}, {})
    channels: dict[str, Tested] = {}
    tests: dict[str, Value] = {}
    by_test: dict[str, Tested] = {}
    for channel in in_order(model, program):
        seen = _test(model, program, sheet, codes, limits, trust, tests, channel)
        channels[channel.id] = seen
        tests.update(seen.values)
        by_test.update(dict.fromkeys(seen.values, seen))
        zeros = dict(trust.zeros)
        if seen.zero is not None:
            zeros[channel.id] = seen.zero
        trust = Trust({**trust.states, channel.id: seen.state}, zeros)
    return TrustFound(trust, channels, tests, by_test)


def in_order(model: Model, program: Program) -> tuple[Channel, ...]:
    """Channels so that each comes after those whose facts its tests read; ties by id.

    Two that test each other are refused by the rulebook, so this ends.
    """
    needs = {c: _reads_channels(model, program, c) - {c} for c in model.channels}
    done: list[str] = []
    while len(done) < len(needs):
        ready = sorted(c for c in needs if c not in done and needs[c] <= set(done))
        done.append(ready[0] if ready else min(set(needs) - set(done)))
    return tuple(model.channels[c] for c in done)


def _reads_channels(model: Model, program: Program, channel: str) -> set[str]:
    found: set[str] = set()
    for test in _tests_of(model, channel):
        for slot in program.reads(test.id):
            signal = model.signals.get(slot.partition("@")[0])
            found.update(signal.channels.values() if signal else ())
    return found


def _tests_of(model: Model, channel: str) -> tuple[FindingDef, ...]:
    return remembered(
        model,
        ("tests of", channel),
        lambda: tuple(f for f in model.findings.values() if f.tests_channel == channel),
    )


def _test(
    model: Model,
    program: Program,
    sheet: FactSheet,
    codes: Mapping[str, Fact],
    limits: Mapping[str, float],
    trust: Trust,
    decided: Mapping[str, Value],
    channel: Channel,
) -> Tested:
    own = _signals_through(model, channel.id)
    seen = with_codes(view(sheet, model, lambda f: _may_test(own, trust, channel.id, f)), codes)
    seen = seen.given(decided)
    tests = _tests_of(model, channel.id)
    names = tuple(test.id for test in tests)
    run = program.run(seen.values, limits, only=names)
    values = {name: run[name] for name in names}
    soft = {
        t.id: weights(program, seen, limits, t.id, t.levels, values[t.id])
        for t in tests
        if values[t.id] is not None
    }
    close = {name for name, each in soft.items() if borderline(each)}
    failed = tuple(n for n in names if values[n] is True and n not in close)
    zero = _zero(tests, failed, seen)
    correcting = {t.id for t in tests if t.corrects_by is not None and zero is not None}
    unsettled = tuple(
        n
        for n in channel.proven_by
        if n not in failed and (values.get(n) is not False or n in close)
    )
    state = _state(set(failed), correcting, unsettled)
    kept = zero if state is ChannelState.CORRECTED else None
    return Tested(channel.id, state, kept, seen, values, soft, failed, unsettled)


def with_codes(seen: View, codes: Mapping[str, Fact]) -> View:
    """The view with what the trouble-code list says."""
    values = {slot: fact.value for slot, fact in codes.items()}
    return View({**seen.facts, **codes}, {**seen.values, **values})


def _signals_through(model: Model, channel: str) -> frozenset[str]:
    """The signals that may come through a channel."""
    return remembered(
        model,
        ("signals through", channel),
        lambda: frozenset(s.id for s in model.signals.values() if channel in s.channels.values()),
    )


def _may_test(own: frozenset[str], trust: Trust, channel: str, fact: Fact) -> bool:
    if fact.slot.partition("@")[0] in own:
        return fact.channel == channel
    return not trust.distrusted(fact)


def _zero(tests: Sequence[FindingDef], failed: Sequence[str], seen: View) -> Fact | None:
    for test in tests:
        if test.id in failed and test.corrects_by is not None:
            fact = seen.facts.get(test.corrects_by)
            if fact is not None and isinstance(fact.value, float):
                return fact
    return None


def _state(failed: set[str], correcting: set[str], unsettled: Sequence[str]) -> ChannelState:
    if failed - correcting:
        return ChannelState.DISTRUSTED
    if unsettled:
        return ChannelState.UNPROVEN
    return ChannelState.CORRECTED if failed else ChannelState.PROVEN
