"""Evidence: a link may only raise what is seen (noisy-OR, noisy-MAX)."""

from __future__ import annotations

from sootsayer.belief.noisy import SpreadProblem, spread_problems
from sootsayer.catalogue import say
from sootsayer.rulebook.desk import Desk
from sootsayer.rulebook.model import EvidenceDef, Model

LOWERS = (
    '"{fault}": "{finding}" is seen less with it than otherwise ({place})',
    "write at least `otherwise`; a fault that lowers a reading is a `hides`",
)
FALLS = (
    '"{fault}": "{finding}" is pushed up unevenly: the share up to a level, over that of '
    "`otherwise`, falls on the way ({place})",
    "move some of the spread from the upper levels down, or from the middle up",
)


def links_only_raise(desk: Desk, model: Model) -> None:
    """With a fault present, every level and those above are at least as likely as otherwise."""
    for evidence in model.evidence.values():
        for fault in evidence.seen_with:
            _one(desk, evidence, fault)


def _one(desk: Desk, evidence: EvidenceDef, fault: str) -> None:
    found = spread_problems(evidence.otherwise, evidence.seen_with[fault])
    if SpreadProblem.LOWERS in found:
        what, instead = LOWERS
    elif SpreadProblem.DECREASES in found:
        what, instead = FALLS
    else:
        return
    desk.wrong(
        evidence.places[fault],
        say(what, fault=fault, finding=evidence.finding, place=evidence.places[""]),
        say(instead),
    )
