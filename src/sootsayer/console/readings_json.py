"""A log and its windows as plain data for JSON."""

from __future__ import annotations

from collections.abc import Mapping

from sootsayer.casework.logs.model import Column, Log, Summary, Window
from sootsayer.documents.problems import Problem

FORMAT = 1
Plain = dict[str, object]


def as_json(log: Log, facts: Mapping[int, Mapping[str, str]]) -> Plain:
    """What `readings --json` prints; `facts`: what each window would give, by its number."""
    shape = log.shape
    return {
        "format": FORMAT,
        "log": {
            "file": log.file,
            "sha256": log.digest,
            "rows": log.rows,
            "seconds": _rounded(log.length),
            "begun": log.begun.isoformat() if log.begun else None,
            "encoding": shape.encoding,
            "delimiter": shape.delimiter,
            "decimal_comma": shape.decimal_comma,
            "long": shape.long,
            "odometer_km": log.odometer,
            "engine_litres": log.litres,
        },
        "columns": [_column(column) for column in log.columns],
        "unused": list(log.unused),
        "windows": [_window(window, facts.get(window.number, {})) for window in log.windows],
        "warnings": [_warning(problem) for problem in log.warnings],
    }


def _column(column: Column) -> Plain:
    return {
        "role": column.role,
        "name": column.name,
        "unit": column.unit,
        "score": column.score,
        "said": column.said,
        "scaling": column.scaling or None,
    }


def _window(window: Window, facts: Mapping[str, str]) -> Plain:
    return {
        "number": window.number,
        "point": window.point,
        "regeneration": window.regeneration,
        "begins": _rounded(window.begins),
        "ends": _rounded(window.ends),
        "lines": [window.first_line, window.last_line],
        "apart": window.apart or None,
        "doubts": list(window.doubts),
        "channels": {role: _summary(one) for role, one in sorted(window.channels.items())},
        "facts": dict(facts),
    }


def _summary(summary: Summary) -> Plain:
    return {
        "unit": summary.unit,
        "mean": _rounded(summary.mean),
        "spread": _rounded(summary.spread),
        "lowest": _rounded(summary.lowest),
        "highest": _rounded(summary.highest),
        "drift": _rounded(summary.drift),
        "n": summary.n,
    }


def _warning(problem: Problem) -> Plain:
    place = problem.place
    return {
        "file": place.file,
        "line": place.line,
        "column": place.column,
        "what": problem.what,
        "instead": problem.instead,
    }


def _rounded(value: float) -> float:
    return round(value, 4) + 0.0
