"""Before and after on one picture: differential pressure against flow, with the levels as bands."""

from __future__ import annotations

from collections.abc import Iterator

from sootsayer.advice.like_for_like import Change
from sootsayer.casework.logs.flow import Band, FlowPicture, FlowPoint
from sootsayer.engine.conditions import Const, Limit, Operand
from sootsayer.judgement.compare import Comparison
from sootsayer.judgement.workings import Workings
from sootsayer.physics.fit import Point
from sootsayer.physics.gas import ATMOSPHERE, REFERENCE_TEMPERATURE
from sootsayer.physics.measured import Measured
from sootsayer.physics.quantity import M3_H, MBAR
from sootsayer.physics.quantity_pressure import REFERENCE_LITRES
from sootsayer.rulebook.model import FindingDef

BEFORE, AFTER = 1, 2
"""The numbers by which the points of the two rounds are told apart."""
_FOR_SIZE, _AS_IT_IS = "resistance-for-size", "filter-resistance"


def flow_picture(work: Workings, compared: Comparison) -> FlowPicture:
    """The readings that were compared with their flow: m3/h at the viscosity of 200 C against
    mbar with the zero removed, a straight line from no flow through each round's surest point.
    Without such readings it has no points."""
    told = [change for change in compared.changes if change.flow is not None]
    points = [point for change in told for point in _points(change)]
    if not points:
        return FlowPicture((), (), (), None, None, ())
    return FlowPicture(tuple(points), tuple(_bands(work)), tuple(_lines(points)), 0.0, None, ())


def _points(change: Change) -> Iterator[FlowPoint]:
    assert change.flow is not None
    assert change.resistance is not None
    sides = zip((BEFORE, AFTER), (change.before, change.after), change.flow, change.resistance,
                strict=True)  # fmt: skip
    for number, taken, flow, found in sides:
        drop = Measured(found.value * flow.value, found.sd * flow.value)
        at = Point(drop.value * MBAR, max(drop.sd, 1e-6) * MBAR, max(flow.value, 0.0) * M3_H,
                   REFERENCE_TEMPERATURE, ATMOSPHERE)  # fmt: skip
        yield FlowPoint(number, taken.point, flow.value, drop.value, drop.sd, at)


def _lines(points: list[FlowPoint]) -> Iterator[tuple[float, float]]:
    """One path: along the earlier round's line down to the origin, out along the later one's."""
    far = max(point.flow for point in points) * 1.05
    steep = [_slope(points, number) for number in (BEFORE, AFTER)]
    steps = [far * share / 40 for share in range(41)]
    yield from ((flow, flow * steep[0]) for flow in reversed(steps))
    yield from ((flow, flow * steep[1]) for flow in steps)


def _slope(points: list[FlowPoint], number: int) -> float:
    """Of the point at the highest flow, where the reading stands out most from its error."""
    own = max((p for p in points if p.number == number), key=lambda point: point.flow)
    return own.dp / own.flow


def _bands(work: Workings) -> Iterator[Band]:
    """Where each level of resistance begins, for a filter of this vehicle's size."""
    for finding in work.model.findings.values():
        quantity = work.model.quantities.get((finding.of or "").partition("@")[0])
        if quantity is None or quantity.formula not in (_FOR_SIZE, _AS_IT_IS):
            continue
        litres = work.case.vehicle.filter_litres
        if quantity.formula == _FOR_SIZE and litres is None:
            continue
        over = litres / REFERENCE_LITRES if quantity.formula == _FOR_SIZE and litres else 1.0
        yield from _levels(work, finding, over)
        return


def _levels(work: Workings, finding: FindingDef, over: float) -> Iterator[Band]:
    for level, cut in zip(finding.levels[1:], finding.cuts, strict=True):
        value = _value(work, cut)
        if value is not None and value > 0:
            yield Band(finding.level_words.get(level, level), value / over)


def _value(work: Workings, cut: Operand) -> float | None:
    if isinstance(cut, Const):
        return cut.value
    return work.limits.get(cut.name) if isinstance(cut, Limit) else None
