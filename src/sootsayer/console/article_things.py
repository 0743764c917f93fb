"""The handbook pages of faults, signals, checks, instruments, points and actions."""

from __future__ import annotations

from collections.abc import Iterator

from sootsayer.belief.network import Kind
from sootsayer.catalogue import Said, say
from sootsayer.catalogue_numbers import number, unit_said
from sootsayer.console import rules_show_texts as t
from sootsayer.console.article import (
    Article,
    Book,
    article,
    given_part,
    known_part,
    listed,
    often,
    part,
    proofs_part,
    spread_said,
    used_part,
    words_listed,
)
from sootsayer.console.vocabulary import (
    FILLS,
    hurt_said,
    id_said,
    source_id_said,
    tool_said,
    where_said,
)
from sootsayer.rulebook.model import FaultDef, Signal, SignalKind
from sootsayer.rulebook.reads import levels_of, readings_behind, slots_given
from sootsayer.rulebook.review.bench import FITTED, FROM_HEADER, slots_of


def fault_article(book: Book, id_: str) -> Article:
    fault = book.model.faults[id_]
    proofs = [proof for shift in fault.shifts for proof in shift.proofs]
    return article("fault", id_, fault.label, fault.pack, [
        part(t.SAYS, _prior(book, fault)),
        known_part(book, id_, fault.basis, fault.place, fault.revision),
        part(t.SHOWS, _shows(book, fault)),
        part(t.LEADS, _leads(book, fault)),
        part(t.CURED, _cured(book, fault)),
        proofs_part(book, (*proofs, *fault.applies_proofs)),
    ])  # fmt: skip


def _prior(book: Book, fault: FaultDef) -> Iterator[Said]:
    template = t.PRIOR_CONDITION if fault.kind is Kind.CONDITION else t.PRIOR
    yield say(t.OF_KIND[fault.kind.value])
    yield say(template, often=often(fault.prior))
    for shift in fault.shifts:
        yield say(t.SHIFT, times=number(shift.times), sentence=book.sentence(shift.when))
    if fault.applies is not None:
        yield say(t.APPLIES, sentence=book.sentence(fault.applies))
    if fault.fills_with is not None:
        yield say(t.FILLS, what=id_said(FILLS, fault.fills_with.value))


def _shows(book: Book, fault: FaultDef) -> Iterator[Said]:
    for target, block in book.model.evidence.items():
        spread = block.seen_with.get(fault.id)
        if spread is not None:
            levels, words = levels_of(book.model, target), book.words.get(target)
            yield say(
                t.SEEN_IN, finding=target, label=book.finding(target),
                often=spread_said(spread, levels, words),
                otherwise=spread_said(block.otherwise, levels, words),
            )  # fmt: skip
    for target, spread in fault.hides.items():
        said = spread_said(spread, levels_of(book.model, target), book.words.get(target))
        yield say(t.HIDES_IT, finding=target, often=said)


def _leads(book: Book, fault: FaultDef) -> Iterator[Said]:
    for name, share in fault.leads_to.items():
        yield say(t.LEADS_TO, fault=name, label=book.fault(name), often=often(share))
    for cause in book.model.faults.values():
        if fault.id in cause.leads_to:
            said = often(cause.leads_to[fault.id])
            yield say(t.CAUSED_BY, fault=cause.id, label=cause.label, often=said)


def _cured(book: Book, fault: FaultDef) -> list[Said]:
    lines = [
        say(t.CURES, remedy=remedy.id, label=remedy.label, often=often(remedy.cures[fault.id]))
        for remedy in book.model.remedies.values()
        if fault.id in remedy.cures
    ]
    return lines or [say(t.NO_CURE)]


def signal_article(book: Book, id_: str) -> Article:
    signal = book.model.signals[id_]
    quantity = book.model.quantities.get(id_)
    slots = slots_of(signal)
    reads = dict.fromkeys(read for slot in slots for read in readings_behind(book.model, slot))
    given = given_part(book, reads)
    if not given.lines:
        header = id_ in FROM_HEADER or id_.startswith(FITTED)
        given = part(t.READ, [say(t.FROM_HEADER if header else t.NOT_GIVEN)])
    basis = None if quantity is None else quantity.basis
    kind = "signal" if quantity is None else "quantity"
    return article(kind, id_, signal.label, signal.pack, [
        part(t.SAYS, _signal(book, signal)), known_part(book, id_, basis, signal.place),
        given, used_part(book, *slots),
    ])  # fmt: skip


