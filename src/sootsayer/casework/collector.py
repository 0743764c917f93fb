"""Gathering every problem of one document before any of them is raised."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from sootsayer.documents.nodes import Document, Mapping, Node, Place, Scalar
from sootsayer.documents.problems import Problem, Refused


@dataclass(frozen=True, slots=True)
class Lacking(Problem):
    """Something is named that the rulebook does not know; `fault`: a fault."""

    fault: bool = False


@dataclass(slots=True)
class Collector:
    """Problems found in `document` so far; `plainer`: places that need no word of the schema."""

    document: Document
    problems: list[Problem] = field(default_factory=list)
    plainer: set[Place] = field(default_factory=set)

    def add(self, where: Place | Node, what: str, instead: str) -> None:
        """Note one problem, quoting its line."""
        place = where if isinstance(where, Place) else where.place
        self.problems.append(Problem(place, what, instead, self._line(place)))
        self._is_plainer(where, place)

    def lacks(self, where: Place | Node, what: str, instead: str, *, fault: bool = False) -> None:
        """As `add`, of a name that means nothing to the rulebook."""
        place = where if isinstance(where, Place) else where.place
        line = self._line(place)
        self.problems.append(Lacking(place, what, instead, line, fault=fault))
        self._is_plainer(where, place)

    def _line(self, place: Place) -> str:
        lines = self.document.lines
        return lines[place.line - 1] if 0 < place.line <= len(lines) else ""

    def _is_plainer(self, where: Place | Node, place: Place) -> None:
        if not isinstance(where, Mapping):  # of a mapping the schema may say something else
            self.plainer.add(place)

    def add_from_schema(self, problems: Iterable[Problem]) -> None:
        """Add what the schema found, except where something plainer was said of that place."""
        self.problems.extend(one for one in problems if one.place not in self.plainer)

    def raise_if_any(self) -> None:
        """Raise Refused with everything found, if anything was."""
        if self.problems:
            raise Refused(self.problems)


def text_of(node: Node | None) -> str | None:
    """The text of a scalar as typed (also of a number or boolean); None for anything else."""
    return node.text if isinstance(node, Scalar) else None


def number_of(node: Node | None) -> float | None:
    """The number of a scalar; None for anything else (the schema says so)."""
    if isinstance(node, Scalar) and not isinstance(node.value, bool):
        return float(node.value) if isinstance(node.value, int | float) else None
    return None


def integer_of(node: Node | None) -> int | None:
    """The whole number of a scalar; None for anything else (the schema says so)."""
    if isinstance(node, Scalar) and isinstance(node.value, int):
        return None if isinstance(node.value, bool) else node.value
    return None


def yes_no_of(node: Node | None) -> bool | None:
    """True for yes or true, false for no or false, None for anything else."""
    text = text_of(node)
    return {"yes": True, "true": True, "no": False, "false": False}.get(text or "")


def mapping_of(node: Node | None) -> Mapping | None:
    """The node if it is a mapping; None for anything else (the schema says so)."""
    return node if isinstance(node, Mapping) else None
