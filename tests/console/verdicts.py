"""Hand-made verdicts to draw: numbers are plausible, not reckoned; the world is our own."""

from __future__ import annotations

from datetime import datetime

from sootsayer.console.names import CheckName, Names, Refusal
from sootsayer.judgement.verdict import (
    CandidateSaid,
    ChannelSaid,
    ChannelState,
    Contribution,
    DriveOn,
    DriveOnSaid,
    FamilySaid,
    FaultSaid,
    FilterWell,
    FindingSaid,
    Ground,
    InterlockSaid,
    LimitUsed,
    PermissionSaid,
    Permitted,
    Reason,
    RuleAt,
    Verdict,
)

NAMES = Names(
    vehicle="2.0 L panel van",
    texts={"dp@rest": "Differential pressure over the filter, at rest"},
    checks=(
        CheckName(
            "read-dp-at-rest",
            "Key on, engine stopped for 30 s; read differential pressure",
            2,
            ("dp@rest",),
        ),
        CheckName(
            "read-dp-at-2500",
            "Hot, hold 2,500 rpm for 30 s; read differential pressure and air mass",
            5,
            ("dp@2500", "air@2500"),
            "Brake on, nobody in front of the vehicle; the exhaust is hot.",
        ),
        CheckName(
            "hoses-hold",
            "Take both hoses off cold; -250 mbar must hold for 30 s",
            15,
            ("front-hose-holds",),
        ),
        CheckName(
            "ask-trips",
            "Ask how long a usual trip is and how it is driven",
            1,
            ("trip-length", "town-share"),
        ),
        CheckName(
            "look-underneath",
            "Look and smell underneath: glow, smoke, hot smell",
            2,
            ("burning-underneath",),
            "Do not lie under a running engine.",
        ),
        CheckName(
            "read-dipstick",
            "Level ground, engine off 5 min; read dipstick",
            3,
            ("oil-level", "oil-smell"),
        ),
        CheckName("read-codes", "Read all trouble codes and the monitors", 3, ("code:P2463",)),
    ),
    members={
        "restriction": ("restriction-at-2500", "restriction-at-idle"),
        "dp-zero": ("dp-not-zero-at-rest",),
        "duty": ("short-trips",),
        "hose-test": ("front-hose-does-not-hold",),
        "soot-gap": ("soot-measured-below-model",),
    },
    zero_units={"dp-sensor": "mbar"},
)


def rule(file: str, line: int) -> RuleAt:
    return RuleAt(file, line, f"{line:03d}c0ffee"[:8])


def ground(slot: str, typed: str, entry: int, label: str = "", source: str = "scan") -> Ground:
    return Ground(slot, label or slot, typed, None, source, "arrival", entry, entry + 6, typed)


DP_2500 = ground("dp@2500", "104 hPa", 4, "Differential pressure over the filter, at 2,500 rpm")
DP_IDLE = ground("dp@idle", "24 hPa", 4, "Differential pressure over the filter, at idle")
DP_REST = ground("dp@rest", "1 hPa", 4, "Differential pressure over the filter, at rest")
OFF_REST = ground("dp@rest", "18 hPa", 3, "Differential pressure over the filter, at rest")
TRIPS = ground("trip-length", "6 km", 1, "Length of a usual trip", "customer")
LAMP = ground("lamp", "flashing", 2, "Filter lamp", "technician")


def worth(
    family: str,
    says: str,
    level: str,
    shares: tuple[float, float],
    weight: float,
    word: str,
    *grounds: Ground,
) -> Contribution:
    return Contribution(
        family,
        f"{family}-rule",
        says,
        level,
        shares[0],
        shares[1],
        weight,
        word,
        grounds,
        RuleAt("restriction.yaml", 12, ""),
    )


