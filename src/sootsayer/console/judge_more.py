"""The full page of a verdict: everything that it holds, with grounds and rules."""

from __future__ import annotations

from collections.abc import Iterable

from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.catalogue_numbers import significant
from sootsayer.console import judge_bits as bits
from sootsayer.console import judge_texts as t
from sootsayer.console.compare_texts import UNLIKE
from sootsayer.console.judge_know import none_said
from sootsayer.console.judge_numbers import numbers_lines
from sootsayer.console.names import Names
from sootsayer.console.open_points import open_points
from sootsayer.console.paper import BLANK, HEADING, QUIET, STRONG, Line, Page, page
from sootsayer.console.readings import contradictions, reason
from sootsayer.console.vocabulary import hurt_said, round_said
from sootsayer.console.words import (
    BAR_CELLS,
    KINDS,
    confidence,
    drive_said,
    gauge,
    per_cent,
    permitted_said,
)
from sootsayer.judgement.verdict import (
    CandidateSaid,
    Contribution,
    FamilySaid,
    FaultSaid,
    FindingSaid,
    InterlockSaid,
    PermissionSaid,
    Reason,
    RefusedSaid,
    RuleAt,
    Verdict,
)


def judge_more_page(verdict: Verdict, names: Names) -> Page:
    """Every part of the verdict, in the three bands; as long as it needs to be."""
    bands = (
        _first(verdict, names),
        _band(t.KNOW, _know(verdict, names)),
        _band(t.WHY, _why(verdict, names)),
        _band(t.NEXT, _next(verdict, names)),
        numbers_lines(verdict, names),
        [Line(bits.rulebook_said(verdict), style=QUIET)],
    )
    lines: list[Line] = []
    for band in filter(None, bands):
        lines += [*band, BLANK]
    return page(lines[:-1])


def _band(title: str, lines: Iterable[Line]) -> list[Line]:
    return [Line(say(title), style=HEADING), *lines]


def _part(title: str, lines: list[Line]) -> list[Line]:
    """A part of a band, left out where it is empty."""
    return [Line(say(title), indent=2, style=STRONG), *lines] if lines else []


def _first(verdict: Verdict, names: Names) -> list[Line]:
    lines = [Line(bits.header(verdict, names), style=QUIET)]
    lines += [Line(shown(names.story))] if names.story else []
    lines += bits.warnings(verdict)
    answer = drive_said(verdict.drive_on.state)
    lines.append(Line(say(t.DRIVE, answer=answer), style=STRONG))
    for lock in (*verdict.drive_on.reasons, *verdict.drive_on.unknown):
        lines.append(Line(reason(lock, verdict.limits, names, whole=True), indent=2))
    caution = bits.drive_caution(verdict)
    return lines + ([Line(say(t.CAUTION, caution=caution), indent=2)] if caution else [])


def _know(verdict: Verdict, names: Names) -> list[Line]:
    lines: list[Line] = []
    for kind in KINDS:
        lines += _kind(verdict, kind)
    lines.append(Line(bits.well_line(verdict, names), indent=2))
    lines += bits.declined_lines(verdict)
    channels = [Line(bits.channel_line(c, verdict, names), indent=4) for c in verdict.channels]
    lines += _part(t.INSTRUMENTS, channels)
    for id_, found in bits.set_aside_by_channel(verdict).items():
        lines.append(Line(bits.aside_line(id_, found, verdict, names), indent=2))
    return lines + [Line(text, indent=2) for text in contradictions(verdict, names)]


def _kind(verdict: Verdict, kind: str) -> list[Line]:
    """That none of the kind is present, and every fault of it; the most probable first."""
    none = verdict.none.get(kind, 0.0)
    said = [(none, none_said(verdict, kind))]
    said += [
        (fault.confidence, _fault_said(fault, kind, verdict))
        for fault in verdict.faults
        if fault.kind == kind
    ]
    said.sort(key=lambda pair: -pair[0])
    return [Line(text, indent=2, right=gauge(sure), bar=BAR_CELLS) for sure, text in said]


