"""A rulebook stays narrow enough for exact inference, whatever a case may show."""

from __future__ import annotations

from sootsayer.belief.elimination import WIDEST
from sootsayer.belief.given import MOST_LEAVES
from sootsayer.belief.width import most_leaves, widest
from sootsayer.documents.nodes import Place
from sootsayer.rulebook.desk import Desk
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.network import whole_network


def inference_stays_exact(desk: Desk, model: Model) -> None:
    """Refuse a knot of faults too wide for one table, and hiders in too many combinations."""
    network = whole_network(model)
    width, names = widest(network)
    if width > WIDEST:
        desk.wrong(
            _place(model, names),
            f"{width} faults are tied into one knot, and {WIDEST} is the most that can be "
            f"reckoned exactly: {', '.join(names)}",
            "take links away from the findings named, or split a finding that has many",
        )
    leaves = most_leaves(network)
    hiders = tuple(fault.id for fault in model.faults.values() if fault.hides)
    if leaves > MOST_LEAVES:
        desk.wrong(
            _place(model, hiders),
            f"what hides what can fall out in {leaves} ways, and {MOST_LEAVES} is the most that "
            f"can be reckoned exactly: {', '.join(hiders)}",
            "let the hiders of one channel hide the same findings",
        )


def _place(model: Model, names: tuple[str, ...]) -> Place:
    return next(model.faults[name].place for name in names if name in model.faults)