def fault(
    id_: str,
    label: str,
    kind: str,
    confidence: float,
    *,
    for_: tuple[Contribution, ...] = (),
    against: tuple[Contribution, ...] = (),
    set_aside: tuple[str, ...] = (),
    missing: tuple[str, ...] = (),
    line: int = 40,
) -> FaultSaid:
    return FaultSaid(
        id_,
        label,
        kind,
        confidence,
        confidence,
        confidence,
        for_,
        against,
        set_aside,
        missing,
        rule("pressure-sensing.yaml", line),
    )


def finding(
    id_: str,
    says: str,
    level: str | None,
    *grounds: Ground,
    graded: bool = False,
    borderline: bool = False,
    set_aside: str | None = None,
    would_be: str | None = None,
    weights: tuple[float, ...] = (),
    awaits: tuple[str, ...] = (),
) -> FindingSaid:
    return FindingSaid(
        id_,
        says,
        level,
        graded,
        borderline,
        grounds,
        rule("restriction.yaml", 20 + len(id_)),
        set_aside,
        would_be,
        weights,
        awaits,
    )


def lock(
    id_: str,
    says: str,
    state: Permitted,
    reason: Reason,
    *grounds: Ground,
    awaits: tuple[str, ...] = (),
    would_clear: tuple[str, ...] = (),
    when_not: str = "",
) -> InterlockSaid:
    return InterlockSaid(
        id_,
        says,
        state,
        reason,
        grounds,
        awaits,
        would_clear,
        rule("drive-on.yaml", 30 + len(id_)),
        when_not,
    )


NO_FIRE = lock(
    "nothing-burns-underneath",
    "Nothing glows, smokes or smells hot underneath",
    Permitted.CLEAR,
    Reason.HOLDS,
    ground("burning-underneath", "no", 2, source="technician"),
)
NO_FIRE_OPEN = lock(
    "nothing-burns-underneath",
    "Nothing glows, smokes or smells hot underneath",
    Permitted.NOT_YET_CLEAR,
    Reason.UNKNOWN,
    awaits=("burning-underneath",),
    would_clear=("look-underneath",),
)
OIL_OPEN = lock(
    "oil-not-above-max",
    "The oil level is not above the maximum mark",
    Permitted.NOT_YET_CLEAR,
    Reason.UNKNOWN,
    awaits=("oil-level",),
    would_clear=("read-dipstick",),
)
LAMP_STEADY = lock(
    "lamp-not-flashing",
    "The filter lamp does not flash",
    Permitted.BLOCKED,
    Reason.DOES_NOT_HOLD,
    LAMP,
    when_not="The filter lamp flashes",
)
DRIVE_CAUTION = "Not over dry grass, and not on with a lamp that starts to flash."
RUN_CAUTION = "Outdoors or with extraction; hot exhaust, moving parts."


def permission(
    action: str, does: str, state: Permitted, caution: str, *locks: InterlockSaid
) -> PermissionSaid:
    return PermissionSaid(action, does, state, locks, caution, ("people", "engine"))


BARE = "not worth more than a bare mention"
DP_2500_SAYS = "How restricted the filter is, at 2,500 rpm"
DP_IDLE_SAYS = "How restricted the filter is, at idle"
ZERO_SAYS = "Differential pressure is not zero with no exhaust flow"
TRIPS_SAYS = "Trips are too short to burn soot off"
HOSE_SAYS = "The front hose does not hold vacuum"
GAP_SAYS = "Soot measured is far below soot reckoned by the vehicle"

LIMITS = (
    LimitUsed("dp-rest-max", "Highest reading at rest", 5, "mbar", "pack"),
    LimitUsed("soot-in-place-max", "Most soot to be burnt in place", 40, "g", "vehicle"),
)


