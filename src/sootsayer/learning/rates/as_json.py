"""Rates and calibration as plain data, for a program."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sootsayer.learning.backtest.as_json import archive_json, interval_json
from sootsayer.learning.rates.proposals import Proposal
from sootsayer.learning.rates.selection import Selected
from sootsayer.learning.rates.shares import Rate
from sootsayer.learning.rates.tally import RatesTally
from sootsayer.learning.ratios import Ratio
from sootsayer.learning.reliability import Reliability

FORMAT = 1


def as_json(
    tally: RatesTally,
    rates: Sequence[Rate],
    proposed: Sequence[Proposal],
    selected: Sequence[Selected],
) -> dict[str, Any]:
    """Everything that was counted."""
    return {
        "format": FORMAT,
        "archive": archive_json(tally.archive),
        "calibration": {
            "leading": reliability_json(tally.leading),
            "every_fault": reliability_json(tally.every),
            **{kind.value: reliability_json(each) for kind, each in tally.by_kind.items()},
        },
        "confirmed": dict(sorted(tally.faults.items())),
        "rates": [_rate(each) for each in rates],
        "proposals": [
            {"of": p.of, "at": list(p.path), "now": p.now, "because": p.because, "n": p.rate.n}
            for p in proposed
        ],
        "selection": [
            {
                "of": each.of,
                "fault": each.fault,
                "known_with": each.with_known,
                "cases_with": each.with_all,
                "known_without": each.other_known,
                "cases_without": each.other_all,
            }
            for each in selected
        ],
    }


def reliability_json(taken: Reliability) -> dict[str, Any]:
    """The table, and the score in its parts; None of nothing."""
    brier = taken.brier()
    return {
        "tenths": [
            {
                "from": tenth.low,
                "to": tenth.high,
                "count": tenth.count,
                "said": tenth.said,
                "came_true": tenth.true,
                "wilson": interval_json(tenth.interval),
            }
            for tenth in taken.tenths()
        ],
        "brier": None
        if brier is None
        else {
            "count": brier.count,
            "score": brier.score,
            "reliability": brier.reliability,
            "resolution": brier.resolution,
            "uncertainty": brier.uncertainty,
            "within": brier.within,
        },
    }


def _rate(rate: Rate) -> dict[str, Any]:
    return {
        "of": rate.of,
        "fault": rate.fault or None,
        "hides": rate.hides,
        "n": rate.n,
        "left_out": rate.left_out,
        "file": rate.file,
        "line": rate.line,
        "levels": [
            {
                "level": each.level,
                "count": each.count,
                "said": each.said,
                "mean": each.mean,
                "jeffreys": interval_json(each.jeffreys),
                "wilson": interval_json(each.wilson),
                "outside": each.outside,
            }
            for each in rate.levels
        ],
        "ratio_seen": _ratio(rate.seen),
        "ratio_not_seen": _ratio(rate.missing),
        "log_weight": rate.weight,
    }


def _ratio(ratio: Ratio | None) -> dict[str, float] | None:
    if ratio is None:
        return None
    return {"value": ratio.value, "low": ratio.low, "high": ratio.high}
