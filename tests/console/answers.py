"""Hand-made answers to why, one for each kind of thing that draws differently."""

from __future__ import annotations

from sootsayer.judgement.verdict import FamilySaid, LimitUsed, RuleAt
from sootsayer.judgement.why_answer import (
    Missing,
    Relation,
    ThingKind,
    WhyAnswer,
    WhyCheck,
    WhyFault,
    WhyJoint,
    WhyLink,
    WhyOperand,
    WhyShift,
    WhyTest,
    WhyUnknown,
)
from tests.console import verdicts as v

RULE = RuleAt("pressure-sensing.yaml", 31, "8f14e45f")
REST_CHECK = WhyCheck(
    "read-dp-at-rest",
    "Key on, engine stopped for 30 s; read differential pressure",
    "scan",
    2,
    "Keep clear of the fan.",
)
REST_LABEL = "Differential pressure over the filter, at rest"
IDLE_LABEL = "Differential pressure over the filter, at idle"


def _test(
    op: str, seen: float | None, outcome: bool | None, *numbers: WhyOperand, depth: int = 0
) -> WhyTest:
    missing = Missing.NOT_ASKED if seen is None else None
    return WhyTest("dp@rest", REST_LABEL, op, seen, "mbar", numbers, (), outcome, missing, depth)


def finding_true() -> WhyAnswer:
    """A finding that is true, with a limit in its test."""
    return WhyAnswer(
        "dp-not-zero-at-rest",
        ThingKind.FINDING,
        v.ZERO_SAYS,
        "offset",
        3,
        True,
        rule=RULE,
        basis="common practice",
        steps=(_test("outside", 18.0, True, WhyOperand(-5.0), WhyOperand(5.0, ("dp-rest-max",))),),
        grounds=(v.OFF_REST,),
        related=(
            WhyLink(
                Relation.TESTED,
                ThingKind.CHANNEL,
                "dp-sensor",
                "Differential pressure sensor and its hoses",
                "distrusted",
            ),
            WhyLink(
                Relation.BEARS_ON,
                ThingKind.FAULT,
                "sensor-offset",
                "Sensor reads with an offset",
                0.7644,
            ),
            WhyLink(Relation.BEARS_ON, ThingKind.FAULT, "sensor-stuck", "Sensor stuck", 0.2311),
        ),
    )


def finding_open() -> WhyAnswer:
    """Why not: a finding that waits for facts, through a nested condition."""
    word = WhyTest(
        "power-loss",
        "Loss of power",
        "one of",
        "gradual",
        None,
        (),
        ("gradual", "sudden"),
        True,
        None,
        1,
    )
    return WhyAnswer(
        "reading-contradicts-power",
        ThingKind.FINDING,
        "The reading contradicts the power",
        "van",
        4,
        None,
        rule=RULE,
        applies=None,
        applies_steps=(
            WhyTest(
                "additive",
                "Additive",
                "one of",
                None,
                None,
                (),
                ("false",),
                None,
                Missing.DO_NOT_KNOW,
            ),
        ),
        steps=(
            WhyJoint("all", None),
            word,
            WhyJoint("at least", None, 1, 1),
            _test("below", None, None, WhyOperand(5.0, ("dp-rest-max",)), depth=2),
            _test("above", None, None, WhyOperand(None, (), ("dp@idle",)), depth=2),
        ),
        unknown=(
            WhyUnknown("dp@rest", REST_LABEL, Missing.NOT_ASKED, (REST_CHECK,)),
            WhyUnknown("additive", "Additive", Missing.DO_NOT_KNOW, ()),
        ),
    )


def finding_set_aside() -> WhyAnswer:
    """A graded finding whose instrument is distrusted."""
    cuts = (WhyOperand(6.5), WhyOperand(11.0), WhyOperand(16.0, ("dp-idle-high",)))
    return WhyAnswer(
        "restriction-at-idle",
        ThingKind.FINDING,
        v.DP_IDLE_SAYS,
        "offset",
        3,
        None,
        rule=RULE,
        set_aside="dp-sensor",
        would_be="high",
        borderline=True,
        steps=(
            WhyTest(
                "dp@idle",
                IDLE_LABEL,
                "graded",
                None,
                "mbar",
                cuts,
                ("low", "normal", "raised", "high"),
                None,
                Missing.SET_ASIDE,
            ),
        ),
        related=(
            WhyLink(Relation.FAMILY, ThingKind.FAMILY, "restriction", "Restriction of the filter"),
        ),
    )