def verdict(
    case: str,
    entry: int,
    drive: DriveOnSaid,
    none: tuple[float, float, float],
    well: FilterWell,
    **rest: object,
) -> Verdict:
    whole: dict[str, object] = {
        "channels": (),
        "findings": (),
        "families": (),
        "limits": LIMITS,
        "faults": (),
        "candidates": (),
        "left_out": 0.0131,
        "exact": True,
        "permissions": (),
    }
    whole.update(rest)
    return Verdict(
        program="0.1.0",
        case=case,
        as_of_entry=entry,
        as_of_time=datetime.fromisoformat("2031-03-14T09:12:00+01:00"),
        round="arrival" if entry else None,
        rulebook_logic="5d41402abc4b2a76",
        rulebook_words="7d793037a0760186",
        shop=None,
        drive_on=drive,
        none=dict(zip(("measurement", "condition", "cause"), none, strict=True)),
        filter_well=well,
        **whole,  # type: ignore[arg-type]
    )


def blocked_filter() -> Verdict:
    """A filter blocked by short trips, read through a proven instrument."""
    return verdict(
        "short-trips",
        4,
        DriveOnSaid(DriveOn.WORKSHOP_ONLY, (LAMP_STEADY,), ()),
        (0.9312, 0.0121, 0.1533),
        FilterWell(False, ("fault-likely",)),
        channels=(
            ChannelSaid(
                "dp-sensor",
                "Differential pressure sensor and its hoses",
                ChannelState.PROVEN,
                (),
                (),
            ),
        ),
        findings=(
            finding(
                "restriction-at-2500",
                DP_2500_SAYS,
                "blocked",
                DP_2500,
                graded=True,
                borderline=True,
                weights=(0.0, 0.0, 0.0, 0.08, 0.92),
            ),
            finding("restriction-at-idle", DP_IDLE_SAYS, "high", DP_IDLE, graded=True),
            finding("dp-not-zero-at-rest", ZERO_SAYS, "false", DP_REST),
            finding("short-trips", TRIPS_SAYS, "true", TRIPS),
            finding("soot-measured-below-model", GAP_SAYS, None, awaits=("soot-shown",)),
        ),
        families=(
            FamilySaid("restriction", "Restriction of the filter", "restriction-at-2500", ()),
            FamilySaid("dp-zero", "Zero of the differential pressure", "dp-not-zero-at-rest", ()),
            FamilySaid("duty", "Duty cycle", "short-trips", ()),
            FamilySaid("soot-gap", "Soot measured against soot reckoned", None, ()),
        ),
        faults=(
            fault(
                "soot-overload",
                "Filter overloaded with soot",
                "condition",
                0.9674,
                for_=(
                    worth(
                        "restriction",
                        DP_2500_SAYS,
                        "blocked",
                        (0.9674, 0.41),
                        42.7,
                        "strong",
                        DP_2500,
                    ),
                    worth(
                        "duty",
                        TRIPS_SAYS,
                        "true",
                        (0.9674, 0.92),
                        2.6,
                        BARE,
                        TRIPS,
                    ),
                ),
                missing=("soot-gap",),
                line=61,
            ),
            fault(
                "short-trip-duty",
                "Short-trip duty",
                "cause",
                0.8467,
                for_=(worth("duty", TRIPS_SAYS, "true", (0.8467, 0.37), 9.4, "positive", TRIPS),),
                line=88,
            ),
            fault(
                "ash-full",
                "Filter full of ash",
                "condition",
                0.0731,
                for_=(
                    worth(
                        "restriction",
                        DP_2500_SAYS,
                        "blocked",
                        (0.0731, 0.03),
                        2.5,
                        BARE,
                        DP_2500,
                    ),
                ),
                missing=("soot-gap",),
                line=70,
            ),
            fault(
                "sensor-offset",
                "Sensor reads with an offset",
                "measurement",
                0.0212,
                against=(
                    worth("dp-zero", ZERO_SAYS, "false", (0.0212, 0.08), 4.0, "positive", DP_REST),
                ),
                line=44,
            ),
        ),
        candidates=(
            CandidateSaid(("short-trip-duty", "soot-overload"), 0.7905),
            CandidateSaid(("soot-overload",), 0.1142),
            CandidateSaid((), 0.0051),
        ),
        permissions=(
            permission(
                "drive-on",
                "Drive the vehicle away",
                Permitted.BLOCKED,
                DRIVE_CAUTION,
                NO_FIRE,
                LAMP_STEADY,
            ),
            permission(
                "run-engine",
                "Run the engine",
                Permitted.NOT_YET_CLEAR,
                RUN_CAUTION,
                NO_FIRE,
                OIL_OPEN,
            ),
        ),
    )


