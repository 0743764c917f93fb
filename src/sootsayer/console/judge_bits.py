"""Sentences that the short and the full page of a verdict share."""

from __future__ import annotations

from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.console import judge_texts as t
from sootsayer.console.names import Names
from sootsayer.console.open_points import OpenPoint, ShutPoint
from sootsayer.console.paper import Line, clipped
from sootsayer.console.words import channel_said, level_said, value_said
from sootsayer.judgement.verdict import (
    ChannelSaid,
    ChannelState,
    Contribution,
    DriveOnSaid,
    FindingSaid,
    Ground,
    InterlockSaid,
    PermissionSaid,
    Verdict,
)

DRIVE_ON = "drive-on"


def header(verdict: Verdict, names: Names) -> Said:
    time = verdict.as_of_time.strftime("%Y-%m-%d %H:%M")
    vehicle = names.vehicle or "vehicle"
    if verdict.as_of_entry == 0:
        return say(t.HEADER_EMPTY, case=verdict.case, vehicle=vehicle)
    slots = {"case": verdict.case, "vehicle": vehicle, "entry": verdict.as_of_entry, "time": time}
    if verdict.round is None:
        return say(t.HEADER_NO_ROUND, **slots)
    return say(t.HEADER, **slots, round=verdict.round)


def grounds_short(grounds: tuple[Ground, ...], most: int = 1) -> Said:
    """`34 hPa, entry 2`: the first few, and how many more."""
    parts = [say(t.GROUND, typed=ground.typed, entry=ground.entry) for ground in grounds[:most]]
    if len(grounds) > most:
        return say(t.GROUNDS_MORE, grounds=listed(parts), count=len(grounds) - most)
    return listed(parts)


def ground_full(ground: Ground) -> Said:
    slots = {
        "entry": ground.entry,
        "line": ground.line,
        "label": ground.label,
        "slot": ground.slot,
        "typed": ground.typed,
        "source": ground.source,
    }
    if ground.round is None:
        return say(t.GROUND_FULL_NO_ROUND, **slots)
    return say(t.GROUND_FULL, **slots, round=ground.round)


def reason(lock: InterlockSaid) -> Said:
    """Why an interlock stands as it does, with the first fact it rests on."""
    with_grounds, bare = t.REASON[lock.reason.value]
    if not lock.grounds:
        return say(bare, says=lock.says)
    return say(with_grounds, says=lock.says, grounds=grounds_short(lock.grounds))


def finding_said(says: str, level: str | None) -> Said:
    if level is None:
        return say(t.FINDING_UNKNOWN, says=says)
    if level == "true":
        return say(t.FINDING_TRUE, says=says)
    if level == "false":
        return say(t.FINDING_FALSE, says=says)
    return say(t.FINDING_LEVEL, says=says, level=level)


def contribution(item: Contribution, grounds: int = 1) -> Said:
    """What one family said, where from, and what it was worth."""
    says = finding_said(item.says, item.level)
    if not item.grounds:
        return say(t.WORTH_BARE, says=says, worth=item.word)
    short = grounds_short(item.grounds, grounds)
    return say(t.WORTH, says=says, grounds=short, worth=item.word)


def finding_name(thing: str, verdict: Verdict, names: Names) -> Said:
    """A finding as its own sentence, from the verdict first."""
    says = next((finding.says for finding in verdict.findings if finding.id == thing), None)
    return shown(says) if says else names.of(thing)


def channel_name(thing: str, verdict: Verdict, names: Names) -> Said:
    label = next((channel.label for channel in verdict.channels if channel.id == thing), None)
    return shown(label) if label else names.of(thing)


def family_name(thing: str, verdict: Verdict, names: Names) -> Said:
    label = next((family.label for family in verdict.families if family.id == thing), None)
    return shown(label) if label else finding_name(thing, verdict, names)


