"""The files under rules/spreads/ → `Spreads`, with everything that is wrong in them."""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from sootsayer.documents.nodes import Document, Listing, Mapping, Node, Scalar
from sootsayer.documents.problems import Problem, Refused, did_you_mean
from sootsayer.documents.schema_check import check_schema
from sootsayer.documents.yaml_source import read_document
from sootsayer.learning.ranges import Either, Range, Span
from sootsayer.learning.simulated.vehicle import KNOBS
from sootsayer.learning.spreads import Plan, Spreads
from sootsayer.rulebook.shipped import shipped_rules

FILES = ("sound-vehicle", "faults", "plan")
Found = list[Problem]


def shipped_spreads() -> Path:
    return shipped_rules() / "spreads"


def read_spreads(folder: Path) -> Spreads:
    """The ranges and the plan of a folder. Raises Refused with all that is wrong in its files."""
    documents = {name: read_document(folder / f"{name}.yaml") for name in FILES}
    problems: Found = []
    for document in documents.values():
        problems += check_schema(document, schema())
    if problems:
        raise Refused(problems)
    sound = _knobs(documents["sound-vehicle"], documents["sound-vehicle"].root["knobs"], problems)
    top = documents["sound-vehicle"].root["knobs"]
    for knob in sorted(KNOBS - sound.keys() if not problems else ()):
        problems.append(Problem(top.place, f'no range for "{knob}"', "add it under `knobs`", ""))
    faults = {
        fault: _knobs(documents["faults"], knobs, problems)
        for fault, knobs in _items(documents["faults"].root["faults"])
    }
    plan = _plan(documents["plan"].root["plan"])
    if problems:
        raise Refused(problems)
    return Spreads(sound, faults, plan)


@cache
def schema() -> dict[str, Any]:
    """The shipped JSON Schema of these files; not to be changed."""
    path = shipped_rules() / "schema" / "spreads.schema.json"
    loaded: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return loaded


def _knobs(document: Document, node: Node, problems: Found) -> dict[str, Range]:
    found: dict[str, Range] = {}
    for name, written in _items(node):
        line = document.lines[written.place.line - 1]
        if name not in KNOBS:
            guess = did_you_mean(name, sorted(KNOBS)) or "name one of sound-vehicle.yaml"
            problems.append(Problem(written.place, f'unknown knob "{name}"', guess, line))
            continue
        try:
            found[name] = _range(written)
        except ValueError as error:
            instead = "write `from` and `to`, rising, and `most` between them"
            problems.append(Problem(written.place, f"{name}: {error}", instead, line))
    return found


def _range(node: Node) -> Range:
    assert isinstance(node, Mapping)
    ways = node.get("one of")
    if not isinstance(ways, Listing):
        return _span(node)
    weights = [_number(way, "share", 1.0) for way in ways]
    spans = [_span(way) for way in ways]
    return Either(tuple((w / sum(weights), s) for w, s in zip(weights, spans, strict=True)))


def _span(node: Node) -> Span:
    assert isinstance(node, Mapping)
    most = _number(node, "most", float("nan")) if "most" in node else None
    log = node.get("log")
    logged = isinstance(log, Scalar) and log.value is True
    return Span(_number(node, "from", 0.0), _number(node, "to", 0.0), most, logged)


def _plan(node: Node) -> Plan:
    assert isinstance(node, Mapping)
    behind, blocks = node["behind"], node["blocks"]
    assert isinstance(behind, Listing)
    assert isinstance(blocks, Listing)
    return Plan(
        seed=int(_number(node, "seed", 0.0)),
        vehicles=int(_number(node, "vehicles", 0.0)),
        zero_read=_number(node, "zero-read", 0.0),
        unforeseen=_number(node, "unforeseen", 0.0),
        behind=tuple(
            (_number(way, "share", 0.0), _texts(way["faults"]))
            for way in behind
            if isinstance(way, Mapping)
        ),
        blocks=_texts(blocks),
    )


def _number(node: Node, key: str, otherwise: float) -> float:
    value = node.get(key) if isinstance(node, Mapping) else None
    if isinstance(value, Scalar) and isinstance(value.value, int | float):
        return float(value.value)
    return otherwise


def _texts(node: Node) -> tuple[str, ...]:
    assert isinstance(node, Listing)
    return tuple(str(item.value) for item in node if isinstance(item, Scalar))


def _items(node: Node) -> Iterator[tuple[str, Node]]:
    assert isinstance(node, Mapping)
    yield from node.items.items()
