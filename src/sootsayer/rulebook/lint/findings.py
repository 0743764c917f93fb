"""Findings: proofs for every outcome, cuts that rise."""

from __future__ import annotations

from itertools import pairwise

from sootsayer.catalogue import Said, say
from sootsayer.engine.conditions import Const, Limit, Linear, Operand
from sootsayer.rulebook.desk import Desk
from sootsayer.rulebook.model import FindingDef, LimitDef, Model

CUT_IS_A_FACT = 'cut {number} of "{finding}" is another fact'
CUT_DOES_NOT_RISE = 'cut {number} of "{finding}" ({high}) is not above the one before ({low})'


def proofs_are_there(desk: Desk, model: Model) -> None:
    """Every finding has a proof for each of its levels and one that leaves it unknown."""
    for finding in model.findings.values():
        shown = {proof.then for proof in finding.proofs}
        wanted: list[str | bool | None] = (
            [*finding.levels, None] if finding.graded else [True, False, None]
        )
        missing = [_word(each) for each in wanted if each not in shown]
        if missing:
            desk.wrong(
                finding.place,
                say(
                    'no proof shows "{finding}" {outcomes}',
                    finding=finding.id,
                    outcomes=", ".join(missing),
                ),
                say("add to `proofs`: {{given: {{...}}, then: {outcome}}}", outcome=missing[0]),
            )


def _word(outcome: str | bool | None) -> str:
    if outcome is None:
        return "unknown"
    return str(outcome).lower() if isinstance(outcome, bool) else outcome


def cuts_rise(desk: Desk, model: Model) -> None:
    """The cuts of a grade rise, limits taken at their defaults; no cut is another fact."""
    for finding in model.findings.values():
        if len(finding.cuts) != len(finding.levels) - 1:
            continue
        values = [_at_default(cut, model.limits) for cut in finding.cuts]
        for rank, value in enumerate(values):
            if value is None and not _limit_is_missing(finding.cuts[rank], model):
                what = say(CUT_IS_A_FACT, number=rank + 1, finding=finding.id)
                _wrong_cut(desk, finding, rank, what, say("write a number or a limit"))
        for rank, (low, high) in enumerate(pairwise(values), start=1):
            if low is not None and high is not None and low >= high:
                what = say(
                    CUT_DOES_NOT_RISE,
                    number=rank + 1,
                    finding=finding.id,
                    high=f"{high:g}",
                    low=f"{low:g}",
                )
                _wrong_cut(desk, finding, rank, what, say("write the cuts rising"))


def _wrong_cut(desk: Desk, finding: FindingDef, rank: int, what: Said, instead: Said) -> None:
    place = desk.places.get(("cut", finding.id, str(rank)), finding.place)
    desk.wrong(place, what, instead)


def _limit_is_missing(cut: Operand, model: Model) -> bool:
    """Whether the limit's own declaration is broken, which has been said."""
    if isinstance(cut, Linear):
        return any(_limit_is_missing(part, model) for part in (cut.times, cut.of, cut.plus))
    return isinstance(cut, Limit) and cut.name not in model.limits


def _at_default(operand: Operand, limits: dict[str, LimitDef]) -> float | None:
    """The number, with limits at their defaults; None where it rests on a fact."""
    if isinstance(operand, Const):
        return operand.value
    if isinstance(operand, Limit):
        return limits[operand.name].default if operand.name in limits else None
    if isinstance(operand, Linear):
        parts = [_at_default(each, limits) for each in (operand.times, operand.of, operand.plus)]
        times, of, plus = parts
        if times is None or of is None or plus is None:
            return None
        return times * of + plus
    return None
