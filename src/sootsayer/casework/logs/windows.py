"""Windows as found, summarised, with what speaks against taking them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sootsayer.casework.logs.channel import Channel
from sootsayer.casework.logs.model import RAISED_IDLE, Summary, Window
from sootsayer.casework.logs.state import Levels
from sootsayer.casework.logs.steady import Found
from sootsayer.casework.logs.words import COOLANT, DP, RPM, SPEED
from sootsayer.catalogue import say
from sootsayer.catalogue_numbers import figure, fixed

WANTED = {"rest": 30.0, "idle": 60.0, "cold-idle": 60.0, "1500": 30.0, "2000": 30.0,
          "2500": 30.0, "3000": 30.0, "road": 300.0}  # fmt: skip
"""s that the point's conditions ask for."""
_HOT_POINTS = frozenset({"1500", "2000", "2500", "3000", "pull", "road"})
_STANDING_POINTS = frozenset({"idle", "cold-idle", "1500", "2000", "2500", "3000"})
_DRIFT_SHARE = 0.10


@dataclass(frozen=True, slots=True)
class Seen:
    """What the windows are judged with: the channels in their order, and the levels."""

    channels: Sequence[Channel]
    levels: Levels

    def has(self, role: str) -> bool:
        return any(channel.role.id == role for channel in self.channels)


def summarised(found: Sequence[Found], seen: Seen) -> tuple[Window, ...]:
    """The windows, numbered from 1 in the order of time; frozen channels are left out."""
    return tuple(_window(number, one, seen) for number, one in enumerate(found, start=1))


def _window(number: int, found: Found, seen: Seen) -> Window:
    duration = found.ends - found.begins
    channels: dict[str, Summary] = {}
    doubts: list[str] = []
    for channel, sums in zip(seen.channels, found.sums, strict=True):
        if not sums.n:
            continue
        if channel.frozen_between(found.first_line, found.last_line):
            doubts.append(say("{name} is frozen and left out", name=channel.role.id))
            continue
        channels[channel.role.id] = sums.summary(channel.unit, channel.step, duration)
    doubts += _doubts(found.point, duration, channels, seen)
    return Window(
        number, found.point, found.regeneration, found.begins, found.ends, found.first_line,
        found.last_line, channels, _apart(found, channels, seen), tuple(doubts),
    )  # fmt: skip


def _apart(found: Found, channels: dict[str, Summary], seen: Seen) -> str:
    """Why a window is kept apart; "" where it may be taken."""
    if found.regeneration:
        return say("a regeneration runs: no verdict from its pressure")
    if found.point == RAISED_IDLE:
        return say("raised idle: a cold engine or a regeneration, and no point of any rule")
    coolant = channels.get(COOLANT)
    if found.point in _HOT_POINTS and coolant and coolant.mean < seen.levels.hot - 5.0:
        return say("the engine is not hot: coolant {celsius} C", celsius=fixed(coolant.mean))
    return ""


def _doubts(point: str, duration: float, channels: dict[str, Summary], seen: Seen) -> list[str]:
    doubts: list[str] = []
    wanted = WANTED.get(point, 0.0)
    if duration < wanted - 10.0:
        doubts.append(
            say(
                "short: {read} s of the {wanted} s that the point asks for",
                read=fixed(duration),
                wanted=fixed(wanted),
            )
        )
    if point != "rest" and not seen.has(COOLANT):
        doubts.append(say("nothing shows that the engine is hot: no column of coolant"))
    if point in _STANDING_POINTS and not seen.has(SPEED):
        doubts.append(say("nothing shows that the vehicle stands: no column of road speed"))
    dp, rpm = channels.get(DP), channels.get(RPM)
    if dp and dp.n >= 10 and abs(dp.drift) > max(_DRIFT_SHARE * abs(dp.mean), 2.0 * dp.spread, 2.0):
        moved = say(
            "dp still moves: {drift} mbar from beginning to end", drift=figure(f"{dp.drift:+.1f}")
        )
        doubts.append(moved)
    if rpm and dp and dp.n * 20 < rpm.n:
        doubts.append(say("few readings of dp in it"))
    return doubts
