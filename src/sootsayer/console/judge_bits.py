"""Sentences that the short and the full page of a verdict share."""

from __future__ import annotations

from sootsayer.belief.weighing import word_said
from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.catalogue_numbers import brief, moment_said
from sootsayer.console import judge_texts as t
from sootsayer.console.names import Names
from sootsayer.console.open_points import OpenPoint, ShutPoint
from sootsayer.console.paper import Line, clipped
from sootsayer.console.readings import counted, own_readings, readings_short
from sootsayer.console.vocabulary import absence_said, round_said, source_id_said
from sootsayer.console.words import channel_said, value_said, worth_said
from sootsayer.judgement.verdict import (
    ChannelSaid,
    ChannelState,
    Contribution,
    FindingSaid,
    Ground,
    InterlockSaid,
    PermissionSaid,
    Verdict,
)

DRIVE_ON = "drive-on"
_LAWFUL = 2
# No header of one line is longer; a label beyond it is somebody's mistake.
_HEADER = 80


def header(verdict: Verdict, names: Names) -> Said:
    time = moment_said(verdict.as_of_time)
    vehicle = names.vehicle or say("vehicle")
    if verdict.as_of_entry == 0:
        return say(t.HEADER_EMPTY, case=verdict.case, vehicle=vehicle)
    slots = {"case": verdict.case, "vehicle": vehicle, "entry": verdict.as_of_entry, "time": time}
    if verdict.round is None:
        return say(t.HEADER_NO_ROUND, **slots)
    return say(t.HEADER, **slots, round=round_said(verdict.round))


def header_short(verdict: Verdict, names: Names) -> Said:
    """The header on one line: what does not fit is left out, the round first."""
    whole = header(verdict, names)
    if len(whole) <= _HEADER or verdict.as_of_entry == 0:
        return clipped(whole, _HEADER)
    slots = {"case": verdict.case, "vehicle": names.vehicle, "entry": verdict.as_of_entry}
    time = moment_said(verdict.as_of_time)
    timed = say(t.HEADER_NO_ROUND, **slots, time=time)
    return timed if len(timed) <= _HEADER else clipped(say(t.HEADER_BARE, **slots), _HEADER)


def ground_full(ground: Ground, names: Names) -> Said:
    slots = {
        "entry": ground.entry,
        "line": ground.line,
        "label": ground.label,
        "slot": ground.slot,
        "typed": names.typed(ground.slot, ground.typed),
        "source": source_id_said(ground.source),
    }
    if ground.round is None:
        return say(t.GROUND_FULL_NO_ROUND, **slots)
    return say(t.GROUND_FULL, **slots, round=round_said(ground.round))


def finding_said(finding: str, says: str, level: str | None, names: Names) -> Said:
    if level is None:
        return say(t.FINDING_UNKNOWN, says=says)
    if level == "true":
        return say(t.FINDING_TRUE, says=says)
    if level == "false":
        return say(t.FINDING_FALSE, says=says)
    return say(t.FINDING_LEVEL, says=says, level=names.word(finding, level))


def contribution(item: Contribution, names: Names, *, whole: bool = False) -> Said:
    """What one family said, where from, and what it was worth; `whole`: the scale's own words."""
    says = finding_said(item.finding, item.says, item.level, names)
    worth = word_said(item.word) if whole else worth_said(item.word)
    if not item.grounds:
        return say(t.WORTH_BARE, says=says, worth=worth)
    short = readings_short(own_readings(item.finding, item.grounds, names), names)
    return say(t.WORTH, says=says, grounds=short, worth=worth)


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


def channel_line(channel: ChannelSaid, verdict: Verdict, names: Names) -> Said:
    """An instrument and why it stands as it does."""
    failed = listed([finding_name(test, verdict, names) for test in channel.failed])
    awaits = listed([finding_name(test, verdict, names) for test in channel.awaits])
    if channel.state is ChannelState.DISTRUSTED and failed:
        return say(t.CHANNEL_FAILED, label=channel.label, tests=failed)
    if channel.state is ChannelState.UNPROVEN and awaits:
        return say(t.CHANNEL_AWAITS, label=channel.label, tests=awaits)
    if channel.state is ChannelState.CORRECTED:
        if channel.zero is None:
            return say(t.CORRECTED_BARE, label=channel.label)
        zero = value_said(channel.zero, names.zero_units.get(channel.id))
        return say(t.CHANNEL["corrected"], label=channel.label, zero=zero)
    return say(t.CHANNEL[channel.state.value], label=channel.label)


