"""The file that states what is expected of a case: `expected/ID.yaml` beside the cases."""

from __future__ import annotations

from pathlib import Path

from sootsayer.advice.like_for_like import Unlike
from sootsayer.casework.case_file import schema
from sootsayer.casework.collector import (
    Collector,
    integer_of,
    mapping_of,
    number_of,
    text_of,
)
from sootsayer.documents.nodes import Document, Listing, Mapping, Node, Place
from sootsayer.documents.problems import did_you_mean
from sootsayer.documents.reading import read_bytes
from sootsayer.documents.schema_check import check_schema
from sootsayer.documents.yaml_source import parse_document
from sootsayer.learning.expected import NONE, OPEN, Expected
from sootsayer.rulebook.model import Model

FOLDER = "expected"


def expected_path(case: Path) -> Path:
    """Where the expectations of the case in the file `case` stand."""
    return case.parent / FOLDER / case.name


def read_expected(path: Path, model: Model) -> tuple[Expected, ...]:
    """What is expected of the case of that name, one for each stage that the file names.

    Raises documents.Refused with every problem: form, shape, and ids that the rulebook lacks.
    """
    document = parse_document(read_bytes(path, str(path)), str(path))
    collector = Collector(document)
    stages = document.root.get("verdicts")
    nodes = [node for node in _items(stages) if isinstance(node, Mapping)]
    found = tuple(_expected(node) for node in nodes)
    _check_name(document, path, collector)
    for node in nodes:
        _check_ids(node, model, collector)
    collector.add_from_schema(check_schema(document, schema("expected")))
    collector.raise_if_any()
    return found


def _expected(node: Mapping) -> Expected:
    well = text_of(node.get("filter well"))
    return Expected(
        place=node.place,
        as_of=integer_of(node.get("as of")),
        because=text_of(node.get("because")) or "",
        leading=_texts(node.get("leading")),
        confidence={
            name: (_share(each, "at least", 0.0), _share(each, "at most", 1.0))
            for name, each in _pairs(node.get("confidence"))
        },
        no_fault_above=number_of(node.get("no fault above")),
        drive_on=text_of(node.get("drive on")),
        permissions=_texts(node.get("permissions")),
        blocked_by=_lists(node.get("blocked by")),
        waits_for=_lists(node.get("waits for")),
        instruments=_texts(node.get("instruments")),
        filter_well=None if well is None else well == "shown",
        set_aside=_list(node.get("set aside")),
        unknown=_list(node.get("unknown")),
        speaks_for=_lists(node.get("speaks for")),
        speaks_against=_lists(node.get("speaks against")),
        refused=_lists(node.get("refused")),
        compared=_list(node.get("compared")),
        comes_back={
            name: (_km(each, "soonest"), _km(each, "latest"))
            for name, each in _pairs(node.get("comes back"))
        },
    )


def _share(node: Node, key: str, otherwise: float) -> float:
    mapping = mapping_of(node)
    found = number_of(mapping.get(key)) if mapping else None
    return otherwise if found is None else found


def _km(node: Node, key: str) -> float:
    mapping = mapping_of(node)
    return (number_of(mapping.get(key)) if mapping else None) or 0.0


def _pairs(node: Node | None) -> list[tuple[str, Node]]:
    mapping = mapping_of(node)
    return list(mapping.items.items()) if mapping else []


def _items(node: Node | None) -> list[Node]:
    return list(node.items) if isinstance(node, Listing) else []


def _texts(node: Node | None) -> dict[str, str]:
    return {key: text_of(each) or "" for key, each in _pairs(node)}


def _list(node: Node | None) -> tuple[str, ...]:
    return tuple(text_of(each) or "" for each in _items(node))


def _lists(node: Node | None) -> dict[str, tuple[str, ...]]:
    return {key: _list(each) for key, each in _pairs(node)}


def _check_name(document: Document, path: Path, collector: Collector) -> None:
    node = document.root.get("case")
    if node is not None and text_of(node) != path.stem:
        what = f'this tells of the case "{text_of(node)}" and stands in {path.name}'
        collector.add(node, what, f"write `case: {path.stem}`, or rename the file")


def _check_ids(node: Mapping, model: Model, collector: Collector) -> None:
    """A misspelt id would never be seen to differ, or always."""
    faults, actions = list(model.faults), list(model.actions)
    findings = [*model.findings, *model.families]
    for key in ("confidence", "speaks for", "speaks against"):
        _known(node.get(key), faults, "fault", collector)
    for key in ("permissions", "blocked by", "waits for"):
        _known(node.get(key), actions, "action", collector)
    _known(node.get("instruments"), list(model.channels), "instrument", collector)
    _known(node.get("comes back"), list(model.remedies), "remedy", collector)
    slots = [
        slot
        for each in model.signals.values()
        for slot in ([f"{each.id}@{point}" for point in each.points] or [each.id])
    ]
    for key in ("refused", "compared"):
        _known(node.get(key), slots, "reading", collector)
    for _, each in _pairs(node.get("refused")):
        _known(each, [reason.value for reason in Unlike], "reason", collector)
    for key in ("set aside", "unknown"):
        _known(node.get(key), list(model.findings), "finding", collector)
    for key in ("speaks for", "speaks against"):
        for _, each in _pairs(node.get(key)):
            _known(each, findings, "finding", collector)
    for key in ("blocked by", "waits for"):
        for _, each in _pairs(node.get(key)):
            _known(each, list(model.interlocks), "interlock", collector)
    for kind, each in _pairs(node.get("leading")):
        of_kind = [one.id for one in model.faults.values() if one.kind.value == kind]
        _one_known(each, text_of(each) or "", [*of_kind, NONE, OPEN], f"{kind} fault", collector)


def _known(node: Node | None, ids: list[str], what: str, collector: Collector) -> None:
    if isinstance(node, Mapping):
        for key in node.items:
            _one_known(node.key_places.get(key, node.place), key, ids, what, collector)
    for each in _items(node):
        _one_known(each, text_of(each) or "", ids, what, collector)


def _one_known(
    where: Place | Node, name: str, ids: list[str], what: str, collector: Collector
) -> None:
    if name not in ids:
        near = did_you_mean(name, ids) or f"name a {what} of the rulebook"
        collector.add(where, f'there is no {what} "{name}"', near)
