"""The part of a why that only one kind of thing has."""

from __future__ import annotations

from sootsayer.catalogue import Said, listed, say, say_count, shown
from sootsayer.catalogue_numbers import brief, significant
from sootsayer.console import judge_bits as bits
from sootsayer.console import why_texts as t
from sootsayer.console.names import Names
from sootsayer.console.paper import Line
from sootsayer.console.readings import reason
from sootsayer.console.why_steps import step_lines
from sootsayer.console.why_work import work_why
from sootsayer.console.words import per_cent, value_said
from sootsayer.judgement.verdict import (
    ChannelSaid,
    Contribution,
    FamilySaid,
    InterlockSaid,
    PermissionSaid,
    Permitted,
    Reason,
)
from sootsayer.judgement.why_answer import WhyAnswer, WhyFault


def kind_lines(answer: WhyAnswer, names: Names) -> list[Line]:
    """Why it stands as it does, as far as its kind alone tells."""
    lines: list[Line] = []
    if answer.fault is not None:
        lines += _fault(answer.fault, names)
    if answer.channel is not None:
        lines += _plain(_channel(answer.channel, names))
    if answer.family is not None:
        silent = answer.family.speaker is None and answer.set_aside is not None
        lines += [] if silent else _plain(_family(answer.family, names))
    if answer.interlock is not None:
        lines += _plain([reason(answer.interlock, names.limits, names, whole=True)])
    if answer.permission is not None:
        lines += _permission(answer.permission, names)
    if answer.remedy is not None:
        lines += work_why(answer.remedy, names)
    if answer.limit is not None:
        lines += _plain([say(t.LIMIT_FROM.get(answer.limit.origin, t.LIMIT_FROM["pack"]))])
    return lines


def _plain(texts: list[Said]) -> list[Line]:
    return [Line(text, indent=2) for text in texts]


def _fault(why: WhyFault, names: Names) -> list[Line]:
    said = why.said
    lines = _weights(said.for_, "+ ", (t.FOR, t.NO_FOR), names)
    lines += _weights(said.against, "- ", (t.AGAINST, t.NO_AGAINST), names)
    if said.set_aside:
        findings = listed([names.of(id_) for id_ in said.set_aside])
        lines.append(Line(say(t.ASIDE, findings=findings), indent=2))
    if said.missing:
        families = listed([names.of(id_) for id_ in said.missing])
        lines.append(Line(say(t.MISSING_FAMILIES, families=families), indent=2))
    if said.low != said.high:
        lines += _plain([say(t.RANGE, low=_share(said.low), high=_share(said.high))])
    return lines


def fault_details(why: WhyFault, names: Names) -> list[Line]:
    """How it stands among its kind, and how common it is before anything was seen."""
    lines: list[Line] = []
    if why.rank:
        lines += _plain([say(t.RANK, rank=why.rank, none=_share(why.none))])
    prior, now = _share(why.prior), _share(why.prior_now)
    template = t.PRIOR if why.prior == why.prior_now else t.PRIOR_SHIFTED
    lines.append(Line(say(template, prior=prior, now=now), indent=2))
    for shift in why.shifts:
        lines.append(Line(say(t.SHIFT[shift.outcome], times=brief(shift.times)), indent=4))
        lines += step_lines(shift.steps, 6, names)
    return lines


def _weights(
    items: tuple[Contribution, ...], mark: str, texts: tuple[str, str], names: Names
) -> list[Line]:
    """Each with its reading and what it did; the shares only where they can be told apart."""
    heading, bare = texts
    if not items:
        return [Line(say(bare), indent=2)]
    lines = [Line(say(heading), indent=2)]
    for item in items:
        said = bits.contribution(item, names)
        before, after = _share(item.without_it), _share(item.with_it)
        slots = {"said": said, "weight": significant(item.weight, 3)}
        text = say(t.WEIGHT, **slots)
        if before != after:
            text = say(t.WEIGHT_SHARES, **slots, without=before, with_it=after)
        lines.append(Line(text, indent=4, mark=mark))
    return lines


def _share(probability: float) -> Said:
    return shown(per_cent(probability).strip())


def _channel(channel: ChannelSaid, names: Names) -> list[Said]:
    said: list[Said] = []
    if channel.failed:
        said.append(say(t.CHANNEL_FAILED, tests=listed([names.of(i) for i in channel.failed])))
    if channel.awaits:
        said.append(say(t.CHANNEL_AWAITS, tests=listed([names.of(i) for i in channel.awaits])))
    if channel.zero is not None:
        zero = value_said(channel.zero, names.zero_units.get(channel.id))
        said.append(say(t.CHANNEL_ZERO, zero=zero))
    return said


def _family(family: FamilySaid, names: Names) -> list[Said]:
    if family.speaker is None:
        return [say(t.FAMILY_SILENT)]
    said = [say(t.FAMILY_SPEAKER, speaker=names.of(family.speaker))]
    if family.disagreeing:
        said.append(say(t.FAMILY_OTHERS, others=listed([names.of(i) for i in family.disagreeing])))
    return said


def _permission(permission: PermissionSaid, names: Names) -> list[Line]:
    """What stands in the way; then, in one sentence, how many hold."""
    texts: list[Said] = []
    for lock in permission.interlocks:
        if lock.state is not Permitted.CLEAR:
            texts.append(reason(lock, names.limits, names, whole=True))
    for lock in permission.named:
        texts.append(_named(lock, names))
    holding = sum(lock.state is Permitted.CLEAR for lock in permission.interlocks)
    if holding:
        one, many = t.HOLDING
        texts.append(say_count(one, many, count=holding))
    return _plain(texts)


def _named(lock: InterlockSaid, names: Names) -> Said:
    """One that is heeded, not awaited."""
    text = reason(lock, names.limits, names, whole=True)
    return say(t.NAMED, reason=text) if lock.reason is Reason.UNKNOWN else text


def lock_details(permission: PermissionSaid, names: Names) -> list[Line]:
    """Every interlock with its entries and its rule; those that stand in the way first."""
    lines: list[Line] = []
    clear = Permitted.CLEAR
    for lock in sorted(permission.interlocks, key=lambda lock: lock.state is clear):
        lines += _lock(lock, reason(lock, names.limits, names), names)
    for lock in permission.named:
        lines += _lock(lock, _named(lock, names), names)
    return lines


def _lock(lock: InterlockSaid, text: Said, names: Names) -> list[Line]:
    grounds = [Line(bits.ground_full(ground, names), indent=4) for ground in lock.grounds]
    rule = lock.rule
    slots = {"id": lock.id, "file": rule.file, "line": rule.line, "revision": rule.revision}
    return [Line(text, indent=2), *grounds, Line(say(t.RULE, **slots), indent=4)]