def _signal(book: Book, signal: Signal) -> Iterator[Said]:
    bare = signal.unit in (None, "none")
    unit = say("plain numbers") if bare else unit_said(signal.unit or "")
    numbers = {"unit": unit, "step": number(signal.step), "error": number(signal.error)}
    if signal.kind is SignalKind.CHOICE:
        yield say(t.SIGNAL_CHOICE, choices=words_listed(book, signal.id, signal.choices))
    elif signal.kind is SignalKind.YES_NO:
        yield say(t.SIGNAL_YES_NO)
    elif signal.possible is None:
        yield say(t.SIGNAL_OPEN, **numbers)
    else:
        low, high = (number(end) for end in signal.possible)
        yield say(t.SIGNAL_NUMBER, low=low, high=high, **numbers)
    quantity = book.model.quantities.get(signal.id)
    if quantity is not None:
        yield say(t.FORMULA, formula=quantity.formula, takes=listed(quantity.takes.values()))
    yield say(t.LASTS[signal.lasts.value])
    if signal.points:
        yield say(t.POINTS, points=listed(signal.points))
    for source, channel in signal.channels.items():
        yield say(
            t.CHANNEL_OF,
            channel=channel,
            source=source_id_said(source) if source else say(t.ANY_SOURCE),
        )
    if signal.asks:
        yield say(t.ASKS, asks=signal.asks)
    if signal.how:
        yield say(t.HOW, how=signal.how)
    if signal.shown_as:
        yield say(t.SHOWN_AS, names=listed(signal.shown_as))


def check_article(book: Book, id_: str) -> Article:
    check = book.model.checks[id_]
    done = [say(t.MINUTES, minutes=number(check.minutes), where=where_said(check.where.value))]
    if check.tools:
        done.append(say(t.TOOLS, tools=listed(tool_said(tool) for tool in check.tools)))
    if check.by_actions:
        done.append(say(t.BY_ACTION, actions=listed(check.by_actions)))
    if check.caution:
        done.append(say(t.CAUTION, caution=check.caution))
    done.append(say(t.GIVES, slots=listed(check.gives)))
    if check.applies is not None:
        done.append(say(t.APPLIES, sentence=book.sentence(check.applies)))
    return article("check", id_, check.does, check.pack, [
        part(t.DONE, done), known_part(book, id_, None, check.place),
        used_part(book, *slots_given(book.model, check)), proofs_part(book, check.applies_proofs),
    ])  # fmt: skip


def channel_article(book: Book, id_: str) -> Article:
    channel = book.model.channels[id_]
    lines = []
    if channel.proven_by:
        lines.append(say(t.PROVEN_BY, findings=listed(channel.proven_by)))
    if channel.nearest_first:
        lines.append(say(t.NEAREST, faults=listed(channel.nearest_first)))
    through = [
        say(t.USER, what=say(t.USER_KIND["signal"]), id=signal.id)
        for signal in book.model.signals.values()
        if id_ in signal.channels.values()
    ]
    return article("channel", id_, channel.label, channel.pack, [
        part(t.SAYS, lines), known_part(book, id_, None, channel.place), part(t.USED, through),
    ])  # fmt: skip


def point_article(book: Book, id_: str) -> Article:
    point = book.model.points[id_]
    read = [
        say(t.USER, what=say(t.USER_KIND["signal"]), id=f"{signal.id}@{id_}")
        for signal in book.model.signals.values()
        if id_ in signal.points
    ]
    return article("point", id_, point.label, point.pack, [
        part(t.SAYS, [say(t.CONDITIONS, conditions=point.conditions)]),
        known_part(book, id_, None, point.place), part(t.USED, read),
    ])  # fmt: skip


def action_article(book: Book, id_: str) -> Article:
    action = book.model.actions[id_]
    locks = book.model.interlocks
    lines = []
    if action.hurts:
        lines.append(say(t.HURTS, hurts=listed(hurt_said(each) for each in action.hurts)))
    if action.caution:
        lines.append(say(t.CAUTION, caution=action.caution))
    lines += [say(t.NEEDS, interlock=each, says=locks[each].says) for each in action.needs]
    lines += [say(t.HEEDS, interlock=each, says=locks[each].says) for each in action.heeds]
    lines += [
        say(t.STATE, state=each.state, count=each.count, interlocks=listed(each.blocked_by))
        for each in action.states
    ]
    users = [
        say(t.USER, what=say(t.USER_KIND[what]), id=thing)
        for what, things in (("check", book.model.checks), ("remedy", book.model.remedies))
        for thing, it in things.items()
        if id_ in it.by_actions
    ]
    return article("action", id_, action.does, action.pack, [
        part(t.SAYS, lines), known_part(book, id_, None, action.place), part(t.USED, users),
    ])  # fmt: skip
