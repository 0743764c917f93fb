"""Named quantities of soot, ash, heat, smoke and oil."""

from __future__ import annotations

import math

from sootsayer.physics import ash, heat, oil, opacity, soot
from sootsayer.physics.measured import Measured, interval, propagate
from sootsayer.physics.quantity import GRAM, LITRE, Input, Quantity, by, kelvin

_SOOT = Input("soot", "g", "soot in the filter")
_LITRES = Input("filter-litres", "L", "volume of the filter")
_DISTANCE = Input("distance", "km", "distance driven with this filter")
_MINUTE = 60.0
_MG_S = 1e-6
_BAI = "Bai et al. 2016 (Applied Thermal Engineering 100), one 17.0 L cordierite filter"


def per_litre(mass: float, litres: float) -> float:
    """g/L from g and L."""
    return soot.per_litre(mass * GRAM, litres * LITRE)


def adiabatic_rise(load: float, brick_heat: float) -> float:
    """K from g/L and kJ/(L K)."""
    return heat.adiabatic_rise(load, brick_heat * 1000.0)


def left_active(start: float, temperature: float, minutes: float, feed: float) -> float:
    """g of soot left from g, C, min and mg/s of feed."""
    rate = soot.active_rate(kelvin(temperature))
    return soot.soot_left(start * GRAM, feed * _MG_S, rate, minutes * _MINUTE) / GRAM


def left_passive(
    start: float, temperature: float, no2: float, minutes: float, feed: float
) -> float:
    """g of soot left from g, C, % of NO2, min and mg/s of feed."""
    rate = soot.passive_rate(kelvin(temperature), no2 / 100.0)
    return soot.soot_left(start * GRAM, feed * _MG_S, rate, minutes * _MINUTE) / GRAM


def ash_by_oil(distance: float, use: float, content: float, reaching: float) -> float:
    """g from km, L/1000km, % sulphated ash and the share that arrives."""
    return ash.ash_by_oil(distance, use, content / 100.0, reaching)


def oil_dilution(new: Measured, used: Measured, fuel: Measured) -> Measured:
    """% of fuel: midway between the two laws, which count as the ends of an interval."""

    def middle(*viscosities: float) -> float:
        both = oil.dilution_log_linear(*viscosities), oil.dilution_double_log(*viscosities)
        return 100.0 * math.fsum(both) / 2.0

    from_inputs = propagate(middle, new, used, fuel)
    values = (new.value, used.value, fuel.value)
    ends = sorted((oil.dilution_log_linear(*values), oil.dilution_double_log(*values)))
    between = 100.0 * interval(*ends).sd
    return Measured(from_inputs.value, math.hypot(from_inputs.sd, between))


QUANTITIES = (
    Quantity(
        "soot-per-litre",
        "Soot per litre of filter",
        by(per_litre),
        (_SOOT, _LITRES),
        "g/L",
        "0 to 1,000 g, 0.3 to 60 L; grams, never a per cent of unknown scale",
        "definition",
    ),
    Quantity(
        "ash-per-litre",
        "Ash per litre of filter",
        by(per_litre),
        (Input("ash", "g", "ash in the filter"), _LITRES),
        "g/L",
        "0 to 1,000 g, 0.3 to 60 L",
        "definition",
    ),
    Quantity(
        "burn-off-bound",
        "The most by which burning all this soot at once could heat the brick",
        by(adiabatic_rise),
        (
            Input("soot-per-litre", "g/L", "soot per litre"),
            Input("brick-heat", "", "kJ per litre and kelvin of the brick", Measured(0.5, 0.05)),
        ),
        "K",
        "0 to 30 g/L, evenly spread; brick heat 0.2 to 2 (0.5 is cordierite, from memory)",
        "heat of C to CO2, NBS RP1620 (1944); no heat lost",
        difference=True,
    ),
    Quantity(
        "soot-left-active",
        "Soot left after burning with oxygen",
        # Rates of other soots and coatings differ by a third or so (from memory).
        by(left_active, own=0.15),
        (
            _SOOT,
            Input("filter-temperature", "C", "temperature in the filter"),
            Input("time", "min", "how long"),
            Input("soot-feed", "", "soot coming in, mg/s", Measured(0.5, 0.3)),
        ),
        "g",
        "377 to 677 C, measured at 450 to 600; excess oxygen, no additive",
        _BAI,
    ),
    Quantity(
        "soot-left-passive",
        "Soot left after oxidation by NO2",
        by(left_passive, own=0.1),
        (
            _SOOT,
            Input("filter-temperature", "C", "temperature in the filter"),
            Input("no2", "%", "NO2 before the filter, per cent by volume"),
            Input("time", "min", "how long"),
            Input("soot-feed", "", "soot coming in, mg/s", Measured(0.5, 0.3)),
        ),
        "g",
        "197 to 447 C, measured at 238 to 400; NO2 0 to 0.3 per cent",
        _BAI,
    ),
    Quantity(
        "catalyst-rise",
        "Temperature gained across the catalyst",
        by(lambda after, before: after - before),
        (
            Input("temperature-after", "C", "gas after the catalyst"),
            Input("temperature-before", "C", "gas before the catalyst"),
        ),
        "K",
        "settled; both instruments warm",
        "definition",
        difference=True,
    ),
    Quantity(
        "ash-by-distance",
        "Ash to be expected after this distance",
        by(ash.ash_by_distance),
        (
            _DISTANCE,
            Input("ash-rate", "g/1000km", "ash per 1,000 km", interval(0.4, 1.0)),
        ),
        "g",
        "0 to 2,000,000 km; light vehicles without fuel additive unless the rate is known",
        "A. Sappok, Ash Accumulation in Diesel Particulate Filters (DieselNet): linear; the rate "
        "is common practice",
    ),
    Quantity(
        "ash-by-oil",
        "Ash to be expected from the oil burnt over this distance",
        by(ash_by_oil),
        (
            _DISTANCE,
            Input("oil-use", "L/1000km", "oil used"),
            Input("sulphated-ash", "%", "sulphated ash of the oil, by mass", interval(0.5, 0.8)),
            Input("reaching", "", "share of the ash that reaches the filter", interval(0.2, 0.7)),
        ),
        "g",
        "0 to 2,000,000 km, 0 to 5 L/1000km, oil of 0.85 kg/L; leaks are no oil use",
        "conservation of mass; Tornehed & Olofsson 2011 for the share",
    ),
    Quantity(
        "light-absorption",
        "Light absorption coefficient of the smoke",
        by(opacity.absorption_of),
        (
            Input("opacity", "%", "light lost"),
            Input("effective-length", "m", "length of the light path", Measured(0.430)),
        ),
        "1/m",
        "0 to 99.9 %",
        "Beer-Lambert; ISO 11614 (effective length, from memory)",
    ),
    Quantity(
        "oil-dilution",
        "Fuel in the engine oil, from its viscosity",
        oil_dilution,
        (
            Input("viscosity-new", "cSt", "kinematic viscosity of this oil when new, 40 C"),
            Input("viscosity-used", "cSt", "the same of the sample, 40 C"),
            Input("viscosity-fuel", "cSt", "the same of fuel", Measured(3.0, 0.5)),
        ),
        "%",
        "5 to 1,000 cSt; sheared oil reads like fuel, sooty or oxidised oil hides it",
        "log-linear mixing and the double logarithm of ASTM D341: the answer lies between",
    ),
)
