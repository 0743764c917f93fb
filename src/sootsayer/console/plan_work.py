"""One piece of work on the page: what it takes, what it leaves, and how it is done."""

from __future__ import annotations

from datetime import timedelta

from sootsayer.catalogue import Said, listed, say, shown
from sootsayer.catalogue_numbers import day_said, figure, fixed, with_unit
from sootsayer.console import plan_texts as t
from sootsayer.console.names import Names
from sootsayer.console.paper import STRONG, Line
from sootsayer.console.plan_numbers import between, expected, price
from sootsayer.console.plan_sought import HARDLY, NO_REPAIR, told_cures
from sootsayer.console.words import confidence
from sootsayer.judgement.plan_said import HowSaid, RemedySaid, ReturnSaid
from sootsayer.judgement.verdict import Verdict
from sootsayer.rulebook.model import Recheck


def work_lines(
    said: RemedySaid, number: int, verdict: Verdict, names: Names, *, more: bool
) -> list[Line]:
    """A piece of permitted work that the plan does, whole."""
    lines = [Line(say(t.WORK, number=number, label=said.label), indent=2, style=STRONG)]
    lines += [Line(text, indent=5) for text in takes(said, verdict, names, more=more)]
    lines += [Line(text, indent=5) for text in concerns(said, verdict, names)]
    if said.how is not None:
        lines += _how(said.how)
        lines += _afterwards(said, verdict, names)
    return lines


def takes(said: RemedySaid, verdict: Verdict, names: Names, *, more: bool) -> list[Said]:
    """Its chances and what it costs, alone and on average; `more`: on faint faults too."""
    plan = verdict.plan
    assert plan is not None
    chances = listed(
        [
            say(t.CURE, label=names.of(fault), share=fixed(100 * chance))
            for fault, chance in told_cures(said, verdict, more=more).items()
        ]
    )
    own = price(said, plan)
    if said.expected is None:
        return [say(t.CURES, faults=chances), say(t.PRICE, price=own)]
    if said.expected.left >= HARDLY:
        alone = say(t.ALONE, confidence=confidence(said.alone))
        alone = say(t.PART_ONLY) if said.expected.left >= NO_REPAIR else alone
        return [say(t.CURES, faults=chances), alone, say(t.PRICE, price=own)]
    whole = expected(said.expected, plan)
    return [
        say(t.CURES, faults=chances),
        say(t.ALONE, confidence=confidence(said.alone)),
        say(t.PRICE, price=own),
        say(t.EXPECTED, expected=whole, left=confidence(said.expected.left)),
    ]


def concerns(said: RemedySaid, verdict: Verdict, names: Names) -> list[Said]:
    """What it would hide, needs mended first, leaves, and when that comes back."""
    sure = {fault.id: fault.confidence for fault in verdict.faults}

    def told(template: str, fault: str) -> Said:
        return say(template, label=names.of(fault), confidence=confidence(sure.get(fault, 0.0)))

    lines = [told(t.HIDES, fault) for fault in said.hides]
    lines += [told(t.MEND_FIRST, fault) for fault in said.mend_first]
    lines += [told(t.LEAVES, fault) for fault in said.leaves if fault not in said.mend_first]
    if said.returns is not None:
        lines.append(_returns(said.returns, names))
    return lines


def _returns(said: ReturnSaid, names: Names) -> Said:
    slots = {
        "label": names.of(said.of),
        "km": between(said.km, "km"),
        "rate": say(t.OWN_RATE) if said.own else say(t.USUAL_RATE),
    }
    if said.days is None:
        return say(t.RETURNS, **slots)
    return say(t.RETURNS_DAYS, **slots, days=between(said.days, "days"))


def _how(how: HowSaid) -> list[Line]:
    lines = [Line(say(t.DOES, does=how.does.rstrip(".")), indent=5)]
    for each in how.cautions:
        template = t.CAUTION_OF if each.action else t.CAUTION
        text = say(template, does=each.does, caution=each.caution)
        lines.append(Line(text, indent=5))
    for number, step in enumerate(how.steps, start=1):
        lines.append(Line(say(t.STEP, number=number, does=step.does), indent=5))
        if step.caution:
            lines.append(Line(say(t.CAUTION, caution=step.caution), indent=8))
    lines += [Line(say(t.STOP, text=text), indent=5) for text in how.stop_when]
    return lines


def _afterwards(said: RemedySaid, verdict: Verdict, names: Names) -> list[Line]:
    how = said.how
    assert how is not None
    texts: list[Said] = []
    if how.consumes:
        texts.append(say(t.CONSUMES, text=listed([shown(each) for each in how.consumes])))
    if how.oil_afterwards:
        texts.append(say(t.OIL, text=how.oil_afterwards))
    texts += [say(t.RESETS, text=each) for each in how.resets]
    texts += [say(t.THEN, text=each) for each in said.then]
    if said.verify:
        texts.append(say(t.VERIFY, slots=listed([names.of(slot) for slot in said.verify])))
    if how.voids:
        texts.append(say(t.VOIDS, channels=listed([names.of(each) for each in how.voids])))
    texts += [_recheck(each, verdict) for each in how.rechecks]
    if how.tell_the_customer:
        texts.append(say(t.CUSTOMER, text=how.tell_the_customer))
    return [Line(text, indent=5) for text in texts]


def _recheck(when: Recheck, verdict: Verdict) -> Said:
    """The date is reckoned from the entry that the verdict is as of."""
    date = Said("")
    if when.days is not None:
        try:
            date = day_said(verdict.as_of_time + timedelta(days=when.days))
        except OverflowError:
            date = Said("")
    if when.km is None:
        return say(t.RECHECK_DAYS, date=date)
    km = with_unit(figure(f"{when.km:g}", grouped=True), "km")
    return say(t.RECHECK_BOTH, km=km, date=date) if date else say(t.RECHECK_KM, km=km)