def aside_line(
    channel: str,
    findings: list[FindingSaid],
    verdict: Verdict,
    names: Names,
    most: int = 1000,
    *,
    tests: bool = True,
) -> Said:
    """What is set aside while an instrument is distrusted, why, and what it would have said."""
    telling = sorted(findings, key=lambda finding: (finding.would_be is None, not finding.graded))
    aside = counted([_aside(finding, names) for finding in telling], most)
    known = next((each for each in verdict.channels if each.id == channel), None)
    label = shown(known.label) if known else names.of(channel)
    if known is None or not known.failed or not tests:
        return say(t.SET_ASIDE, channel=label, findings=aside)
    failed = listed([finding_name(test, verdict, names) for test in known.failed])
    return say(t.SET_ASIDE_FAILED, channel=label, tests=failed, findings=aside)


def _aside(finding: FindingSaid, names: Names) -> Said:
    if finding.would_be is None:
        return shown(finding.says)
    return say(
        t.SET_ASIDE_ONE, says=finding.says, would_be=names.level(finding.id, finding.would_be)
    )


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
    because = [_in_the_way(item, verdict, names) for item in verdict.filter_well.because]
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


def deciding(permission: PermissionSaid) -> InterlockSaid | None:
    """The first interlock that is why a permission is not clear."""
    return next((lock for lock in permission.interlocks if lock.state == permission.state), None)


def warnings(verdict: Verdict) -> list[Line]:
    """What the reader must know of the verdict itself."""
    lines = [Line(say(t.TORN))] if verdict.torn else []
    return lines + ([] if verdict.exact else [Line(say(t.INEXACT))])


def declined_lines(verdict: Verdict) -> list[Line]:
    """A wish to remove or defeat: no, and the first of the lawful work."""
    plan = verdict.plan
    if plan is None or not plan.declined:
        return []
    from sootsayer.console.plan_sought import lawful  # no other part of the page needs the plan's

    works = listed([shown(each.label) for each in lawful(verdict)[:_LAWFUL]])
    template = t.DECLINED if works else t.DECLINED_BARE
    return [Line(say(template, works=works, case=verdict.case), indent=2)]


def point_lines(point: OpenPoint, most: int = 1000) -> list[Line]:
    """A check, what it would tell, and its caution, which is never cut."""
    check = point.check
    slots = {"does": check.does, "minutes": brief(check.minutes)}
    text = say(t.OPEN_BARE, **slots)
    if most:
        text = say(t.OPEN, **slots, tells=counted(list(point.tells), most))
    lines = [Line(text, indent=2)]
    if check.caution:
        lines.append(Line(say(t.CAUTION, caution=check.caution), indent=4))
    return lines


def point_named(point: OpenPoint, case: str, most: int) -> Line:
    """What is missing, and where the check stands with its caution."""
    check = point.check
    slots = {"minutes": brief(check.minutes), "case": case, "check": check.id}
    return Line(
        say(t.OPEN_SHORT, tells=counted(list(point.tells), max(1, most)), **slots), indent=2
    )


def shut_said(point: ShutPoint) -> Said:
    """What stays open, and why."""
    if point.refusal is None:
        return say(t.SHUT_NO_CHECK, label=point.label)
    slots = {"absence": absence_said(point.refusal.absence), "entry": point.refusal.entry}
    return say(t.SHUT, label=point.label, **slots)


def rulebook_said(verdict: Verdict) -> Said:
    logic, words = verdict.rulebook_logic[:12], verdict.rulebook_words[:12]
    return say(t.RULEBOOK, logic=logic, words=words, program=verdict.program)
