"""A rulebook stays narrow enough for exact inference, whatever a case may show."""

from __future__ import annotations

from dataclasses import replace

from sootsayer.belief.network import Network, Seen
from sootsayer.belief.settling import MOST_LEAVES
from sootsayer.belief.width import most_leaves, widest
from sootsayer.catalogue import say
from sootsayer.documents.nodes import Place
from sootsayer.rulebook.desk import Desk
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.network import whole_network
from sootsayer.rulebook.reads import members_of

# So many faults may be tied when everything is seen at its highest level at once. No vehicle shows
# that: a case stays well below the 20 of `belief.elimination.WIDEST`, or else says that it is
# approximate.
MOST_TIED = 24
TOO_TIED = (
    "{count} faults are tied into one knot, and {most} is the most that can be reckoned exactly: "
    "{names}"
)
TOO_MANY_WAYS = (
    "what hides what can fall out in {count} ways, and {most} is the most that can be reckoned "
    "exactly: {names}"
)


def inference_stays_exact(desk: Desk, model: Model) -> None:
    """Refuse a knot of faults too wide for one table, and hiders in too many combinations."""
    network = _worst(model)
    width, names = widest(network, MOST_TIED)
    if width > MOST_TIED:
        desk.wrong(
            _place(model, names),
            say(TOO_TIED, count=width, most=MOST_TIED, names=", ".join(names)),
            say("take links away from the findings named, or split a finding that has many"),
        )
    leaves = most_leaves(network)
    hiders = tuple(fault.id for fault in model.faults.values() if fault.hides)
    if leaves > MOST_LEAVES:
        desk.wrong(
            _place(model, hiders),
            say(TOO_MANY_WAYS, count=leaves, most=MOST_LEAVES, names=", ".join(hiders)),
            say("let the hiders of one channel hide the same findings"),
        )


def _worst(model: Model) -> Network:
    """The whole network, each family with the links of its own block and of its members'."""
    network = whole_network(model)
    return replace(
        network,
        observables=tuple(
            replace(each, seen=_all_links(model, each.id)) for each in network.observables
        ),
    )


def _all_links(model: Model, family: str) -> tuple[Seen, ...]:
    links: dict[str, Seen] = {}
    for name in (family, *members_of(model, family)):
        if name in model.evidence:
            for fault, spread in model.evidence[name].seen_with.items():
                links.setdefault(fault, Seen(fault, spread))
    return tuple(links[fault] for fault in sorted(links))


def _place(model: Model, names: tuple[str, ...]) -> Place:
    return next(model.faults[name].place for name in names if name in model.faults)