def sensor_offset() -> Verdict:
    """A filter that may well be healthy behind a sensor that does not read zero at rest."""
    return verdict(
        "offset",
        3,
        DriveOnSaid(DriveOn.MAY_BE_DRIVEN, (), ()),
        (0.0473, 0.9127, 0.7021),
        FilterWell(False, ("dp-sensor",)),
        channels=(
            ChannelSaid(
                "dp-sensor",
                "Differential pressure sensor and its hoses",
                ChannelState.DISTRUSTED,
                ("dp-not-zero-at-rest",),
                (),
            ),
            ChannelSaid("air-meter", "Air meter", ChannelState.CORRECTED, (), (), 0.4),
        ),
        findings=(
            finding("dp-not-zero-at-rest", ZERO_SAYS, "true", OFF_REST),
            finding(
                "restriction-at-2500",
                DP_2500_SAYS,
                None,
                graded=True,
                set_aside="dp-sensor",
                would_be="raised",
            ),
            finding(
                "restriction-at-idle",
                DP_IDLE_SAYS,
                None,
                graded=True,
                set_aside="dp-sensor",
                would_be="high",
            ),
            finding("front-hose-does-not-hold", HOSE_SAYS, None, awaits=("front-hose-holds",)),
        ),
        families=(
            FamilySaid("restriction", "Restriction of the filter", None, ()),
            FamilySaid("dp-zero", "Zero of the differential pressure", "dp-not-zero-at-rest", ()),
            FamilySaid("hose-test", "Vacuum test of the hoses", None, ()),
        ),
        faults=(
            fault(
                "sensor-offset",
                "Sensor reads with an offset",
                "measurement",
                0.7644,
                for_=(
                    worth("dp-zero", ZERO_SAYS, "true", (0.7644, 0.08), 37.3, "strong", OFF_REST),
                ),
                missing=("hose-test",),
                line=44,
            ),
            fault(
                "sensor-stuck",
                "Sensor stuck",
                "measurement",
                0.2311,
                for_=(
                    worth("dp-zero", ZERO_SAYS, "true", (0.2311, 0.08), 3.5, "positive", OFF_REST),
                ),
                line=48,
            ),
            fault(
                "short-trip-duty", "Short-trip duty", "cause", 0.1803, missing=("duty",), line=88
            ),
            fault(
                "soot-overload",
                "Filter overloaded with soot",
                "condition",
                0.0514,
                set_aside=("restriction-at-2500",),
                missing=("restriction",),
                line=61,
            ),
        ),
        candidates=(CandidateSaid(("sensor-offset",), 0.7013), CandidateSaid((), 0.0127)),
        permissions=(
            permission(
                "drive-on", "Drive the vehicle away", Permitted.CLEAR, DRIVE_CAUTION, NO_FIRE
            ),
            permission("run-engine", "Run the engine", Permitted.CLEAR, RUN_CAUTION, NO_FIRE),
        ),
    )


