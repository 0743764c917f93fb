"""What a verdict comes down to, taken out of its JSON: what lists, pages and comparisons show.

The JSON may have been written by anybody: what has not the form that it should have is left out.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sootsayer.ledger.parts import mappings, part, text

KINDS = ("measurement", "condition", "cause")
NONE = "none"


def drive_on(told: Mapping[str, Any]) -> str:
    return text(told, "drive_on", "state")


def leading(told: Mapping[str, Any]) -> dict[str, str]:
    """By kind the fault that leads, `none` where it is likelier that there is none."""
    found: dict[str, str] = {}
    for kind in KINDS:
        first = next((f for f in mappings(told.get("faults")) if f.get("kind") == kind), None)
        none = share(part(told, "none").get(kind))
        leads = first is not None and share(first.get("confidence")) > none
        found[kind] = str(first.get("id")) if first is not None and leads else NONE
    return found


def leading_faults(told: Mapping[str, Any]) -> tuple[str, ...]:
    """The ids of the faults that lead, in the order of their kinds."""
    return tuple(fault for fault in leading(told).values() if fault != NONE)


def confidences(told: Mapping[str, Any]) -> dict[str, float]:
    """Fault to confidence, likeliest first."""
    return {str(f.get("id")): share(f.get("confidence")) for f in mappings(told.get("faults"))}


def labels(told: Mapping[str, Any]) -> dict[str, str]:
    """What faults, findings and actions are called."""
    found: dict[str, str] = {}
    for key, name, label in (
        ("faults", "id", "label"),
        ("findings", "id", "says"),
        ("permissions", "action", "does"),
        ("plan", "remedy", "label"),
        ("next_checks", "id", "does"),
        ("limits", "id", "label"),
    ):
        for each in mappings(told.get(key)):
            found.setdefault(str(each.get(name)), str(each.get(label) or each.get(name)))
    return found


def permissions(told: Mapping[str, Any]) -> dict[str, str]:
    """Action to state."""
    return {str(p.get("action")): str(p.get("state")) for p in mappings(told.get("permissions"))}


def findings(told: Mapping[str, Any]) -> dict[str, str]:
    """Finding to what it says: its level, `unknown`, or `set-aside`."""
    return {
        str(f.get("id")): "set-aside" if f.get("set_aside") else str(f.get("level") or "unknown")
        for f in mappings(told.get("findings"))
    }


def limits(told: Mapping[str, Any]) -> dict[str, float]:
    return {str(each.get("id")): share(each.get("value")) for each in mappings(told.get("limits"))}


def work(told: Mapping[str, Any]) -> dict[str, str]:
    """Remedy to state, in the plan's order."""
    return {str(r.get("remedy")): str(r.get("state")) for r in mappings(told.get("plan"))}


def share(found: object) -> float:
    """A number; 0 for anything else."""
    if isinstance(found, bool) or not isinstance(found, int | float):
        return 0.0
    return float(found)
