"""The instruments as a verdict tells of them."""

from __future__ import annotations

from sootsayer.casework.model import Fact
from sootsayer.judgement.rounding import six
from sootsayer.judgement.verdict import ChannelSaid
from sootsayer.judgement.workings import Workings


def channels_said(work: Workings) -> tuple[ChannelSaid, ...]:
    """Every channel, by id."""
    said = []
    for channel in work.model.channels.values():
        tested = work.found.channels[channel.id]
        said.append(
            ChannelSaid(
                id=channel.id,
                label=channel.label,
                state=tested.state,
                failed=tested.failed,
                awaits=tested.unsettled,
                zero=_number(tested.zero),
            )
        )
    return tuple(said)


def _number(zero: Fact | None) -> float | None:
    return six(zero.value) if zero is not None and isinstance(zero.value, float) else None
