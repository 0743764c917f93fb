"""Units of the trade: conversion, and numbers as people type them.

Factors are exact fractions wherever the unit is defined exactly, after NIST Special
Publication 811 (2008), appendix B.8: bar 100 000 Pa; pound 0.453 592 37 kg; inch 0.0254 m;
mile 1609.344 m; standard gravity 9.806 65 m/s2; psi is lbf/in2; conventional inch (and
centimetre) of water is a column of 1000 kg/m3 under standard gravity. Arithmetic is done
on fractions and rounded once, so that a result is the same on every machine.

Absolute pressure, gauge pressure, position and duty are different signals, not units; so
are volts and per cents (`unit_hints` says what to do about them). Inch and millimetre of
mercury are the conventional ones of the same table.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from sootsayer.catalogue import Said, say
from sootsayer.catalogue_numbers import figure, unit_said
from sootsayer.physics.unit_hints import other_kind, unlike
from sootsayer.physics.unit_spellings import SPELLINGS

_NO_WAY = "{from_unit} cannot be turned into {to_unit}"
_NO_COUNT = "{from_unit} cannot be turned into a bare count"
_FOR_EXAMPLE = "write a number, for example 24"
_AS_SHOWN = "write the number that was shown"

_GRAVITY = Fraction("9.80665")
_POUND = Fraction("0.45359237")
_INCH = Fraction("0.0254")
_PSI = _POUND * _GRAVITY / _INCH**2
_WATER_PER_METRE = 1000 * _GRAVITY


class UnitError(ValueError):
    """What is wrong is the text of the exception; `instead` is the next action."""

    def __init__(self, what: Said, instead: Said) -> None:
        self.what = what
        self.instead = instead
        super().__init__(what)


class UnknownUnit(UnitError):  # noqa: N818 (a word of the contract)
    """No unit is spelled `unit`; `near` is the nearest spelling we know, or ""."""

    def __init__(self, unit: str, near: str = "", instead: Said | None = None) -> None:
        self.unit = unit
        self.near = near
        if instead is None and near:
            instead = say('did you mean "{name}"?', name=near)
        elif instead is None:
            instead = say("known units: {units}", units=", ".join(UNITS))
        super().__init__(say('unknown unit "{unit}"', unit=unit), instead)


class WrongDimension(UnitError):  # noqa: N818
    """Both units are known, but one cannot become the other."""

    def __init__(self, from_unit: str, to_unit: str) -> None:
        self.from_unit = from_unit
        self.to_unit = to_unit
        instead = say("write the number without a unit")
        if to_unit:
            instead = say("write it in {to_unit}", to_unit=unit_said(to_unit))
        instead = unlike(from_unit, to_unit) or instead
        if not from_unit:
            what = say("a number without unit is not in {to_unit}", to_unit=unit_said(to_unit))
        elif not to_unit:
            what = say(_NO_COUNT, from_unit=unit_said(from_unit))
        else:
            what = say(_NO_WAY, from_unit=unit_said(from_unit), to_unit=unit_said(to_unit))
        super().__init__(what, instead)


class NumberRefused(UnitError):  # noqa: N818
    """The text is no number that can be read in one way only."""


class TwoWays(NumberRefused):
    """`1,500` can be read in two ways; `readings` are both, as nobody can misread them."""

    def __init__(self, typed: str, many: str, few: str) -> None:
        self.readings = (many, few)
        what = say('"{typed}" can be read in two ways', typed=typed)
        super().__init__(what, say("write {one} or {other}", one=figure(many), other=figure(few)))


@dataclass(frozen=True, slots=True)
class Unit:
    """`value` in this unit is `value * factor + offset` in the base unit of `dimension`."""

    dimension: str
    factor: Fraction
    offset: Fraction = Fraction(0)


def _unit(dimension: str, factor: Fraction | int | str, offset: Fraction | int | str = 0) -> Unit:
    return Unit(dimension, Fraction(factor), Fraction(offset))


UNITS: dict[str, Unit] = {
    "mbar": _unit("pressure", 100),
    "hPa": _unit("pressure", 100),
    "kPa": _unit("pressure", 1000),
    "bar": _unit("pressure", 100_000),
    "psi": _unit("pressure", _PSI),
    "inH2O": _unit("pressure", _WATER_PER_METRE * _INCH),
    "cmH2O": _unit("pressure", _WATER_PER_METRE / 100),
    "mmH2O": _unit("pressure", _WATER_PER_METRE / 1000),
    "inHg": _unit("pressure", "3386.389"),
    "mmHg": _unit("pressure", "133.3224"),
    "Pa": _unit("pressure", 1),
    "kg/h": _unit("mass flow", Fraction(1, 3600)),
    "g/s": _unit("mass flow", Fraction(1, 1000)),
    "lb/min": _unit("mass flow", _POUND / 60),
    "lb/h": _unit("mass flow", _POUND / 3600),
    "mg/stroke": _unit("mass per stroke", 1),
    "C": _unit("temperature", 1, "273.15"),
    "F": _unit("temperature", Fraction(5, 9), Fraction("273.15") - Fraction(160, 9)),
    "K": _unit("temperature", 1),
    "mg": _unit("mass", "0.000001"),
    "g": _unit("mass", "0.001"),
    "kg": _unit("mass", 1),
    "g/L": _unit("mass per volume", 1),
    "%": _unit("per cent", 1),
    "km": _unit("length", 1000),
    "mi": _unit("length", "1609.344"),
    "m": _unit("length", 1),
    "mm": _unit("length", "0.001"),
    "1/m": _unit("light absorption", 1),
    "L": _unit("volume", 1),
    "ml": _unit("volume", "0.001"),
    "V": _unit("voltage", 1),
    "s": _unit("time", 1),
    "min": _unit("time", 60),
    "h": _unit("time", 3600),
    "rpm": _unit("speed of rotation", 1),
    # What quantities are computed in; a dimension each, as nothing else is read in them.
    "m3/h": _unit("volume flow", Fraction(1, 3600)),
    "mbar/(m3/h)": _unit("flow resistance", 360_000),
    "cSt": _unit("kinematic viscosity", "0.000001"),
    "L/1000km": _unit("oil use", 1),
    "g/1000km": _unit("mass per distance", 1),
}
"""Canonical names. "" (no unit) is a dimension of its own: counts."""


def _exact_spellings() -> dict[str, str]:
    known = {name: name for name in UNITS}
    for name, spellings in SPELLINGS.items():
        known.update(dict.fromkeys(spellings, name))
    return known


_EXACT = _exact_spellings()
# Capitals carry meaning in short names (m and M, k and K), none in the longer ones: MBAR,
# Kpa and PSI are what displays and people write, and no two of our long names differ by case.
_LONG = {spelling.lower(): name for spelling, name in _EXACT.items() if len(spelling) >= 3}


def unit_name(text: str) -> str:
    """The canonical name of a unit as people spell it; "" for none.

    Raises UnknownUnit. Names of three or more signs may be in capitals or not.
    """
    spelling = " ".join(text.split())
    name = known_unit(spelling)
    if name is None and (kind := other_kind(spelling)) is not None:
        raise UnknownUnit(spelling, unit_name(kind[0]), kind[1])
    if name is None:
        from difflib import get_close_matches

        near = get_close_matches(spelling, _EXACT, n=1, cutoff=0.5) or get_close_matches(
            spelling.lower(), _LONG, n=1, cutoff=0.5
        )
        raise UnknownUnit(spelling, _EXACT.get(near[0]) or _LONG[near[0]] if near else "")
    return name


def known_unit(text: str) -> str | None:
    """As `unit_name`, but None for what is no unit: it looks for nothing near, so it is quick."""
    spelling = " ".join(text.split())
    if not spelling or spelling == "none":
        return ""
    return _EXACT.get(spelling) or _LONG.get(spelling.lower())


def units_like(unit: str) -> list[str]:
    """The canonical names that `unit` (canonical, not "") converts to and from, itself first."""
    kin = [name for name, each in UNITS.items() if each.dimension == UNITS[unit].dimension]
    return [unit, *(name for name in kin if name != unit)]


@lru_cache(maxsize=1024)
def _pair(from_unit: str, to_unit: str) -> tuple[Unit, Unit] | None:
    """Both units, or None when they are the same; refuses unlike dimensions."""
    source, target = unit_name(from_unit), unit_name(to_unit)
    if source == target:
        return None
    if not source or not target or UNITS[source].dimension != UNITS[target].dimension:
        raise WrongDimension(source, target)
    return UNITS[source], UNITS[target]


def convert(value: float, from_unit: str, to_unit: str) -> float:
    """`value` in `from_unit` as a number in `to_unit`.

    Raises UnknownUnit, WrongDimension, or NumberRefused for a value that is not finite.
    """
    _finite(value)
    pair = _pair(from_unit, to_unit)
    if pair is None:
        return float(value)
    source, target = pair
    return float((Fraction(value) * source.factor + source.offset - target.offset) / target.factor)


def convert_difference(value: float, from_unit: str, to_unit: str) -> float:
    """As `convert`, for a difference, a step or an error: 9 F of difference are 5 C."""
    _finite(value)
    pair = _pair(from_unit, to_unit)
    if pair is None:
        return float(value)
    return float(Fraction(value) * pair[0].factor / pair[1].factor)


def convert_reading(value: float, from_unit: str, to_unit: str) -> float:
    """As `convert`, for a reading of a signal or a limit: what is in K is a difference.

    Nobody at a workshop reads absolute temperatures in kelvin, and 5 C of difference typed
    for a signal in K must never become 278 K.
    """
    is_difference = unit_name(to_unit) == "K" != unit_name(from_unit)
    return (convert_difference if is_difference else convert)(value, from_unit, to_unit)


def convert_air(mg_per_stroke: float, cylinders: int, rpm: float) -> float:
    """Air flow in kg/h from mg per stroke (per cylinder) of a four-stroke engine.

    Common arithmetic: each cylinder draws every second turn, so per hour
    rpm x 60 / 2 x cylinders strokes, and 1 mg is 1e-6 kg: mg x rpm x cylinders x 3e-5.
    """
    for value in (mg_per_stroke, float(cylinders), rpm):
        _finite(value)
    return float(Fraction(mg_per_stroke) * Fraction(rpm) * cylinders * Fraction(3, 100_000))


def _finite(value: float) -> None:
    if not math.isfinite(value):
        raise NumberRefused(say("{value} is no reading", value=value), say(_AS_SHOWN))


@dataclass(frozen=True, slots=True)
class Typed:
    """A number as typed: `unit` is canonical or None; `step` is one of its last digit."""

    value: float
    unit: str | None
    step: float


_NUMBER = re.compile(r"([+\-−]?)([0-9]*)(?:([.,])([0-9]*))?", re.ASCII)
_MOST_DIGITS = 12
_LONGEST = 64


def read_number(text: str) -> Typed:
    """A number with or without unit, decimal point or comma: "18 hPa", "0,9 psi", "24".

    Thousands separators are never guessed: `1,500` might be either and is refused, `0,125`
    and `1234,567` can only be decimals. Raises NumberRefused or UnknownUnit.
    """
    typed = text.strip()
    if not typed:
        raise NumberRefused(say("no number"), say(_FOR_EXAMPLE))
    if len(typed) > _LONGEST:
        raise NumberRefused(say("too long for a number"), say(_FOR_EXAMPLE))
    match = _NUMBER.match(typed)
    assert match is not None  # every part of the pattern may be empty
    sign, whole, mark, decimals = (part or "" for part in match.groups())
    rest = typed[match.end() :]
    if not whole and not decimals and re.match(r"[<>≤≥~≈=]+\s*[-−]?[0-9.,]", typed):
        raise NumberRefused(
            say('"{typed}" is a bound, not a reading', typed=typed),
            say("write the number that was shown; where none was, give a reason under `none`"),
        )
    if not whole and not decimals:
        raise NumberRefused(say('"{typed}" is no number', typed=typed), say(_FOR_EXAMPLE))
    _refuse_doubtful(typed, whole, mark, decimals, rest)
    number = Fraction(f"{whole or '0'}.{decimals or '0'}")
    value = float(-number if sign in ("-", "−") else number) or 0.0
    unit = unit_name(rest) if rest.strip() else None
    return Typed(value, unit, float(Fraction(1, 10 ** len(decimals))))


def parse_number(text: str) -> tuple[float, str | None]:
    """As `read_number`: the value, and the canonical unit or None."""
    typed = read_number(text)
    return typed.value, typed.unit


def _refuse_doubtful(typed: str, whole: str, mark: str, decimals: str, rest: str) -> None:
    """Refuse what can be read in two ways, or in none."""
    if re.match(r"[xob][0-9a-f]+$|e[-+]?[0-9]+$", rest, re.IGNORECASE):
        raise NumberRefused(
            say('"{typed}" is written as programs write numbers', typed=typed),
            say("write its digits, such as 1500.3"),
        )
    if re.match(r"\s*:\s*[0-9]", rest):
        raise NumberRefused(
            say('"{typed}" is a time or a ratio', typed=typed),
            say("write one number: 1:30 h is 90 min or 1.5 h"),
        )
    if re.match(r"\s*[-–—][\s0-9]", rest):
        raise NumberRefused(
            say('"{typed}" is a range', typed=typed),
            say("write the steady reading, or read again when it is steady"),
        )
    if re.match(r"\s*[.,'’_]?\s*[0-9]", rest) and not known_unit(rest):  # 2.5 1/m
        raise NumberRefused(
            say('"{typed}" has more than one separator or number', typed=typed),
            say("write digits with at most one decimal point, for example 1500.3"),
        )
    if mark and not decimals:
        raise NumberRefused(
            say('"{typed}" ends in a separator', typed=typed), say("write {right}", right=whole)
        )
    if mark == "," and len(decimals) == 3 and 1 <= len(whole) <= 3 and whole[0] != "0":
        short = f"{whole}.{decimals}".rstrip("0").rstrip(".")
        raise TwoWays(typed, f"{whole}{decimals}", short)
    if len(whole) > _MOST_DIGITS or len(decimals) > _MOST_DIGITS:
        raise NumberRefused(say('"{typed}" has too many digits', typed=typed), say(_AS_SHOWN))
