"""The page for the file: what was read, what followed by which rule, who and when, digests."""

from __future__ import annotations

from collections.abc import Iterator

from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.catalogue_numbers import moment_said, number, with_unit
from sootsayer.console.names import Names
from sootsayer.console.vocabulary import kind_said, round_said
from sootsayer.console.words import (
    channel_said,
    confidence,
    per_cent,
    permitted_said,
    typed_said,
    value_said,
)
from sootsayer.judgement.verdict import (
    ChannelSaid,
    FaultSaid,
    FindingSaid,
    LimitUsed,
    PermissionSaid,
    Permitted,
    RuleAt,
)
from sootsayer.report import file_texts as t
from sootsayer.report.before_and_after import compared_blocks
from sootsayer.report.file_entries import entry_blocks
from sootsayer.report.open_ends import open_ends
from sootsayer.report.reported import DRIVE_ON, KINDS, Reported
from sootsayer.report.sheet import Block, Caution, Items, Section, Sheet, Text

_LEAST, _MOST_FAULTS, _MOST_CANDIDATES = 0.05, 10, 3
_MOST_CAUTIONS = 4
# The readings stand whole; where there are many of them, fewer findings keep the page one page.
_MOST_FINDINGS, _LEAST_FINDINGS, _FEW_FACTS = 18, 5, 40


def file_page(of: Reported) -> Sheet:
    """The sheet, in small print."""
    verdict = of.verdict
    slots = {
        "vehicle": of.names.vehicle or say("vehicle"),
        "entry": verdict.as_of_entry,
        "time": moment_said(verdict.as_of_time),
        "story": of.names.story,
    }
    under = say(t.UNDER_NO_ROUND, **slots)
    if verdict.round is not None:
        under = say(t.UNDER, **slots, round=round_said(verdict.round))
    sections = [
        Section(say(t.READINGS), tuple(entry_blocks(of))),
        Section(say(t.INSTRUMENTS), (Items(tuple(_instrument(of, c) for c in verdict.channels)),)),
        Section(say(t.FINDINGS), (Items(tuple(_findings(of))),)),
        Section(say(t.CONFIDENCE), (Items(tuple(_confidence(of))),)),
        *_compared(of),
        Section(say(t.ALLOWED), tuple(_permissions(of))),
        *_numbers(of),
        *_open(of),
        Section(say(t.DIGESTS), (Items(tuple(_digests(of))),)),
    ]
    made = moment_said(of.made)
    foot = say(t.FOOT, made=made, program=verdict.program)
    return Sheet(t.ID, say(t.TITLE, case=verdict.case), under, tuple(sections), foot, dense=True)


def rule_said(rule: RuleAt) -> Said:
    return say(t.RULE, file=rule.file, line=rule.line, revision=rule.revision)


def _instrument(of: Reported, channel: ChannelSaid) -> Said:
    slots = {"label": channel.label, "state": channel_said(channel.state)}
    if channel.failed:
        tests = listed([of.names.of(test) for test in channel.failed])
        return say(t.INSTRUMENT_FAILED, **slots, tests=tests)
    if channel.zero is not None:
        zero = value_said(channel.zero, of.names.zero_units.get(channel.id))
        return say(t.INSTRUMENT_ZERO, **slots, zero=zero)
    return say(t.INSTRUMENT, **slots)


