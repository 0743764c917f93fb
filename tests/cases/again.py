"""The verdict of a damaged rulebook, telling again only what the damage can reach.

What it cannot reach is kept from the verdict of the whole rulebook. Of a dropped link the other
families' shares in a fault are kept too: they shift a little, and what a case states of them is
not what notices a link.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from sootsayer.belief.inference import beliefs_of, posteriors, solve
from sootsayer.judgement.beliefs import Believed, faults_said, network_of, none_said
from sootsayer.judgement.permissions import drive_on, permissions
from sootsayer.judgement.verdict import Contribution, FaultSaid, Verdict
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.compiled import Rulebook


def permitted_again(work: Workings, verdict: Verdict, book: Rulebook) -> Verdict:
    """Where the actions alone are damaged."""
    damaged = replace(work, rulebook=book)
    permitted = permissions(damaged)
    return replace(verdict, permissions=permitted, drive_on=drive_on(damaged, permitted))


def believed_again(work: Workings, verdict: Verdict, book: Rulebook, family: str | None) -> Verdict:
    """Where the network alone is damaged; at a link of `family`, or between two faults."""
    damaged = replace(work, rulebook=book)
    network, evidence = network_of(damaged, verdict.families)
    solved = solve(network, evidence)
    beliefs = beliefs_of(network, solved)
    kin = [each for each in verdict.families if each.id == family and each.id in evidence]
    rest = {name: seen for name, seen in evidence.items() if name != family}
    without = {each.id: posteriors(network, rest) for each in kin}
    believed = Believed(network, evidence, solved, beliefs, without)
    before = {fault.id: fault for fault in verdict.faults}
    faults = tuple(
        _with_shares_kept(fault, before[fault.id], family)
        for fault in faults_said(damaged, believed, kin, verdict.findings)
    )
    return replace(verdict, none=none_said(beliefs), faults=faults)


def _with_shares_kept(fault: FaultSaid, before: FaultSaid, family: str | None) -> FaultSaid:
    return replace(
        fault,
        for_=(*fault.for_, *_others(before.for_, family)),
        against=(*fault.against, *_others(before.against, family)),
    )


def _others(shares: Sequence[Contribution], family: str | None) -> tuple[Contribution, ...]:
    return tuple(share for share in shares if share.family != family)
