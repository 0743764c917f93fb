"""The verdict that a master technician expects of a case, and where a verdict differs from it.

Only what is stated is expected. Pure: files are read in `expected_file`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from sootsayer.documents.nodes import Place
from sootsayer.judgement.verdict import InterlockSaid, Permitted, Verdict

NONE, OPEN = "none", "open"  # of a kind: no fault leads; nothing is settled
SETTLED = 0.5  # below, a kind is open
NEAR = 0.02  # a distance is as stated within this share of it


@dataclass(frozen=True, slots=True)
class Expected:
    """What is expected of the verdict as of an entry (None: the last).

    `leading`: kind to the fault that leads with at least one half, to "none", or to "open" where
    neither does. `confidence`: fault to lowest and highest. `blocked_by`, `waits_for`: action to
    interlocks that are blocked, or not yet clear. `speaks_for`, `speaks_against`: fault to the
    findings, or families, whose evidence raises or lowers it. `refused`: a reading to the reasons
    for which it is not compared with the first round's; `compared`: readings that are.
    `comes_back`: work to the soonest and the latest km after which the filter is full again.
    """

    place: Place
    as_of: int | None = None
    because: str = ""
    leading: Mapping[str, str] = field(default_factory=dict)
    confidence: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    no_fault_above: float | None = None
    drive_on: str | None = None
    permissions: Mapping[str, str] = field(default_factory=dict)
    blocked_by: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    waits_for: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    instruments: Mapping[str, str] = field(default_factory=dict)
    filter_well: bool | None = None
    set_aside: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()
    speaks_for: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    speaks_against: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    refused: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    compared: tuple[str, ...] = ()
    comes_back: Mapping[str, tuple[float, float]] = field(default_factory=dict)

    @property
    def of_the_plan(self) -> bool:
        """Whether the verdict has to hold a plan to be compared."""
        return bool(self.comes_back)


@dataclass(frozen=True, slots=True)
class Difference:
    """One field of a verdict that is not as expected, all in words."""

    what: str
    expected: str
    found: str


def differences(expected: Expected, verdict: Verdict) -> list[Difference]:
    """Every stated field in which `verdict` is not as expected, in the order of the format."""
    return [
        *_leading(expected, verdict),
        *_confidence(expected, verdict),
        *_permissions(expected, verdict),
        *_findings(expected, verdict),
        *_evidence(expected, verdict),
        *_comparisons(expected, verdict),
        *_returns(expected, verdict),
    ]


def leading_faults(verdict: Verdict) -> dict[str, str]:
    """For each kind the fault that leads, "none", or "open" where neither reaches one half."""
    leading = {}
    for kind, none in verdict.none.items():
        first = next((fault for fault in verdict.faults if fault.kind == kind), None)
        if none >= SETTLED and (first is None or none >= first.confidence):
            leading[kind] = NONE
        elif first is not None and first.confidence >= SETTLED:
            leading[kind] = first.id
        else:
            leading[kind] = OPEN
    return leading


def _leading(expected: Expected, verdict: Verdict) -> Iterator[Difference]:
    found = leading_faults(verdict)
    for kind, fault in expected.leading.items():
        if found[kind] != fault:
            yield Difference(f"leading {kind}", fault, found[kind])


def _confidence(expected: Expected, verdict: Verdict) -> Iterator[Difference]:
    confidence = {fault.id: fault.confidence for fault in verdict.faults}
    for fault, (low, high) in expected.confidence.items():
        found = confidence.get(fault, 0.0)
        if not low <= found <= high:
            yield Difference(f"confidence of {fault}", f"{low:g} to {high:g}", f"{found:.3f}")
    most = expected.no_fault_above
    if most is not None:
        for fault, found in confidence.items():
            if found > most:
                yield Difference(f"confidence of {fault}", f"at most {most:g}", f"{found:.3f}")


def _permissions(expected: Expected, verdict: Verdict) -> Iterator[Difference]:
    drive_on = verdict.drive_on.state.value
    if expected.drive_on not in (None, drive_on):
        yield Difference("drive on", str(expected.drive_on), drive_on)
    states = {said.action: said.state.value for said in verdict.permissions}
    for action, state in expected.permissions.items():
        if states.get(action) != state:
            yield Difference(f"permission {action}", state, states.get(action, "no such action"))
    interlocks = _interlocks(verdict)
    for wanted, stated in (
        (Permitted.BLOCKED, expected.blocked_by),
        (Permitted.NOT_YET_CLEAR, expected.waits_for),
    ):
        for action, names in stated.items():
            for name in names:
                found = interlocks.get((action, name))
                if found is None or found.state is not wanted:
                    said = "not one of its interlocks" if found is None else found.state.value
                    yield Difference(f"interlock {name} of {action}", wanted.value, said)


def _interlocks(verdict: Verdict) -> dict[tuple[str, str], InterlockSaid]:
    return {
        (said.action, each.id): each
        for said in verdict.permissions
        for each in (*said.interlocks, *said.named)
    }


def _findings(expected: Expected, verdict: Verdict) -> Iterator[Difference]:
    channels = {said.id: said.state.value for said in verdict.channels}
    for channel, state in expected.instruments.items():
        if channels.get(channel) != state:
            found = channels.get(channel, "no such instrument")
            yield Difference(f"instrument {channel}", state, found)
    well = verdict.filter_well.shown
    if expected.filter_well not in (None, well):
        yield Difference("filter well", _shown(bool(expected.filter_well)), _shown(well))
    said = {each.id: each for each in verdict.findings}
    for name in expected.set_aside:
        if name not in said or said[name].set_aside is None:
            yield Difference(f"finding {name}", "set aside", "not set aside")
    for name in expected.unknown:
        level = said[name].level if name in said else "no such finding"
        if level is not None:
            yield Difference(f"finding {name}", "unknown", level)


def _shown(value: bool) -> str:
    return "shown" if value else "not shown"


def _evidence(expected: Expected, verdict: Verdict) -> Iterator[Difference]:
    faults = {fault.id: fault for fault in verdict.faults}
    for way, stated in (("for", expected.speaks_for), ("against", expected.speaks_against)):
        for name, wanted in stated.items():
            fault = faults.get(name)
            shares = () if fault is None else fault.for_ if way == "for" else fault.against
            found = {each for share in shares for each in (share.family, share.finding)}
            for finding in wanted:
                if finding not in found:
                    yield Difference(f"{finding} on {name}", f"speaks {way} it", "does not")


def _comparisons(expected: Expected, verdict: Verdict) -> Iterator[Difference]:
    refused = {each.slot: each.why for each in verdict.refused}
    for slot, reasons in expected.refused.items():
        if not set(reasons) <= set(refused.get(slot, ())):
            found = ", ".join(refused.get(slot, ())) or "not refused"
            yield Difference(f"comparison of {slot}", ", ".join(reasons), found)
    for slot in expected.compared:
        if slot in refused:
            yield Difference(f"comparison of {slot}", "compared", ", ".join(refused[slot]))


def _returns(expected: Expected, verdict: Verdict) -> Iterator[Difference]:
    plan = () if verdict.plan is None else verdict.plan.remedies
    returns = {each.remedy: each.returns for each in plan}
    for name, (soonest, latest) in expected.comes_back.items():
        said = returns.get(name)
        stated = f"{soonest:g} to {latest:g} km"
        if said is None:
            yield Difference(f"return after {name}", stated, "not said")
        elif not (_near(said.km.lowest, soonest) and _near(said.km.highest, latest)):
            found = " to ".join(_km(each) for each in (said.km.lowest, said.km.highest))
            yield Difference(f"return after {name}", stated, f"{found} km")


def _near(found: float | None, stated: float) -> bool:
    return found is not None and abs(found - stated) <= NEAR * stated


def _km(found: float | None) -> str:
    return "any" if found is None else f"{found:.0f}"
