"""Channels: tests declared on both sides, and none that test each other."""

from __future__ import annotations

from sootsayer.catalogue import say
from sootsayer.rulebook.desk import Desk
from sootsayer.rulebook.model import FindingDef, Model
from sootsayer.rulebook.reads import facts_behind, slot_channels

TESTS_NOT = '"{channel}" is proven by "{finding}", which does not test it'
EACH_OTHER = (
    '"{first}" and "{second}" test each other: "{first_test}" reads through the second and '
    '"{second_test}" ({place}) through the first'
)


def tests_are_declared(desk: Desk, model: Model) -> None:
    """What a channel is `proven by` tests it.

    The other way round there may be more: a test that proves nothing may still fail.
    """
    for channel in model.channels.values():
        for name in channel.proven_by:
            test = model.findings.get(name)
            if test is not None and test.tests_channel != channel.id:
                desk.wrong(
                    channel.place,
                    say(TESTS_NOT, channel=channel.id, finding=name),
                    say(
                        "add `tests channel: {channel}` at {place}",
                        channel=channel.id,
                        place=test.place,
                    ),
                )


def none_test_each_other(desk: Desk, model: Model) -> None:
    """No channel is tested through a second one that is tested through the first."""
    tests = [each for each in model.findings.values() if each.tests_channel in model.channels]
    through = {each.id: _through(model, each) for each in tests}
    for first in tests:
        for second in tests:
            if (
                first.id < second.id
                and second.tests_channel in through[first.id]
                and first.tests_channel in through[second.id]
            ):
                desk.wrong(
                    desk.places["tests", first.id],
                    say(
                        EACH_OTHER,
                        first=first.tests_channel,
                        second=second.tests_channel,
                        first_test=first.id,
                        second_test=second.id,
                        place=second.place,
                    ),
                    say("let one of them be tested by readings of its own"),
                )


def _through(model: Model, test: FindingDef) -> set[str]:
    """The channels that the test needs besides its own: of signals that cannot come by it."""
    found: set[str] = set()
    for slot in facts_behind(model, test.id):
        channels = slot_channels(model, slot)
        if test.tests_channel not in channels:
            found.update(channels)
    return found