def hidden_by_hose() -> Verdict:
    """A low reading that a leaking front hose explains; a full filter keeps its prior weight."""
    low = ground("dp@2500", "5 hPa", 5, "Differential pressure over the filter, at 2,500 rpm")
    hose = ground("front-hose-holds", "no", 6, "Front hose holds vacuum", "technician")
    gap = ground("soot-shown", "38 g", 5, "Soot shown by the vehicle")
    protection = ground("protection-mode", "yes", 2, "Protection mode", "technician")
    full_power = lock(
        "not-in-protection-mode",
        "The engine is not in protection mode",
        Permitted.BLOCKED,
        Reason.DOES_NOT_HOLD,
        protection,
    )
    return verdict(
        "leaking-hose",
        6,
        DriveOnSaid(DriveOn.NOT_TO_BE_DRIVEN, (LAMP_STEADY, full_power), (OIL_OPEN,)),
        (0.0302, 0.2466, 0.3644),
        FilterWell(False, ("dp-sensor", "fault-likely")),
        channels=(
            ChannelSaid(
                "dp-sensor",
                "Differential pressure sensor and its hoses",
                ChannelState.UNPROVEN,
                (),
                ("dp-not-zero-at-rest",),
            ),
        ),
        findings=(
            finding("restriction-at-2500", DP_2500_SAYS, "low", low, graded=True),
            finding("front-hose-does-not-hold", HOSE_SAYS, "true", hose),
            finding("soot-measured-below-model", GAP_SAYS, "true", low, gap),
            finding("dp-not-zero-at-rest", ZERO_SAYS, None, awaits=("dp@rest",)),
            finding("short-trips", TRIPS_SAYS, None, awaits=("trip-length",)),
        ),
        families=(
            FamilySaid("restriction", "Restriction of the filter", "restriction-at-2500", ()),
            FamilySaid("hose-test", "Vacuum test of the hoses", "front-hose-does-not-hold", ()),
            FamilySaid("duty", "Duty cycle", None, ()),
        ),
        faults=(
            fault(
                "front-hose-leaks",
                "Front pressure hose leaks",
                "measurement",
                0.9621,
                for_=(
                    worth("hose-test", HOSE_SAYS, "true", (0.9621, 0.52), 23.4, "strong", hose),
                    worth(
                        "restriction", DP_2500_SAYS, "low", (0.9621, 0.71), 10.4, "positive", low
                    ),
                    worth("soot-gap", GAP_SAYS, "true", (0.9621, 0.79), 6.7, "positive", low, gap),
                ),
                line=52,
            ),
            fault(
                "soot-overload",
                "Filter overloaded with soot",
                "condition",
                0.5518,
                for_=(
                    worth(
                        "soot-gap",
                        GAP_SAYS,
                        "true",
                        (0.5518, 0.31),
                        2.7,
                        BARE,
                        low,
                        gap,
                    ),
                ),
                against=(
                    worth(
                        "restriction",
                        DP_2500_SAYS,
                        "low",
                        (0.5518, 0.61),
                        1.3,
                        BARE,
                        low,
                    ),
                ),
                line=61,
            ),
            fault(
                "short-trip-duty", "Short-trip duty", "cause", 0.4105, missing=("duty",), line=88
            ),
            fault("core-breached", "Filter core is broken", "condition", 0.2012, line=75),
        ),
        candidates=(
            CandidateSaid(("front-hose-leaks", "soot-overload"), 0.5301),
            CandidateSaid(("front-hose-leaks",), 0.2204),
        ),
        permissions=(
            permission(
                "drive-on",
                "Drive the vehicle away",
                Permitted.BLOCKED,
                DRIVE_CAUTION,
                NO_FIRE,
                LAMP_STEADY,
                full_power,
                OIL_OPEN,
            ),
            permission(
                "run-engine",
                "Run the engine",
                Permitted.BLOCKED,
                RUN_CAUTION,
                lock(
                    "oil-not-above-max",
                    "The oil level is not above the maximum mark",
                    Permitted.BLOCKED,
                    Reason.DOES_NOT_HOLD,
                    ground("oil-level", "above max", 2, source="technician"),
                    when_not="The oil is above the mark",
                ),
            ),
        ),
    )


