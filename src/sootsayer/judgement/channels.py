"""The instruments as a verdict tells of them."""

from __future__ import annotations

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
                zero=None if tested.zero is None else six(tested.zero),
            )
        )
    return tuple(said)
