"""A backtest as plain data, for a program."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from sootsayer.belief.network import Kind
from sootsayer.learning.archive.counted import Counted
from sootsayer.learning.backtest.changes import RuleChange
from sootsayer.learning.backtest.tally import BacktestTally, Examples
from sootsayer.learning.intervals import Interval, wilson

FORMAT = 1


def as_json(
    tally: BacktestTally, changes: Sequence[RuleChange], accepted: Sequence[str]
) -> dict[str, Any]:
    """Everything that was counted; cases are named up to twenty of each thing."""
    n = tally.archive.replayed
    return {
        "format": FORMAT,
        "archive": archive_json(tally.archive),
        "looser": _moves(tally.looser),
        "accepted": sorted(accepted),
        "stricter": _moves(tally.stricter),
        "changed": _examples(tally.changed),
        "leading_fault": _examples(tally.led_otherwise),
        "asked_first": _examples(tally.asked_otherwise),
        "findings": {name: _examples(each) for name, each in sorted(tally.findings.items())},
        "moved_confidence": tally.moved_numbers,
        "rules": [
            {
                "rule": each.name,
                "part": each.part,
                "how": each.how.value,
                "file": each.place.file.replace("\\", "/").rpartition("/")[2],
                "line": each.place.line,
                "verdicts": tally.rules[each.name],
            }
            for each in changes
        ],
        "outcomes": {kind.value: _kind(tally, kind, n) for kind in Kind},
        "squared_distance": {
            "without": tally.squared_before / n if n else None,
            "with": tally.squared_after / n if n else None,
        },
    }


def archive_json(archive: Counted) -> dict[str, Any]:
    """What was counted and what was not."""
    return {
        "files": archive.files,
        "replayed": archive.replayed,
        "synthetic": archive.drawn,
        "half_written_replayed": archive.torn,
        "left_out": {why.value: count for why, count in sorted(
            archive.left.items(), key=lambda pair: pair[0].value
        )},
        "named": [
            {"file": each.name, "case": each.case, "why": each.why.value, "detail": each.detail}
            for each in archive.named
        ],
    }  # fmt: skip


def interval_json(interval: Interval) -> list[float]:
    return [interval.low, interval.high]


def _kind(tally: BacktestTally, kind: Kind, n: int) -> dict[str, Any]:
    each = tally.kinds[kind]
    return {
        "right_without": each.right_before,
        "interval_without": interval_json(wilson(each.right_before, n)),
        "right_with": each.right_after,
        "interval_with": interval_json(wilson(each.right_after, n)),
        "better": _examples(each.better),
        "worse": _examples(each.worse),
        "other": _examples(each.other),
    }


def _moves(moves: Mapping[tuple[str, str, str], Examples]) -> list[dict[str, Any]]:
    return [
        {"action": action, "without": before, "with": after, **_examples(examples)}
        for (action, before, after), examples in sorted(moves.items())
    ]


def _examples(examples: Examples) -> dict[str, Any]:
    return {"count": examples.count, "cases": examples.cases}
