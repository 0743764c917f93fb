"""A comparison as plain data for JSON; `docs/reference/comparison.md` describes the form."""

from __future__ import annotations

from sootsayer.advice.like_for_like import Change, Taken
from sootsayer.advice.like_for_like_outcome import Standing
from sootsayer.judgement.compare import Comparison, Figure
from sootsayer.judgement.compare_remains import Remaining, Remains
from sootsayer.judgement.rounding import six
from sootsayer.judgement.verdict import RefusedSaid
from sootsayer.judgement.verdict_json import Plain, refused
from sootsayer.physics.measured import Measured

FORMAT = 1


def as_json(
    compared: Comparison, refusals: tuple[RefusedSaid, ...], remains: Remains, program: str
) -> Plain:
    """The comparison as dictionaries, lists, text, numbers and booleans."""
    return {
        "format": FORMAT,
        "program": program,
        "case": compared.case,
        "from": compared.from_round,
        "to": compared.to_round,
        "helped": compared.outcome.helped.value,
        "because": [reason.value for reason in compared.outcome.because],
        "changes": [_change(change) for change in compared.changes],
        "refused": [refused(refusal) for refusal in refusals],
        "figures": [_figure(figure) for figure in compared.figures],
        "work": [{"work": done.work, "entry": done.entry} for done in compared.works],
        "before": _standing(compared.before),
        "after": _standing(compared.after),
        "unsettled": list(compared.unsettled),
        "remains": {
            "conditions": [_remaining(one) for one in remains.conditions],
            "causes": [_remaining(one) for one in remains.causes],
            "ash": remains.ash,
            "no_cause": remains.no_cause,
            "oil_read": remains.oil_read,
        },
    }


def _change(change: Change) -> Plain:
    pair = change.resistance
    return {
        "before": _taken(change.before),
        "after": _taken(change.after),
        "by_flow": change.by_flow,
        "brought": measured(change.brought),
        "now": measured(change.now),
        "difference": measured(change.difference),
        "ratio": None if change.ratio is None else measured(change.ratio),
        "resistance": None if pair is None else [measured(one) for one in pair],
        "real": change.real,
    }


def _taken(taken: Taken) -> Plain:
    return {
        "slot": taken.slot,
        "entry": taken.entry,
        "shown": measured(taken.shown),
        "zero": None if taken.zero is None else measured(taken.zero),
        "instrument": taken.channel,
    }


def measured(number: Measured) -> Plain:
    return {"value": six(number.value), "sd": six(number.sd)}


def _figure(figure: Figure) -> Plain:
    return {
        "slot": figure.slot,
        "unit": figure.unit,
        "before": measured(figure.before),
        "after": measured(figure.after),
        "counts": False,
    }


def _standing(standing: Standing) -> Plain:
    return {
        "level": standing.level,
        "borderline": standing.borderline,
        "point": standing.point or None,
        "settled": standing.settled,
    }


def _remaining(one: Remaining) -> Plain:
    return {"id": one.id, "label": one.label, "confidence": one.confidence}