def channel_line(
    channel: ChannelSaid, verdict: Verdict, names: Names, *, brief: bool = False
) -> Said:
    """An instrument and why it stands as it does; `brief` leaves out what it still waits for."""
    failed = listed([finding_name(test, verdict, names) for test in channel.failed])
    awaits = listed([finding_name(test, verdict, names) for test in channel.awaits])
    if channel.state is ChannelState.DISTRUSTED and failed:
        return say(t.CHANNEL_FAILED, label=channel.label, tests=failed)
    if channel.state is ChannelState.UNPROVEN and awaits and not brief:
        return say(t.CHANNEL_AWAITS, label=channel.label, tests=awaits)
    if channel.state is ChannelState.CORRECTED:
        if channel.zero is None:
            return say(t.CORRECTED_BARE, label=channel.label)
        zero = value_said(channel.zero, names.zero_units.get(channel.id))
        return say(t.CHANNEL["corrected"], label=channel.label, zero=zero)
    return say(t.CHANNEL[channel_said(channel.state)], label=channel.label)


def aside_line(channel: str, findings: list[FindingSaid], verdict: Verdict, names: Names) -> Said:
    """What one distrusted instrument cost: its findings, and what they would have said."""
    known = next((said for said in verdict.channels if said.id == channel), None)
    parts = [
        say(t.SET_ASIDE_ONE, says=finding.says, would_be=level_said(finding.would_be))
        for finding in findings
    ]
    label = channel_name(channel, verdict, names)
    if known is None or not known.failed:
        return say(t.SET_ASIDE, channel=label, findings=listed(parts))
    tests = listed([finding_name(test, verdict, names) for test in known.failed])
    return say(t.SET_ASIDE_FAILED, channel=label, tests=tests, findings=listed(parts))


def set_aside_by_channel(verdict: Verdict) -> dict[str, list[FindingSaid]]:
    by_channel: dict[str, list[FindingSaid]] = {}
    for finding in verdict.findings:
        if finding.set_aside is not None:
            by_channel.setdefault(finding.set_aside, []).append(finding)
    return by_channel


def well_line(verdict: Verdict, names: Names) -> Said:
    """That the filter is well only where the verdict says so; else what stands in its way."""
    if verdict.filter_well.shown:
        return say(t.WELL)
    # Our own short words first: what comes from packs may be long, and be cut.
    ordered = sorted(verdict.filter_well.because, key=lambda item: item not in t.IN_THE_WAY)
    because = [_in_the_way(item, verdict, names) for item in ordered]
    if not because:
        return say(t.NOT_WELL_BARE)
    return say(t.NOT_WELL, because=listed(because))


def _in_the_way(item: str, verdict: Verdict, names: Names) -> Said:
    if item in t.IN_THE_WAY:
        return say(t.IN_THE_WAY[item])
    for channel in verdict.channels:
        if channel.id == item:
            return say(t.CHANNEL_IS, label=channel.label, state=channel_said(channel.state))
    return names.of(item)


def drive_caution(verdict: Verdict) -> str:
    found = (item for item in verdict.permissions if item.action == DRIVE_ON)
    return next((item.caution for item in found), "")


def drive_reasons(drive: DriveOnSaid) -> list[Said]:
    return [reason(lock) for lock in (*drive.reasons, *drive.unknown)]


def deciding(permission: PermissionSaid) -> InterlockSaid | None:
    """The first interlock that is why a permission is not clear."""
    return next((lock for lock in permission.interlocks if lock.state == permission.state), None)


def warnings(verdict: Verdict) -> list[Line]:
    """What the reader must know of the verdict itself."""
    lines = [Line(say(t.TORN))] if verdict.torn else []
    return lines + ([] if verdict.exact else [Line(say(t.INEXACT))])


def point_lines(point: OpenPoint, most: int | None = None) -> list[Line]:
    """A check, what it bears on, and its caution, which is never cut."""
    check = point.check
    text = say(t.OPEN, does=check.does, minutes=f"{check.minutes:g}", tells=listed(point.tells))
    lines = [Line(clipped(text, most) if most else text, indent=2)]
    if check.caution:
        lines.append(Line(say(t.CAUTION, caution=check.caution), indent=4))
    return lines


def shut_said(point: ShutPoint) -> Said:
    """What stays open, and why."""
    if point.refusal is None:
        return say(t.SHUT_NO_CHECK, label=point.label)
    slots = {"absence": point.refusal.absence, "entry": point.refusal.entry}
    return say(t.SHUT, label=point.label, **slots)


def rulebook_said(verdict: Verdict) -> Said:
    logic, words = verdict.rulebook_logic[:12], verdict.rulebook_words[:12]
    return say(t.RULEBOOK, logic=logic, words=words, program=verdict.program)
