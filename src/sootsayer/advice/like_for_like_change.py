"""By how much a reading changed, its uncertainty, and whether that is more than noise.

With flow, the earlier reading is brought to the mass flow, temperature and air pressure of the
later by `physics.resistance.bring`. Without, it is brought to the later temperature at equal
mass flow (pressure drop grows as viscosity x temperature), and the scatter of a held speed is
added. What both readings share - the fuel per air, the silencer, an air pressure or a zero that
was read once or never - is one input, so that it cannot pretend to be a change.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from sootsayer.advice.like_for_like import Change, Taken, Tolerances
from sootsayer.advice.like_for_like_gates import has_flow
from sootsayer.physics import flow, resistance
from sootsayer.physics.gas import viscosity_ratio
from sootsayer.physics.measured import Measured, interval, propagate
from sootsayer.physics.quantity import KG_H, M3_H, MBAR, kelvin

ERROR_OF_ALL = 0.05
"""How often at most any comparison of two rounds is called real where nothing changed."""

_FUEL = interval(0.01, 0.06)  # per air, idle to full load; the same engine at the same point
_SILENCER = Measured(1.0, 0.5)  # multiple of the usual estimate: soft
_BAROMETER = Measured(1013.25, 40.0)  # nobody read it: somewhere up to 600 m, any weather
# A loaded filter is close to linear in flow, a clean one has relatively more of the square
# (KONA 26 (2008) 36-65, eq. 8). Between the two rounds it matters only as the flows differ.
_SQUARE_SHARE = interval(0.0, 0.2)

Values = Mapping[str, float]
Part = Callable[[Values], float]


def changed(before: Taken, after: Taken, may_be: Tolerances) -> Change:
    """The change from `before` to `after`, which may be compared (`reasons_against` is empty).

    `real` is still False. Raises ValueError where a reading lies outside what the physics holds
    for (a pressure below -200 mbar, say).
    """
    by_flow = has_flow(before, may_be) and has_flow(after, may_be)
    inputs = _inputs(before, after, may_be, by_flow)
    now: Part = _now
    brought: Part = _brought_by_flow if by_flow else _brought_raw
    scatter = 0.0 if by_flow else may_be.scatter
    later = _with_scatter(_spread(now, inputs), scatter)
    earlier = _with_scatter(_spread(brought, inputs), scatter)
    apart = _spread(lambda v: now(v) - brought(v), inputs)
    extra = scatter * math.hypot(later.value, earlier.value)
    found = Change(
        before=before,
        after=after,
        brought=earlier,
        now=later,
        difference=Measured(apart.value, math.hypot(apart.sd, extra)),
        ratio=None,
        by_flow=by_flow,
        zero_read=(before.zero is not None, after.zero is not None),
    )
    if earlier.value > 2 * earlier.sd:
        share = _spread(lambda v: now(v) / brought(v), inputs)
        twice = scatter * math.sqrt(2) * share.value
        found = replace(found, ratio=Measured(share.value, math.hypot(share.sd, twice)))
    if not by_flow:
        return found
    return replace(
        found,
        resistance=_of_both(_resistance, inputs),
        flow=_of_both(_viscous, inputs),
    )


def with_what_is_real(changes: Sequence[Change]) -> tuple[Change, ...]:
    """The changes, each marked real or not, by the step-down method of Holm (1979): whatever
    number of points was read, noise alone makes one of them real at most once in twenty."""
    chances = [chance_of_noise(change.difference) for change in changes]
    real = holm(chances, ERROR_OF_ALL)
    return tuple(replace(one, real=yes) for one, yes in zip(changes, real, strict=True))


def chance_of_noise(difference: Measured) -> float:
    """How often noise alone shows a difference at least as large, either way (normal)."""
    if difference.sd == 0:
        return 0.0 if difference.value else 1.0
    return math.erfc(abs(difference.value) / difference.sd / math.sqrt(2))


def holm(chances: Sequence[float], error: float) -> tuple[bool, ...]:
    """Which of several tests count (Holm, Scand. J. Statist. 6 (1979) 65-70), `error` in all."""
    order = sorted(range(len(chances)), key=lambda at: chances[at])
    count = [False] * len(chances)
    for rank, at in enumerate(order):
        if chances[at] > error / (len(chances) - rank):
            break
        count[at] = True
    return tuple(count)


def _with_scatter(of: Measured, scatter: float) -> Measured:
    return Measured(of.value, math.hypot(of.sd, scatter * of.value))


def _inputs(before: Taken, after: Taken, may_be: Tolerances, by_flow: bool) -> dict[str, Measured]:
    """Each input once: `dp@before`, or, where both readings have it in common, `zero`."""
    found = {"dp@before": before.shown, "dp@after": after.shown}
    found |= _one_or_two("zero", before.zero, after.zero, Measured(0.0, may_be.zero))
    if before.exhaust is not None and after.exhaust is not None:
        found |= {"exhaust@before": before.exhaust, "exhaust@after": after.exhaust}
    if not by_flow:
        return found
    assert before.air is not None
    assert after.air is not None
    found |= {"air@before": before.air, "air@after": after.air}
    found |= _one_or_two("barometer", before.barometer, after.barometer, _BAROMETER)
    none = Measured(0.0)
    found |= {
        "recirculated@before": before.recirculated or none,
        "recirculated@after": after.recirculated or none,
        "fuel": _FUEL,
        "silencer": _SILENCER,
        "square": _SQUARE_SHARE,
    }
    return found


def _one_or_two(
    name: str, before: Measured | None, after: Measured | None, otherwise: Measured
) -> dict[str, Measured]:
    if before is not None and after is not None:
        return {f"{name}@before": before, f"{name}@after": after}
    return {name: before or after or otherwise}


def _spread(part: Part, inputs: Mapping[str, Measured]) -> Measured:
    names = tuple(inputs)
    return propagate(lambda *values: part(dict(zip(names, values, strict=True))), *inputs.values())


def _of_both(
    formula: Callable[[Values, str], float], inputs: Mapping[str, Measured]
) -> tuple[Measured, Measured]:
    return (
        _spread(lambda values: formula(values, "before"), inputs),
        _spread(lambda values: formula(values, "after"), inputs),
    )


def _of(values: Values, name: str, side: str) -> float:
    own = values.get(f"{name}@{side}")
    return values[name] if own is None else own


def _drop(values: Values, side: str) -> float:
    """Pa across the filter, zero removed."""
    return (_of(values, "dp", side) - _of(values, "zero", side)) * MBAR


def _running(values: Values, side: str) -> resistance.Running:
    air, heat = _of(values, "air", side) * KG_H, kelvin(_of(values, "exhaust", side))
    behind = values["silencer"] * flow.silencer_pressure(air, heat)
    share = _of(values, "recirculated", side)
    return resistance.Running(
        flow.exhaust_mass_flow(air, values["fuel"], share),
        heat,
        flow.outlet_pressure(_of(values, "barometer", side) * MBAR, behind),
    )


def _now(values: Values) -> float:
    """mbar of the later reading, its zero removed."""
    return _drop(values, "after") / MBAR


def _brought_by_flow(values: Values) -> float:
    """mbar of the earlier reading in the conditions of the later."""
    seen, wanted = _running(values, "before"), _running(values, "after")
    return resistance.bring(_drop(values, "before"), seen, wanted, values["square"]) / MBAR


def _brought_raw(values: Values) -> float:
    """mbar of the earlier reading at the later temperature and equal mass flow, where both
    temperatures are known; else as it is."""
    drop = _drop(values, "before") / MBAR
    if "exhaust@before" not in values:
        return drop
    seen, wanted = kelvin(values["exhaust@before"]), kelvin(values["exhaust@after"])
    return drop * viscosity_ratio(wanted) / viscosity_ratio(seen) * wanted / seen


def _resistance(values: Values, side: str) -> float:
    """mbar/(m3/h)."""
    at, drop = _running(values, side), _drop(values, side)
    return resistance.resistance(drop, at.flow(drop), at.temperature) * M3_H / MBAR


def _viscous(values: Values, side: str) -> float:
    """m3/h brought to the viscosity of 200 C."""
    at, drop = _running(values, side), _drop(values, side)
    return resistance.viscous_flow(at.flow(drop), at.temperature) / M3_H