def _fault_said(fault: FaultSaid, kind: str, verdict: Verdict) -> Said:
    label = say(t.FAULT_ID, label=fault.label, id=fault.id)
    if not verdict.exact:
        low, high = per_cent(fault.low).strip(), per_cent(fault.high).strip()
        label = say(t.FAULT_RANGE, label=label, low=shown(low), high=shown(high))
    return say(t.KIND[kind], label=label, confidence=confidence(fault.confidence))


def _why(verdict: Verdict, names: Names) -> list[Line]:
    lines: list[Line] = []
    for fault in verdict.faults:
        lines += _fault(fault, verdict, names)
    lines += _part(t.FINDINGS, _findings(verdict, names))
    families = [Line(_family(family, verdict, names), indent=4) for family in verdict.families]
    lines += _part(t.FAMILIES, families)
    candidates = [_candidate(candidate, verdict, names) for candidate in verdict.candidates]
    if candidates:
        candidates.append(_share(say(t.LEFT_OUT), verdict.left_out))
    lines += _part(t.CANDIDATES, candidates)
    refused = [Line(_refused(one), indent=2) for one in verdict.refused]
    return lines + refused or [Line(say(t.NOTHING), indent=2)]


def _refused(one: RefusedSaid) -> Said:
    rounds = {"from_round": round_said(one.from_round), "to_round": round_said(one.to_round)}
    why = [say(UNLIKE[reason], **rounds) for reason in one.why]
    return say(t.REFUSED, label=one.label, why=Said(" ".join(why)))


def _fault(fault: FaultSaid, verdict: Verdict, names: Names) -> list[Line]:
    label = fault.label
    lines = _weights(fault.for_, "+ ", (t.FOR, t.NOTHING_FOR), label, names)
    lines += _weights(fault.against, "- ", (t.AGAINST, t.NOTHING_AGAINST), label, names)
    if fault.set_aside:
        aside = listed([bits.finding_name(id_, verdict, names) for id_ in fault.set_aside])
        lines.append(Line(say(t.FAULT_ASIDE, findings=aside), indent=4))
    if fault.missing:
        missing = listed([bits.family_name(id_, verdict, names) for id_ in fault.missing])
        lines.append(Line(say(t.FAULT_MISSING, families=missing), indent=4))
    return [*lines, _rule(fault.id, fault.rule, indent=4)]


def _weights(
    items: tuple[Contribution, ...], mark: str, texts: tuple[str, str], fault: str, names: Names
) -> list[Line]:
    heading, bare = texts
    if not items:
        return [Line(say(bare, label=fault), indent=2)]
    lines = [Line(say(heading, label=fault), indent=2)]
    for item in items:
        lines.append(Line(bits.contribution(item, names, whole=True), indent=4, mark=mark))
        with_it, without = per_cent(item.with_it).strip(), per_cent(item.without_it).strip()
        slots = {"weight": significant(item.weight, 3), "with_it": shown(with_it)}
        text = say(t.FAULT_WORTH, **slots, without=shown(without))
        lines.append(Line(text, indent=6))
    return lines


def _findings(verdict: Verdict, names: Names) -> list[Line]:
    lines: list[Line] = []
    for finding in verdict.findings:
        lines.append(
            Line(bits.finding_said(finding.id, finding.says, finding.level, names), indent=4)
        )
        lines += [Line(text, indent=6) for text in _about(finding, verdict, names)]
        lines += [Line(bits.ground_full(ground, names), indent=6) for ground in finding.grounds]
        lines.append(_rule(finding.id, finding.rule, indent=6))
    return lines


