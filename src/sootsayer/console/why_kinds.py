"""The part of a why that only one kind of thing has."""

from __future__ import annotations

from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.console import judge_bits as bits
from sootsayer.console import why_texts as t
from sootsayer.console.names import Names
from sootsayer.console.paper import Line
from sootsayer.console.why_steps import step_lines
from sootsayer.console.words import per_cent, value_said
from sootsayer.judgement.verdict import (
    ChannelSaid,
    Contribution,
    FamilySaid,
    InterlockSaid,
    PermissionSaid,
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
        lines += _plain(_family(answer.family, names))
    if answer.interlock is not None:
        lines += _plain([bits.reason(answer.interlock)])
    if answer.permission is not None:
        lines += _permission(answer.permission)
    if answer.limit is not None:
        lines += _plain([say(t.LIMIT_FROM.get(answer.limit.origin, t.LIMIT_FROM["pack"]))])
    return lines


def _plain(texts: list[Said]) -> list[Line]:
    return [Line(text, indent=2) for text in texts]


def _fault(why: WhyFault, names: Names) -> list[Line]:
    said = why.said
    lines = _weights(said.for_, "+ ", t.FOR, t.NO_FOR)
    lines += _weights(said.against, "- ", t.AGAINST, t.NO_AGAINST)
    if said.set_aside:
        findings = listed([names.of(id_) for id_ in said.set_aside])
        lines.append(Line(say(t.ASIDE, findings=findings), indent=2))
    if said.missing:
        families = listed([names.of(id_) for id_ in said.missing])
        lines.append(Line(say(t.MISSING_FAMILIES, families=families), indent=2))
    if said.low != said.high:
        lines += _plain([say(t.RANGE, low=_share(said.low), high=_share(said.high))])
    if why.rank:
        lines += _plain([say(t.RANK, rank=why.rank, none=_share(why.none))])
    return lines + _prior(why)


def _prior(why: WhyFault) -> list[Line]:
    prior, now = _share(why.prior), _share(why.prior_now)
    template = t.PRIOR if why.prior == why.prior_now else t.PRIOR_SHIFTED
    lines = [Line(say(template, prior=prior, now=now), indent=2)]
    for shift in why.shifts:
        lines.append(Line(say(t.SHIFT[shift.outcome], times=f"{shift.times:g}"), indent=4))
        lines += step_lines(shift.steps, 6)
    return lines


def _weights(items: tuple[Contribution, ...], mark: str, heading: str, bare: str) -> list[Line]:
    if not items:
        return [Line(say(bare), indent=2)]
    lines = [Line(say(heading), indent=2)]
    for item in items:
        text = say(
            t.WORTH,
            worth=item.word,
            says=bits.finding_said(item.says, item.level),
            without=_share(item.without_it),
            with_it=_share(item.with_it),
            weight=f"{item.weight:.3g}",
        )
        lines.append(Line(text, indent=4, mark=mark))
        lines += [Line(bits.ground_full(ground), indent=6) for ground in item.grounds]
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


def _permission(permission: PermissionSaid) -> list[Line]:
    lines: list[Line] = []
    for lock in permission.interlocks:
        lines += _lock(lock, bits.reason(lock))
    for lock in permission.named:
        text = bits.reason(lock)
        if lock.reason is Reason.UNKNOWN:
            text = say(t.NAMED, reason=text)
        lines += _lock(lock, text)
    return lines


def _lock(lock: InterlockSaid, text: Said) -> list[Line]:
    grounds = [Line(bits.ground_full(ground), indent=4) for ground in lock.grounds]
    rule = lock.rule
    slots = {"id": lock.id, "file": rule.file, "line": rule.line, "revision": rule.revision}
    return [Line(text, indent=2), *grounds, Line(say(t.RULE, **slots), indent=4)]
