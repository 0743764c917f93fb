"""One file of an archive: a closed case ready to be judged again, or why it is none."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import Enum

from sootsayer.casework.case_file import case_of
from sootsayer.casework.collector import Lacking
from sootsayer.casework.model import Case, Outcome
from sootsayer.casework.no_entries import parse_case
from sootsayer.catalogue import say
from sootsayer.documents.nodes import Document, Scalar
from sootsayer.documents.problems import Refused
from sootsayer.learning.archive.shelf import reason
from sootsayer.learning.synthetic_mark import is_synthetic
from sootsayer.rulebook.model import Model


class Left(Enum):
    """Why a file was left out. The order is that of the page."""

    OPEN = "open"
    SYNTHETIC = "synthetic"
    TWICE = "twice"
    BROKEN = "broken"
    HALF_WRITTEN = "half-written"
    UNKNOWN_FAULT = "unknown fault"
    OTHER_RULEBOOK = "other rulebook"
    NOT_JUDGED = "not judged"
    FOLDER = "folder"


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A file that was not replayed: its case's id where that could be read, and why not."""

    why: Left
    case: str = ""
    detail: str = ""


@dataclass(frozen=True, slots=True)
class Closed:
    """A case with a confirmed outcome. `as_of`: the last entry at which all that was confirmed
    was still there: before the work that cured it, else before the outcome. `at`: its moment."""

    case: Case
    outcome: Outcome
    as_of: int
    at: datetime


def parsed(data: bytes, name: str) -> Document | LeftOut:
    """The document, or why it is no case."""
    try:
        document = parse_case(data, name)
    except Refused as refused:
        return LeftOut(Left.BROKEN, detail=reason(refused))
    if "case" not in document.root or "entries" not in document.root:
        return LeftOut(
            Left.BROKEN, detail=say("1:1: this is no case: it has no `case` and `entries`")
        )
    return document


def closed_of(document: Document, model: Model, *, synthetic: bool = False) -> Closed | LeftOut:
    """The closed case in the document, by this rulebook. `synthetic`: drawn ones too."""
    name = _id(document)
    if is_synthetic(name) and not synthetic:
        return LeftOut(Left.SYNTHETIC, name)
    try:
        case = case_of(document, model)
    except Refused as refused:
        return LeftOut(_whose(refused), name, reason(refused))
    outcomes = [entry.outcome for entry in case.entries if entry.outcome is not None]
    if not outcomes:
        return LeftOut(Left.OPEN if case.torn is None else Left.HALF_WRITTEN, case.id)
    as_of = _still_there(case, outcomes[-1])
    if as_of == 0:
        return LeftOut(Left.NOT_JUDGED, case.id, say("nothing was entered before its outcome"))
    return Closed(case, outcomes[-1], as_of, case.entries[as_of - 1].at)


def _id(document: Document) -> str:
    node = document.root.get("case")
    return node.text if isinstance(node, Scalar) else ""


def _still_there(case: Case, outcome: Outcome) -> int:
    """How many entries stand before what cured it, or before the outcome."""
    for entry in case.entries:
        if entry.outcome is not None or (entry.work is not None and entry.work in outcome.cured_by):
            return entry.number - 1
    return len(case.entries)


def _whose(refused: Refused) -> Left:
    """A case that only names what this rulebook lacks was written by another revision of it."""
    found = [problem for problem in refused.problems if isinstance(problem, Lacking)]
    if len(found) < len(refused.problems):
        return Left.BROKEN
    return Left.UNKNOWN_FAULT if all(each.fault for each in found) else Left.OTHER_RULEBOOK
