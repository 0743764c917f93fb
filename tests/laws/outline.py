"""A verdict without what each piece of evidence did: the same road at a tenth of the cost.

The laws look at many cases; leaving every piece of evidence out in turn is most of the work
of `judge`, and changes nothing that they look at.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sootsayer.belief.inference import infer
from sootsayer.belief.network import Beliefs, Evidence, Kind, Network
from sootsayer.casework.model import Case
from sootsayer.judgement import verdict_json as plain
from sootsayer.judgement.beliefs import network_of
from sootsayer.judgement.channels import channels_said
from sootsayer.judgement.families import families
from sootsayer.judgement.filter_well import filter_well
from sootsayer.judgement.findings import findings
from sootsayer.judgement.permissions import drive_on, permissions
from sootsayer.judgement.verdict import (
    ChannelSaid,
    DriveOnSaid,
    FamilySaid,
    FilterWell,
    FindingSaid,
    InterlockSaid,
    PermissionSaid,
)
from sootsayer.judgement.workings import Workings, work_out
from sootsayer.rulebook.compiled import Rulebook
from tests.laws.making_cases import NOW, rulebook


@dataclass(frozen=True, slots=True)
class Outline:
    """What logic alone says of a case."""

    work: Workings
    findings: tuple[FindingSaid, ...]
    families: tuple[FamilySaid, ...]
    channels: tuple[ChannelSaid, ...]
    permissions: tuple[PermissionSaid, ...]
    drive_on: DriveOnSaid

    @property
    def interlocks(self) -> dict[str, InterlockSaid]:
        return {i.id: i for p in self.permissions for i in (*p.interlocks, *p.named)}


def outline(case: Case, now: datetime = NOW, book: Rulebook | None = None) -> Outline:
    work = work_out(case, book or rulebook(), now, None)
    found = findings(work)
    permitted = permissions(work)
    return Outline(
        work=work,
        findings=found,
        families=families(work.model, found),
        channels=channels_said(work),
        permissions=permitted,
        drive_on=drive_on(work, permitted),
    )


def network(told: Outline) -> tuple[Network, Evidence]:
    return network_of(told.work, told.families)


def beliefs(told: Outline) -> Beliefs:
    return infer(*network(told))


def well(told: Outline, believed: Beliefs | None = None) -> FilterWell:
    none = (believed or beliefs(told)).none[Kind.CONDITION]
    return filter_well(told.work, told.families, told.findings, none)


def as_plain(told: Outline, believed: Beliefs | None = None) -> dict[str, object]:
    """All of it as plain data, without the lines at which rules stand."""
    said: dict[str, object] = {
        "findings": [plain.finding(f) for f in told.findings],
        "families": [plain.family(f) for f in told.families],
        "channels": [plain.channel(c) for c in told.channels],
        "permissions": [plain.permission(p) for p in told.permissions],
        "drive_on": told.drive_on.state.value,
        "reasons": [plain.interlock(i) for i in told.drive_on.reasons],
    }
    if believed is not None:
        said["posteriors"] = believed.posteriors
        said["none"] = {kind.value: share for kind, share in believed.none.items()}
        said["candidates"] = [(c.faults, c.probability) for c in believed.candidates]
        said["well"] = well(told, believed)
    without = without_lines(said)
    assert isinstance(without, dict)
    return without


def without_lines(node: object) -> object:
    """Plain data without the lines of rules, which move when a pack is written otherwise."""
    if isinstance(node, dict):
        is_place = {"file", "line"} <= set(node)
        kept = {key: value for key, value in node.items() if not (is_place and key == "line")}
        return {key: without_lines(value) for key, value in kept.items()}
    if isinstance(node, list):
        return [without_lines(item) for item in node]
    return node