def fault() -> WhyAnswer:
    """A fault with evidence on both sides, a prior that facts shift, something missing."""
    said = next(f for f in v.hidden_by_hose().faults if f.id == "soot-overload")
    shifted = WhyShift((_test("above", 18.0, True, WhyOperand(5.0)),), 3.0, True)
    waiting = WhyShift((_test("below", None, None, WhyOperand(1.0)),), 2.0, None)
    return WhyAnswer(
        "soot-overload",
        ThingKind.FAULT,
        said.label,
        "leaking-hose",
        6,
        said.confidence,
        rule=said.rule,
        basis="common practice",
        unknown=(WhyUnknown("dp@rest", REST_LABEL, Missing.NOT_ASKED, (REST_CHECK,)),),
        related=(
            WhyLink(
                Relation.CAUSED_BY, ThingKind.FAULT, "short-trip-duty", "Short-trip duty", 0.4105
            ),
            WhyLink(
                Relation.SPEAKS_FOR,
                ThingKind.FAMILY,
                "restriction",
                "Restriction of the filter",
                "low",
            ),
        ),
        fault=WhyFault(said, 0.25, 0.4, (shifted, waiting), 1, 0.2466),
    )


def action() -> WhyAnswer:
    """An action that something blocks; its caution is always shown."""
    permission = v.blocked_filter().permissions[0]
    return WhyAnswer(
        "drive-on",
        ThingKind.ACTION,
        permission.does,
        "short-trips",
        4,
        "blocked",
        permission=permission,
    )


def channel() -> WhyAnswer:
    """An instrument that a test has failed."""
    said = v.sensor_offset().channels[0]
    return WhyAnswer(
        "dp-sensor",
        ThingKind.CHANNEL,
        said.label,
        "offset",
        3,
        "distrusted",
        channel=said,
        grounds=(v.OFF_REST,),
        related=(
            WhyLink(Relation.TESTS, ThingKind.FINDING, "dp-not-zero-at-rest", v.ZERO_SAYS, True),
        ),
    )


def reading() -> WhyAnswer:
    """A fact: where it came from, what reads it."""
    return WhyAnswer(
        "dp@2500",
        ThingKind.SLOT,
        "Differential pressure over the filter, at 2,500 rpm",
        "short-trips",
        4,
        104.0,
        "mbar",
        grounds=(v.DP_2500,),
        related=(
            WhyLink(
                Relation.GIVEN_BY,
                ThingKind.CHECK,
                "read-dp-at-2500",
                "Hot, hold 2,500 rpm for 30 s",
            ),
            WhyLink(
                Relation.READS, ThingKind.FINDING, "restriction-at-2500", v.DP_2500_SAYS, "blocked"
            ),
        ),
    )


def small_things() -> tuple[WhyAnswer, ...]:
    """The rest: interlock, limit, family, check, code."""
    return (
        WhyAnswer(
            "lamp-not-flashing",
            ThingKind.INTERLOCK,
            v.LAMP_STEADY.says,
            "van",
            2,
            "blocked",
            rule=RULE,
            grounds=(v.LAMP,),
            interlock=v.LAMP_STEADY,
        ),
        WhyAnswer(
            "dp-rest-max",
            ThingKind.LIMIT,
            "Highest reading at rest",
            "van",
            2,
            5.0,
            "mbar",
            rule=RULE,
            basis="common practice",
            limit=LimitUsed("dp-rest-max", "Highest reading at rest", 5, "mbar", "pack"),
        ),
        WhyAnswer(
            "restriction",
            ThingKind.FAMILY,
            "Restriction of the filter",
            "van",
            2,
            "blocked",
            family=FamilySaid(
                "restriction",
                "Restriction of the filter",
                "restriction-at-2500",
                ("restriction-at-idle",),
            ),
        ),
        WhyAnswer(
            "read-dp-at-rest", ThingKind.CHECK, REST_CHECK.does, "van", 2, None, check=REST_CHECK
        ),
        WhyAnswer(
            "code:P2463",
            ThingKind.CODE,
            "Trouble code P2463",
            "van",
            2,
            None,
            missing=Missing.CODES_NOT_COUNTED,
        ),
    )


ALL = {
    "finding-true": finding_true(),
    "finding-open": finding_open(),
    "finding-set-aside": finding_set_aside(),
    "fault": fault(),
    "action": action(),
    "channel": channel(),
    "reading": reading(),
    **{answer.kind.value: answer for answer in small_things()},
}