def empty_case() -> Verdict:
    """Nothing entered yet: priors only, everything open."""
    return verdict(
        "nothing-yet",
        0,
        DriveOnSaid(DriveOn.NOT_YET_KNOWN, (), (NO_FIRE_OPEN, OIL_OPEN)),
        (0.7012, 0.5511, 0.5123),
        FilterWell(False, ("dp-sensor",)),
        channels=(
            ChannelSaid(
                "dp-sensor",
                "Differential pressure sensor and its hoses",
                ChannelState.UNPROVEN,
                (),
                ("dp-not-zero-at-rest",),
            ),
        ),
        findings=(
            finding("dp-not-zero-at-rest", ZERO_SAYS, None, awaits=("dp@rest",)),
            finding("restriction-at-2500", DP_2500_SAYS, None, graded=True, awaits=("dp@2500",)),
            finding("short-trips", TRIPS_SAYS, None, awaits=("trip-length",)),
        ),
        families=(
            FamilySaid("restriction", "Restriction of the filter", None, ()),
            FamilySaid("dp-zero", "Zero of the differential pressure", None, ()),
            FamilySaid("duty", "Duty cycle", None, ()),
        ),
        faults=(
            fault("short-trip-duty", "Short-trip duty", "cause", 0.3002, missing=("duty",)),
            fault(
                "soot-overload",
                "Filter overloaded with soot",
                "condition",
                0.2503,
                missing=("restriction",),
            ),
            fault(
                "sensor-offset",
                "Sensor reads with an offset",
                "measurement",
                0.08,
                missing=("dp-zero",),
            ),
        ),
        candidates=(CandidateSaid((), 0.2104),),
        permissions=(
            permission(
                "drive-on",
                "Drive the vehicle away",
                Permitted.NOT_YET_CLEAR,
                DRIVE_CAUTION,
                NO_FIRE_OPEN,
                OIL_OPEN,
            ),
            permission(
                "run-engine", "Run the engine", Permitted.NOT_YET_CLEAR, RUN_CAUTION, NO_FIRE_OPEN
            ),
        ),
    )


def healthy_filter() -> Verdict:
    """Everything read through a proven instrument, and nothing found."""
    fine = ground("dp@2500", "20 hPa", 3, "Differential pressure over the filter, at 2,500 rpm")
    return verdict(
        "healthy",
        3,
        DriveOnSaid(DriveOn.MAY_BE_DRIVEN, (), ()),
        (0.9512, 0.9934, 0.8807),
        FilterWell(True, ()),
        channels=(
            ChannelSaid(
                "dp-sensor",
                "Differential pressure sensor and its hoses",
                ChannelState.PROVEN,
                (),
                (),
            ),
        ),
        findings=(finding("restriction-at-2500", DP_2500_SAYS, "normal", fine, graded=True),),
        families=(
            FamilySaid("restriction", "Restriction of the filter", "restriction-at-2500", ()),
        ),
        faults=(
            fault(
                "soot-overload",
                "Filter overloaded with soot",
                "condition",
                0.0044,
                against=(
                    worth(
                        "restriction", DP_2500_SAYS, "normal", (0.0044, 0.22), 63.8, "strong", fine
                    ),
                ),
            ),
        ),
        candidates=(CandidateSaid((), 0.8301),),
        permissions=(
            permission(
                "drive-on", "Drive the vehicle away", Permitted.CLEAR, DRIVE_CAUTION, NO_FIRE
            ),
        ),
    )


# What a slot cannot give any more is said, and not asked again.
NAMES_REFUSED = Names(
    vehicle=NAMES.vehicle,
    texts=NAMES.texts,
    checks=NAMES.checks,
    members=NAMES.members,
    zero_units=NAMES.zero_units,
    refusals={"soot-shown": Refusal("cannot", 4)},
)

ALL = {
    "blocked-filter": (blocked_filter, NAMES_REFUSED),
    "sensor-offset": (sensor_offset, NAMES),
    "hidden-by-hose": (hidden_by_hose, NAMES),
    "empty-case": (empty_case, NAMES),
    "healthy-filter": (healthy_filter, NAMES),
}
