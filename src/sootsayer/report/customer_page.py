"""The page for the customer: everyday words, likelihood in words, and never a per cent."""

from __future__ import annotations

from collections.abc import Iterator

from sootsayer.catalogue import Said, say, shown
from sootsayer.catalogue_numbers import day_said, moment_said
from sootsayer.console.words import confidence, confidence_word, drive_said
from sootsayer.judgement.verdict import DriveOn, FaultSaid, InterlockSaid
from sootsayer.physics.measured import Measured
from sootsayer.report import customer_texts as t
from sootsayer.report.coming_back import coming_back
from sootsayer.report.cost import cost_of
from sootsayer.report.open_ends import open_ends
from sootsayer.report.reported import DRIVE_ON, KINDS, Reported, worth_telling
from sootsayer.report.sheet import Block, Caution, Items, Section, Sheet, Text

_MOST_REASONS, _MOST_OPEN = 3, 7


def customer_page(of: Reported) -> Sheet:
    """The sheet."""
    verdict = of.verdict
    slots = {"case": verdict.case, "date": day(of)}
    under = say(t.UNDER, **slots)
    if of.shop is not None and of.shop.name:
        under = say(t.UNDER_SHOP, **slots, shop=of.shop.name)
    sections = (
        Section(say(t.DRIVE), tuple(_drive(of))),
        Section(say(t.WRONG), tuple(_wrong(of))),
        Section(say(t.SURE), tuple(_sure(of))),
        Section(say(t.DONE), tuple(_done(of))),
        Section(say(t.COST), tuple(_cost(of))),
        Section(say(t.KEEP), tuple(_keep(of))),
        Section(say(t.BACK), (Items(tuple(coming_back(of))),)),
        Section(say(t.NOT_CHECKED), (Items(tuple(_not_checked(of))),)),
    )
    vehicle = of.names.vehicle or say("vehicle")
    return Sheet(t.ID, say(t.TITLE, vehicle=vehicle), under, sections, say(t.FOOT))


def day(of: Reported) -> str:
    return day_said(of.verdict.as_of_time)


def work_label(of: Reported, work: str) -> Said:
    """The label of a remedy; of work that the rulebook does not know, the word as entered."""
    remedy = of.remedy(work)
    return shown(remedy.label if remedy is not None else work.replace("-", " "))


def _drive(of: Reported) -> Iterator[Block]:
    drive = of.verdict.drive_on
    yield Text(drive_said(drive.state), strong=True)
    reasons = tuple(_reason(lock) for lock in drive.reasons[:_MOST_REASONS])
    if drive.state is DriveOn.NOT_YET_KNOWN:
        unknown = drive.unknown[: _MOST_REASONS - len(reasons)]
        reasons += tuple(say(t.DRIVE_UNKNOWN, says=lock.says) for lock in unknown)
    if reasons:
        yield Items(reasons)
    permission = of.permission(DRIVE_ON)
    if permission is not None and permission.caution:
        yield Caution(say(t.CAUTION), shown(permission.caution))


def _reason(lock: InterlockSaid) -> Said:
    return shown(lock.when_not or lock.says)


def _wrong(of: Reported) -> Iterator[Block]:
    told = [*_confirmed(of)]
    faults = _faults(of)
    for fault in faults:
        slots = {"label": fault.label, "confidence": confidence(fault.confidence)}
        told.append(say(t.KIND[fault.kind], **slots))
    if not told:
        told.append(say(t.WRONG_NOTHING))
    elif not any(fault.kind == "cause" for fault in faults) and of.outcome is None:
        told.append(say(t.NO_CAUSE))
    yield Items(tuple(told))
    if of.verdict.filter_well.shown:
        yield Text(say(t.WELL_NOW))
    elif any(fault.kind == "condition" for fault in faults):
        yield Text(say(t.NOT_WELL_NOW))


def _confirmed(of: Reported) -> Iterator[Said]:
    if of.outcome is not None:
        yield from (say(t.CONFIRMED, label=of.names.of(fault)) for fault in of.outcome.faults)


def _faults(of: Reported) -> list[FaultSaid]:
    """What was wrong when it came in; what has been confirmed is not told a second time."""
    sure = set() if of.outcome is None else set(of.outcome.faults)
    every = [fault for kind in KINDS for fault in worth_telling(of.at_arrival, kind)]
    return [fault for fault in every if fault.id not in sure]


def _sure(of: Reported) -> Iterator[Block]:
    faults = _faults(of)
    words = {confidence_word(fault.confidence) for fault in faults}
    told = [say(t.OF_TEN[word]) for word in t.OF_TEN if word in words]
    if of.outcome is not None and of.outcome.faults:
        told.insert(0, say(t.ONLY_CONFIRMED))
    yield Items(tuple(told or [say(t.NOTHING_SURE)]))
    if not of.at_arrival.exact:
        yield Text(say(t.INEXACT))


def _done(of: Reported) -> Iterator[Block]:
    if not of.done:
        yield Text(say(t.DONE_NOTHING))
        return
    yield Items(
        tuple(
            say(t.WORK, work=work_label(of, work), date=moment_said(entry.at))
            for entry, work in of.done
        )
    )
    yield Text(helped_said(of))


def helped_said(of: Reported) -> Said:
    """Whether it helped, with the fall as a fraction in words."""
    if of.told is None:
        return say(t.NOT_COMPARED)
    found = of.told.compared.outcome
    ratio = found.leading.ratio if found.leading is not None else None
    return say(t.HELPED[found.helped.value], share=share_said(ratio))


def share_said(ratio: Measured | None) -> Said:
    if ratio is None:
        return say(t.FELL)
    return say(next(words for most, words in t.SHARES if ratio.value <= most))


def _cost(of: Reported) -> Iterator[Block]:
    told = [cost_of(of, work, work_label(of, work)) for _, work in of.done]
    if not told:
        yield Text(say(t.COST_NOTHING))
        return
    yield Items(tuple(told))
    yield Text(say(t.COST_INVOICE))


def _keep(of: Reported) -> Iterator[Block]:
    told: list[Said] = []
    for fault in worth_telling(of.verdict, "cause"):
        slots = {"label": fault.label, "confidence": confidence(fault.confidence)}
        told.append(say(t.KEEP_CAUSE, **slots))
    for _, work in of.done:
        remedy = of.remedy(work)
        if remedy is not None and remedy.tell_the_customer:
            told.append(shown(remedy.tell_the_customer))
    if not told:
        told.append(say(t.KEEP_UNKNOWN if _open_condition(of) else t.KEEP_NOTHING))
    if of.told is not None and not of.told.remains.oil_read:
        told.append(say(t.KEEP_OIL))
    yield Items((*dict.fromkeys(told), say(t.KEEP_LAMP)))


def _open_condition(of: Reported) -> bool:
    """Whether the filter or exhaust has a likely fault, of which no cause is known."""
    return bool(worth_telling(of.verdict, "condition"))


def _not_checked(of: Reported) -> Iterator[Said]:
    ends = open_ends(of)
    if not ends:
        yield say(t.NOTHING_LEFT)
    yield from ends[:_MOST_OPEN]
    if len(ends) > _MOST_OPEN:
        yield say(t.MORE, count=len(ends) - _MOST_OPEN)
