"""The short page's first part: whether it may be driven, and what we know."""

from __future__ import annotations

from sootsayer.catalogue import Said, listed, say, say_count, shown
from sootsayer.console import judge_bits as bits
from sootsayer.console import judge_texts as t
from sootsayer.console.names import Names
from sootsayer.console.open_points import first_of_kind, leads
from sootsayer.console.paper import HEADING, QUIET, STRONG, Line
from sootsayer.console.readings import contradictions, counted, reason
from sootsayer.console.room import Room
from sootsayer.console.words import BAR_CELLS, KINDS, confidence, drive_said, gauge
from sootsayer.judgement.verdict import ChannelState, Reason, Verdict

# What of the room each part depends on.
DRIVE_READS = ("reasons", "unknown")
KNOW_READS = ("after", "well", "aside", "tests", "differ", "instruments")
# A second fault of a kind is worth a line from here on.
_WORTH_NAMING = 0.2


def drive_lines(verdict: Verdict, names: Names, room: Room) -> list[Line]:
    """The answer, what decided it, what is not known of it, and the caution, never cut."""
    answer = drive_said(verdict.drive_on.state)
    text = say(t.DRIVE, answer=answer)
    reasons = [reason(lock, verdict.limits, names) for lock in verdict.drive_on.reasons]
    because = Said(" ".join(reasons[: room.reasons]))
    if because:
        text = say(t.DRIVE_BECAUSE, answer=answer, because=because)
    lines = [Line(text, style=STRONG, styled=len(say(t.DRIVE, answer=answer)))]
    lines += short_list(reasons[room.reasons :], 0, t.LEFT_REASONS)
    lines += _open_lines(verdict, room)
    caution = bits.drive_caution(verdict)
    return lines + ([Line(say(t.CAUTION, caution=caution))] if caution else [])


def _open_lines(verdict: Verdict, room: Room) -> list[Line]:
    """What keeps it from being clear without forbidding it: not known, too old, too close."""
    lines = []
    for why in Reason:
        says = [shown(lock.says) for lock in verdict.drive_on.unknown if lock.reason is why]
        if says:
            _, bare = t.REASON[why.value]
            lines.append(Line(say(bare, says=counted(says, room.unknown)), indent=2))
    return lines


def know_lines(verdict: Verdict, names: Names, room: Room) -> list[Line]:
    """A sentence for each kind of fault, the instruments, and what was set aside."""
    lines = [Line(say(t.KNOW), style=HEADING)]
    for kind in KINDS:
        lines += _kind(verdict, kind, room)
    if _well_is_news(verdict) or room.well:
        lines.append(Line(bits.well_line(verdict, names), indent=2))
    for id_, found in bits.set_aside_by_channel(verdict).items():
        lines.append(
            Line(
                bits.aside_line(id_, found, verdict, names, room.aside, tests=room.tests), indent=2
            )
        )
    lines += short_list(contradictions(verdict, names), room.differ, t.LEFT_DIFFER)
    return lines + _instruments(verdict, names, room)


def _well_is_news(verdict: Verdict) -> bool:
    """Where a fault of the filter leads, its own sentence says already that it is not well."""
    return not leads(verdict, first_of_kind(verdict, "condition"))


def _instruments(verdict: Verdict, names: Names, room: Room) -> list[Line]:
    """Those that lie or are corrected, one by one, always; then the proven in one line, and the
    unproven that stand in the way. What was set aside for one has told of it already."""
    aside = bits.set_aside_by_channel(verdict)
    proven: list[Said] = []
    unproven: list[Said] = []
    said: list[Said] = []
    for channel in verdict.channels:
        if channel.state is ChannelState.PROVEN:
            proven.append(shown(channel.label))
        elif channel.state is ChannelState.UNPROVEN:
            in_the_way = channel.id in verdict.filter_well.because
            unproven += [shown(channel.label)] if in_the_way else []
        elif channel.id not in aside:
            said.append(bits.channel_line(channel, verdict, names))
    if room.instruments:
        said += [say(t.PROVEN, labels=listed(proven))] if proven else []
        said += [say(t.UNPROVEN, labels=listed(unproven))] if unproven else []
    return [Line(text, indent=2) for text in said]


def _kind(verdict: Verdict, kind: str, room: Room) -> list[Line]:
    """One sentence for a kind of fault, and the fault after it where that is worth a line."""
    faults = [fault for fault in verdict.faults if fault.kind == kind]
    none = verdict.none.get(kind, 0.0)
    if leads(verdict, faults[0] if faults else None):
        after, sure = faults[1:], faults[0].confidence
        text = say(t.KIND[kind], label=faults[0].label, confidence=confidence(sure))
    else:
        after, sure = faults, none
        text = none_said(verdict, kind)
    lines = [_gauged(text, sure)]
    if room.after and after and after[0].confidence >= _WORTH_NAMING:
        second = after[0]
        more = say(t.RUNNER_UP, label=second.label, confidence=confidence(second.confidence))
        lines.append(_gauged(more, second.confidence, indent=4))
    return lines


def none_said(verdict: Verdict, kind: str) -> Said:
    """That no fault of the kind is present; of the filter never as if it had been acquitted."""
    silent = set(verdict.filter_well.because) - {"fault-likely"}
    text = t.NONE_UNPROVEN if kind == "condition" and silent else t.KIND_NONE[kind]
    return say(text, confidence=confidence(verdict.none.get(kind, 0.0)))


def _gauged(text: Said, probability: float, indent: int = 2) -> Line:
    return Line(text, indent=indent, right=gauge(probability), bar=BAR_CELLS)


def short_list(texts: list[Said], most: int, left: tuple[str, str]) -> list[Line]:
    """The first few of a list, and honestly how many more there are."""
    lines = [Line(text, indent=2) for text in texts[:most]]
    more = len(texts) - most
    if more > 0:
        one, many = left
        lines.append(Line(say_count(one, many, count=more), indent=2, style=QUIET))
    return lines