def _findings(of: Reported) -> Iterator[Said]:
    """Those that are true, graded or set aside: the weightiest first, the rest counted."""
    told = [one for one in of.verdict.findings if _speaks(one)]
    weight = _weights(of)
    told.sort(key=lambda one: (-weight.get(one.id, 0.0), one.id))
    if not told:
        yield say(t.NO_FINDING)
    facts = sum(len(e.said) for e in of.work.case.entries if e.number <= of.work.sheet.as_of)
    most = max(_LEAST_FINDINGS, _MOST_FINDINGS - max(0, facts - _FEW_FACTS) // 5)
    yield from (_finding(one, of.names) for one in told[:most])
    if len(told) > most:
        yield say(t.MORE_FINDINGS, count=len(told) - most, case=of.verdict.case)


def _weights(of: Reported) -> dict[str, float]:
    """What each finding was worth at most, for or against a fault that is worth telling."""
    found: dict[str, float] = {}
    for fault in of.verdict.faults:
        for one in (*fault.for_, *fault.against) if fault.confidence >= _LEAST else ():
            found[one.finding] = max(found.get(one.finding, 0.0), one.weight)
    return found


def _speaks(one: FindingSaid) -> bool:
    return one.set_aside is not None or one.level not in {None, "false"}


def _finding(one: FindingSaid, names: Names) -> Said:
    slots = {"says": one.says, "rule": rule_said(one.rule)}
    if one.set_aside is not None:
        return say(t.FINDING_ASIDE, **slots, would_be=names.level(one.id, one.would_be))
    level = names.level(one.id, one.level)
    if one.borderline:
        level = say(t.BORDERLINE, level=level)
    return say(t.FINDING, **slots, level=level)


def _confidence(of: Reported) -> Iterator[Said]:
    verdict = of.verdict
    worth = [fault for fault in verdict.faults if fault.confidence >= _LEAST][:_MOST_FAULTS]
    yield from (_fault(fault, verdict.exact) for fault in worth)
    for kind in KINDS:
        percent = per_cent(verdict.none[kind]).strip()
        yield say(t.NONE, kind=kind_said(kind), percent=shown(percent))
    for candidate in verdict.candidates[:_MOST_CANDIDATES]:
        faults = listed([of.names.of(fault) for fault in candidate.faults]) or say(t.NO_FAULT)
        percent = per_cent(candidate.probability).strip()
        yield say(t.CANDIDATE, faults=faults, percent=shown(percent))


def _fault(fault: FaultSaid, exact: bool) -> Said:
    word, share = confidence(fault.confidence), per_cent(fault.confidence).strip()
    percent = say("{share}, {word}", share=shown(share), word=word)
    slots = {"label": fault.label, "percent": percent, "rule": rule_said(fault.rule)}
    if exact:
        return say(t.FAULT, **slots)
    low, high = shown(per_cent(fault.low).strip()), shown(per_cent(fault.high).strip())
    return say(t.FAULT_RANGE, **slots, low=low, high=high)


def _compared(of: Reported) -> Iterator[Section]:
    if of.told is not None:
        heading = say(t.COMPARED, **of.told.rounds)
        yield Section(heading, tuple(compared_blocks(of.told)))


def _permissions(of: Reported) -> Iterator[Block]:
    every = of.verdict.permissions
    yield Items(tuple(_permission(one) for one in every))
    done = {
        action
        for _, work in of.done
        if (remedy := of.remedy(work)) is not None
        for action in remedy.by_actions
    }
    told = [one for one in every if one.caution and _told(one, done)]
    told.sort(key=lambda one: (one.action != DRIVE_ON, one.action not in done))
    for one in told[:_MOST_CAUTIONS]:
        yield Caution(say(t.CAUTION, action=one.action), shown(one.caution))


def _told(one: PermissionSaid, done: set[str]) -> bool:
    """The customer reads of driving; who did the work read of its actions; what is blocked."""
    return one.action == DRIVE_ON or one.action in done or one.state is Permitted.BLOCKED


def _permission(one: PermissionSaid) -> Said:
    slots = {"action": one.action, "state": permitted_said(one.state)}
    lock = next((lock for lock in one.interlocks if lock.state is one.state), None)
    if lock is None or one.state is Permitted.CLEAR:
        return say(t.PERMISSION, **slots)
    return say(t.PERMISSION_BECAUSE, **slots, reason=lock.id)


def _numbers(of: Reported) -> Iterator[Section]:
    told = [
        say(t.LIMIT, label=used.label, value=_limit(used), origin=say(t.ORIGIN[used.origin]))
        for used in of.verdict.limits
        if used.origin in t.ORIGIN
    ]
    for one in of.verdict.overrides:
        what = ", ".join((one.of, *one.path))
        was, now = typed_said(one.was), typed_said(one.now)
        slots = {"what": what, "was": was, "now": now, "why": one.why}
        told.append(say(t.OVERRIDE, **slots, rule=rule_said(one.rule)))
    if told:
        yield Section(say(t.NUMBERS), (Items(tuple(told)),))


def _limit(used: LimitUsed) -> Said:
    amount = number(used.value)
    return with_unit(amount, used.unit) if used.unit else Said(f"{amount} ")


def _open(of: Reported) -> Iterator[Section]:
    ends = open_ends(of)
    if ends:
        yield Section(say(t.OPEN), (Text(listed([Said(end.rstrip(".")) for end in ends])),))


def _digests(of: Reported) -> Iterator[Said]:
    pairs = [
        (t.RULEBOOK, of.verdict.rulebook_logic),
        (t.WORDS, of.verdict.rulebook_words),
        (t.SHOP, of.verdict.shop),
        (t.CASE, of.digest),
    ]
    for what, digest in pairs:
        if digest is not None:
            yield say(t.DIGEST, what=say(what), digest=digest)
    if of.head is not None:
        number, head = of.head
        what = say(t.DIGEST, what=say(t.RECORDS_HEAD, number=number), digest=head)
        yield what if number else say(t.RECORDS_BROKEN)
