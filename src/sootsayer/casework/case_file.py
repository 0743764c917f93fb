"""A case file as a Case, or every reason why not.

A torn last line is left out and kept in `Case.torn`. A case is closed by its outcome: what
may follow are notes and corrections. Time may run backwards from entry to entry, since
things are written down late; each entry needs its offset from UTC.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from sootsayer.casework.collector import Collector, text_of
from sootsayer.casework.entries import read_entry
from sootsayer.casework.header import read_limits, read_vehicle
from sootsayer.casework.layout import check_layout
from sootsayer.casework.model import Case
from sootsayer.casework.no_entries import parse_case
from sootsayer.casework.sequence import in_sequence
from sootsayer.catalogue import say
from sootsayer.documents.nodes import Document, Listing, Mapping, Scalar
from sootsayer.documents.reading import read_bytes
from sootsayer.documents.schema_check import check_schema
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.shipped import shipped_rules

FORMAT = 1


def read_case(path: Path, model: Model, *, shown_as: str | None = None) -> Case:
    """The case in the file `path`, which places name as `shown_as` (default: the path).

    Raises documents.Refused with every problem found: form, shape and meaning.
    """
    file = str(path) if shown_as is None else shown_as
    return case_of(parse_case(read_bytes(path, file), file), model)


def refuse_other_format(document: Document) -> None:
    """Raises documents.Refused for a format that is not known: what it means is not ours to judge.

    Needs no rulebook, so that such a file is refused before one is read.
    """
    collector = Collector(document)
    _check_format(document, collector)
    collector.raise_if_any()


def case_of(document: Document, model: Model) -> Case:
    """As `read_case`, from a document already read."""
    refuse_other_format(document)
    collector = Collector(document)
    case = _case(document, model, collector)
    check_layout(document, collector)
    collector.add_from_schema(check_schema(document, schema("case")))
    collector.raise_if_any()
    return case


@cache
def schema(name: str) -> dict[str, Any]:
    """The shipped JSON Schema of a format, "case" or "people"; not to be changed."""
    path = shipped_rules() / "schema" / f"{name}.schema.json"
    loaded: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return loaded


def _check_format(document: Document, collector: Collector) -> None:
    node = document.root.get("format")
    if isinstance(node, Scalar) and node.value != FORMAT:
        collector.add(
            node,
            say(
                "this case has format {format}, and only format {known} is known here",
                format=node.text,
                known=FORMAT,
            ),
            say(
                "use a version of this program that knows format {format}; "
                "write `format: {known}` if it is a slip",
                format=node.text,
                known=FORMAT,
            ),
        )


def _case(document: Document, model: Model, collector: Collector) -> Case:
    root = document.root
    vehicle = read_vehicle(root)
    listed = root.get("entries")
    nodes = [
        (number, node)
        for number, node in enumerate(listed.items if isinstance(listed, Listing) else (), start=1)
        if isinstance(node, Mapping)
    ]
    alone = [(read_entry(number, node, model, vehicle, collector), node) for number, node in nodes]
    return Case(
        id=text_of(root.get("case")) or "",
        file=document.file,
        vehicle=vehicle,
        limits=read_limits(root, model, collector),
        entries=in_sequence(alone, model, collector),
        story=text_of(root.get("story")) or "",
        torn=document.torn,
    )
