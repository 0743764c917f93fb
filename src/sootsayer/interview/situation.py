"""What the choice of the next check needs to know of a case, as plain data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sootsayer.casework.model import Source
from sootsayer.rulebook.memory import remembered
from sootsayer.rulebook.model import Check, Model, Where

STAGES = (Where.COUNTER, Where.SCAN, Where.HANDS_ON)


@dataclass(frozen=True, slots=True)
class Situation:
    """Where a case stands.

    `stage`: where the technician is. `asked`: slots of which something is said already, a
    value or why there is none. `awaits`: each finding that is unknown and not set aside, to
    the open slots that it waits for. `speakers`: families that have one. `ruled_out`: checks
    that do not apply; `later`: checks put off. `tools`: those at hand, None for all.
    `before_action`: for each action the checks that have to be done before it is clear: none
    where it is clear, None where it is forbidden, or no check would clear it. `distrusted`:
    channels whose readings are set aside.
    """

    model: Model
    stage: Where
    asked: frozenset[str]
    awaits: Mapping[str, tuple[str, ...]]
    speakers: Mapping[str, str]
    ruled_out: frozenset[str] = frozenset()
    later: frozenset[str] = frozenset()
    tools: frozenset[str] | None = None
    before_action: Mapping[str, tuple[str, ...] | None] | None = None
    distrusted: frozenset[str] = frozenset()


# Minutes for getting from one stage to another: plugging in, lifting, washing hands again.
MOVING = {
    (Where.COUNTER, Where.SCAN): 2.0,
    (Where.COUNTER, Where.HANDS_ON): 6.0,
    (Where.SCAN, Where.HANDS_ON): 4.0,
    (Where.SCAN, Where.COUNTER): 1.0,
    (Where.HANDS_ON, Where.COUNTER): 2.0,
    (Where.HANDS_ON, Where.SCAN): 2.0,
}


def moving_minutes(start: Where, end: Where) -> float:
    """Minutes that going from one stage to another costs; 0 for staying."""
    return MOVING.get((start, end), 0.0)


def source_of(check: Check) -> Source:
    """The source that a check's answers have, unless the technician says otherwise."""
    return Source.SCAN if check.where is Where.SCAN else Source.TECHNICIAN


def channel_of(model: Model, check: Check, slot: str) -> str:
    """The channel that the check reads the slot through, "" where the signal has none."""
    return remembered(model, ("through", check.id, slot), lambda: _channel_of(model, check, slot))


def _channel_of(model: Model, check: Check, slot: str) -> str:
    signal = model.signals.get(slot.partition("@")[0])
    if signal is None:
        return ""
    channels, source = signal.channels, source_of(check)
    gauge = channels.get(Source.GAUGE.value) if check.where is Where.HANDS_ON else None
    named = gauge or channels.get(source.value) or channels.get("")
    return named or channels.get(Source.SCAN.value) or next(iter(channels.values()), "")
