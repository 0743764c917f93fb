"""A lying instrument never acquits a filter: when anything may say that the filter is well."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sootsayer.belief.network import Kind
from sootsayer.judgement.beliefs import channels_read
from sootsayer.judgement.verdict import FamilySaid, FilterWell, FindingSaid
from sootsayer.judgement.views import SETTLED
from sootsayer.judgement.workings import Workings

LIKELY_ENOUGH = 0.7  # at least this sure that no condition is present


def filter_well(
    work: Workings,
    families: Sequence[FamilySaid],
    findings: Sequence[FindingSaid],
    none_condition: float,
) -> FilterWell:
    """Shown only by a reading of the filter that acquits it, where every reading that bears on a
    condition came through proven instruments, and no condition is likely.

    `because`: what stands in the way: "no-reading", "reading-accuses", channel ids that are not
    proven, or "fault-likely".
    """
    channels = sorted(set(_witness_channels(work, families)))
    unsettled = [c for c in channels if work.found.trust.states[c] not in SETTLED]
    because = [*_without_acquittal(work, families, findings), *unsettled]
    if none_condition < LIKELY_ENOUGH:
        because.append("fault-likely")
    return FilterWell(not because, tuple(because))


def _without_acquittal(
    work: Workings, families: Sequence[FamilySaid], findings: Sequence[FindingSaid]
) -> list[str]:
    """What is amiss with the readings that may acquit: none speaks, or one accuses."""
    said = {finding.id: finding.level for finding in findings}
    acquitting = {f.id: f.acquits_at for f in work.model.findings.values() if f.acquits_at}
    speaking = [f.speaker for f in families if f.speaker in acquitting]
    if not speaking:
        return ["no-reading"]
    accusing = [each for each in speaking if said[each] not in acquitting[each]]
    return ["reading-accuses"] if accusing else []


def _witness_channels(work: Workings, families: Sequence[FamilySaid]) -> Iterator[str]:
    """The channels behind the speaking findings that bear on a condition."""
    for family in families:
        if family.speaker is None or not _bears_on_condition(work, family.id):
            continue
        yield from channels_read(work, family.speaker)


def _bears_on_condition(work: Workings, family: str) -> bool:
    block = work.model.evidence.get(family)
    return block is not None and any(
        work.model.faults[fault].kind is Kind.CONDITION for fault in block.seen_with
    )