def _about(finding: FindingSaid, verdict: Verdict, names: Names) -> list[Said]:
    said: list[Said] = []
    if finding.set_aside is not None:
        channel = bits.channel_name(finding.set_aside, verdict, names)
        would_be = names.level(finding.id, finding.would_be)
        said.append(say(t.FINDING_ASIDE, channel=channel, would_be=would_be))
    if finding.borderline:
        shares = listed([shown(per_cent(weight).strip()) for weight in finding.weights])
        said.append(say(t.FINDING_BORDERLINE, shares=shares))
    if finding.awaits:
        slots = listed([names.of(slot) for slot in finding.awaits])
        said.append(say(t.FINDING_AWAITS, slots=slots))
    return said


def _family(family: FamilySaid, verdict: Verdict, names: Names) -> Said:
    if family.speaker is None:
        return say(t.FAMILY_SILENT, label=family.label)
    speaker = bits.finding_name(family.speaker, verdict, names)
    if not family.disagreeing:
        return say(t.FAMILY, label=family.label, speaker=speaker)
    others = listed([bits.finding_name(id_, verdict, names) for id_ in family.disagreeing])
    return say(t.FAMILY_DISAGREE, label=family.label, speaker=speaker, others=others)


def _candidate(candidate: CandidateSaid, verdict: Verdict, names: Names) -> Line:
    labels = {fault.id: fault.label for fault in verdict.faults}
    parts = [shown(labels[id_]) if id_ in labels else names.of(id_) for id_ in candidate.faults]
    return _share(listed(parts) or say(t.CANDIDATE_NONE), candidate.probability)


def _share(text: Said, share: float) -> Line:
    return Line(text, indent=4, right=per_cent(share))


def _next(verdict: Verdict, names: Names) -> list[Line]:
    points, shut = open_points(verdict, names)
    lines: list[Line] = []
    for point in points:
        lines += bits.point_lines(point)
    lines += [Line(bits.shut_said(point), indent=2) for point in shut]
    if not lines:
        lines.append(Line(say(t.NOTHING_OPEN), indent=2))
    permissions: list[Line] = []
    for permission in verdict.permissions:
        permissions += _permission(permission, verdict, names)
    return lines + _part(t.PERMISSIONS, permissions)


def _permission(item: PermissionSaid, verdict: Verdict, names: Names) -> list[Line]:
    slots = {"does": item.does, "action": item.action, "state": permitted_said(item.state)}
    lines = [Line(say(t.PERMISSION_ID, **slots), indent=4)]
    if item.hurts:
        hurts = listed([hurt_said(hurt) for hurt in item.hurts])
        lines.append(Line(say(t.HURTS, hurts=hurts), indent=6))
    if item.caution:
        lines.append(Line(say(t.CAUTION, caution=item.caution), indent=6))
    for lock in item.interlocks:
        lines += _lock(lock, reason(lock, verdict.limits, names, whole=True), names)
    for lock in item.named:
        text = reason(lock, verdict.limits, names, whole=True)
        if lock.reason is Reason.UNKNOWN:
            text = say(t.NAMED, reason=text)
        lines += _lock(lock, text, names)
    return lines


def _lock(lock: InterlockSaid, text: Said, names: Names) -> list[Line]:
    lines = [Line(text, indent=6)]
    lines += [Line(bits.ground_full(ground, names), indent=8) for ground in lock.grounds]
    if lock.awaits:
        slots = listed([names.of(slot) for slot in lock.awaits])
        lines.append(Line(say(t.LOCK_AWAITS, slots=slots), indent=8))
    if lock.would_clear:
        checks = listed([names.of(check) for check in lock.would_clear])
        lines.append(Line(say(t.WOULD_CLEAR, checks=checks), indent=8))
        for check in filter(None, map(names.check, lock.would_clear)):
            if check.caution:
                lines.append(Line(say(t.CAUTION, caution=check.caution), indent=8))
    return [*lines, _rule(lock.id, lock.rule, indent=8)]


def _rule(id_: str, rule: RuleAt, indent: int) -> Line:
    text = say(t.RULE, id=id_, file=rule.file, line=rule.line, revision=rule.revision)
    return Line(text, indent=indent, style=QUIET)
