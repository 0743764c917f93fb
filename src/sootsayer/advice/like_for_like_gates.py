"""What may be compared with what: every reason against, found before anything is computed."""

from __future__ import annotations

from collections.abc import Iterator

from sootsayer.advice.like_for_like import Between, Taken, Tolerances, Unlike, Warmth


def reasons_against(
    before: Taken, after: Taken, between: Between, may_be: Tolerances
) -> tuple[Unlike, ...]:
    """Why these two readings may not be compared; empty where they may."""
    return (
        *_instrument(before, after, between),
        *_state(before, after, between),
        *_conditions(before, after, may_be),
    )


def has_flow(taken: Taken, may_be: Tolerances) -> bool:
    """Air and temperature were read, dry, so that the pressure can be brought to a flow."""
    return taken.air is not None and taken.air.value > 0 and _is_dry(taken, may_be)


def _is_dry(taken: Taken, may_be: Tolerances) -> bool:
    return taken.exhaust is not None and taken.exhaust.value >= may_be.dry


def _instrument(before: Taken, after: Taken, between: Between) -> Iterator[Unlike]:
    if before.distrusted:
        yield Unlike.DISTRUSTED_BEFORE
    if after.distrusted:
        yield Unlike.DISTRUSTED_AFTER
    if before.zero is not None and after.zero is not None:
        return
    if before.channel != after.channel:
        yield Unlike.OTHER_INSTRUMENT
    elif after.channel in between.touched:
        yield Unlike.SENSOR_CHANGED


def _state(before: Taken, after: Taken, between: Between) -> Iterator[Unlike]:
    if before.burning:
        yield Unlike.BURNING_BEFORE
    if after.burning:
        yield Unlike.BURNING_AFTER
    if before.wet:
        yield Unlike.WET_BEFORE
    if after.wet:
        yield Unlike.WET_AFTER
    elif between.wetted and after.wet is None:
        yield Unlike.PERHAPS_WET
    if before.egr is not None and after.egr is not None and before.egr != after.egr:
        yield Unlike.OTHER_EGR
    if any(one.leads_back and one.recirculated is None for one in (before, after)):
        yield Unlike.RECIRCULATION_UNKNOWN


def _conditions(before: Taken, after: Taken, may_be: Tolerances) -> Iterator[Unlike]:
    unlike = tuple(_warmth(before, after))
    yield from unlike
    if unlike or (has_flow(before, may_be) and has_flow(after, may_be)):
        return
    if before.exhaust is not None and after.exhaust is not None:
        if abs(before.exhaust.value - after.exhaust.value) > may_be.temperature:
            yield Unlike.TEMPERATURES_APART
    elif after.warmth is Warmth.COLD:  # both are: "cold" alone spans too much
        yield Unlike.COLD_AFTER
    if before.point != after.point or _speeds_apart(before, after, may_be):
        yield Unlike.OTHER_SPEED


def _warmth(before: Taken, after: Taken) -> Iterator[Unlike]:
    if before.warmth is Warmth.UNKNOWN:
        yield Unlike.WARMTH_UNKNOWN_BEFORE
    if after.warmth is Warmth.UNKNOWN:
        yield Unlike.WARMTH_UNKNOWN_AFTER
    if (before.warmth, after.warmth) == (Warmth.COLD, Warmth.HOT):
        yield Unlike.COLD_BEFORE
    if (before.warmth, after.warmth) == (Warmth.HOT, Warmth.COLD):
        yield Unlike.COLD_AFTER


def _speeds_apart(before: Taken, after: Taken, may_be: Tolerances) -> bool:
    if before.speed is None or after.speed is None:
        return False
    return abs(before.speed - after.speed) > may_be.speed
