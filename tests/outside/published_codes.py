"""What the generic trouble codes that the packs name mean: SAE J2012 / ISO 15031-6 (the list itself
is SAE J2012-DA).

From memory and paraphrased: the standard was not to hand. `words`: one of them stands in what a
finding says that this code makes true. `raises`: faults that the code must make likelier, being
what its condition is about; `spares`: faults of the contrary condition, which it must not.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Meaning:
    about: str
    words: tuple[str, ...]
    raises: tuple[str, ...] = ()
    spares: tuple[str, ...] = ()
    stops_a_burn: bool = False  # common practice: with it open the control starts none


_DP = ("filter pressure sensor",)
_REFERENCE = ("five-volt",)
_HOT = ("exhaust temperature sensor",)
_GLOW = ("glow",)
_CYLINDER = ("cylinder",)
_FLAPS = ("flap",)
_MATTER = ("particulate sensor",)
_COOLANT = ("coolant temperature sensor",)
_LIES = ("wiring-default",)
_SUPPLY = ("supply-low", "wiring-default")
_WRONG_HEAT = ("exhaust-sensor-wrong",)
_BALANCE = ("injector-overfuels", "compression-low")

MEANINGS = {
    # The filter
    "P2002": Meaning(
        "particulate filter efficiency below threshold",
        ("ineffective",),
        ("core-breached", "core-removed"),
        ("soot-overload", "ash-full"),
    ),
    "P226D": Meaning(
        "particulate filter substrate deteriorated or missing",
        ("missing, damaged",),
        ("core-breached", "core-removed"),
        ("soot-overload", "ash-full"),
    ),
    "P2463": Meaning(
        "restriction, soot accumulation", ("soot",), ("soot-overload",), ("core-breached",)
    ),
    "P24A4": Meaning(
        "restriction, soot accumulation too high", ("soot",), ("soot-overload",), ("core-breached",)
    ),
    "P242F": Meaning(
        "restriction, ash accumulation", ("ash",), ("ash-full",), ("core-breached",), True
    ),
    "P244A": Meaning(
        "differential pressure too low",
        ("too little differential pressure",),
        ("core-breached", "front-hose-leaks"),
        ("soot-overload", "ash-full"),
        True,
    ),
    "P244B": Meaning(
        "differential pressure too high",
        ("too much differential pressure",),
        ("soot-overload", "ash-full"),
        ("core-breached", "core-removed", "front-hose-leaks"),
    ),
    # Its pressure sensor
    "P2452": Meaning("pressure sensor A circuit", _DP, _LIES, ("soot-overload",), True),
    "P2453": Meaning("pressure sensor A range/performance", _DP, _LIES, ("soot-overload",), True),
    "P2454": Meaning("pressure sensor A circuit low", _DP, _LIES, ("soot-overload",), True),
    "P2455": Meaning("pressure sensor A circuit high", _DP, _LIES, ("soot-overload",), True),
    "P2456": Meaning("pressure sensor A intermittent", _DP, _LIES, ("soot-overload",), True),
    # Regeneration
    "P2458": Meaning("regeneration duration", ("too long",), ("vaporiser-faulty",)),
    "P2459": Meaning("regeneration frequency", ()),
    "P24A2": Meaning("regeneration incomplete", ("incomplete",), ("vaporiser-faulty",)),
    "P244C": Meaning(
        "exhaust too cold for regeneration",
        ("too cold",),
        ("catalyst-tired", "vaporiser-faulty"),
    ),
    "P244D": Meaning("exhaust too hot for regeneration", ()),
    # Exhaust temperature sensors
    "P0544": Meaning("sensor 1 circuit", _HOT, _WRONG_HEAT, (), True),
    "P0545": Meaning("sensor 1 circuit low", _HOT, _WRONG_HEAT, (), True),
    "P0546": Meaning("sensor 1 circuit high", _HOT, _WRONG_HEAT, (), True),
    "P2031": Meaning("sensor 2 circuit", _HOT, _WRONG_HEAT, (), True),
    "P2032": Meaning("sensor 2 circuit low", _HOT, _WRONG_HEAT, (), True),
    "P2033": Meaning("sensor 2 circuit high", _HOT, _WRONG_HEAT, (), True),
    "P2080": Meaning("sensor 1 range/performance", _HOT, _WRONG_HEAT, (), True),
    "P2084": Meaning("sensor 2 range/performance", _HOT, _WRONG_HEAT, (), True),
    # Exhaust gas recirculation
    "P0401": Meaning(
        "EGR flow insufficient", ("too little",), (), ("egr-stuck-open", "soot-overload"), True
    ),
    "P0402": Meaning("EGR flow excessive", ("too much",), ("egr-stuck-open",), (), True),
    "P0403": Meaning("EGR control circuit", ("circuit",), ("egr-stuck-open",), (), True),
    "P0404": Meaning("EGR range/performance", ("range",), ("egr-stuck-open",), (), True),
    "P042E": Meaning("EGR A stuck open", ("stuck open",), ("egr-stuck-open",), (), True),
    "P045A": Meaning("EGR B control circuit", ("second",), ("low-pressure-egr-stuck",), (), True),
    "P045E": Meaning("EGR B stuck open", ("second",), ("low-pressure-egr-stuck",), (), True),
    "P2457": Meaning("EGR cooling system performance", ()),
    # Boost and air
    "P0234": Meaning("overboost", ("too much boost",), (), ("boost-leak",)),
    "P0299": Meaning(
        "underboost", ("too little boost",), ("boost-leak", "turbo-weak"), (), True
    ),
    "P0100": Meaning("air flow circuit", ("air meter",), ("air-meter-low",), (), True),
    "P0101": Meaning("air flow range/performance", ("air meter",), ("air-meter-low",), (), True),
    "P0102": Meaning("air flow circuit low", ("air meter",), ("air-meter-low",), (), True),
    "P0103": Meaning("air flow circuit high", ("air meter",), (), ("air-meter-low",), True),
    "P0638": Meaning("throttle actuator range/performance", _FLAPS, ("flaps-stuck",), (), True),
    "P2100": Meaning("throttle actuator motor circuit", _FLAPS, ("flaps-stuck",), (), True),
    "P2101": Meaning("throttle motor range/performance", _FLAPS, ("flaps-stuck",), (), True),
    "P2004": Meaning("intake runner stuck open", _FLAPS, ("flaps-stuck",), (), True),
    "P2006": Meaning("intake runner stuck closed", _FLAPS, ("flaps-stuck",), (), True),
    "P2015": Meaning("runner position range/performance", _FLAPS, ("flaps-stuck",), (), True),
    # Fuel, glow plugs, compression
    "P0087": Meaning("fuel rail pressure too low", ("rail pressure",), ("fuel-poor",), (), True),
    "P0263": Meaning("cylinder 1 balance", _CYLINDER, _BALANCE, (), True),
    "P0266": Meaning("cylinder 2 balance", _CYLINDER, _BALANCE, (), True),
    "P0269": Meaning("cylinder 3 balance", _CYLINDER, _BALANCE, (), True),
    "P0272": Meaning("cylinder 4 balance", _CYLINDER, _BALANCE, (), True),
    "P0301": Meaning("cylinder 1 misfire", _CYLINDER, _BALANCE, (), True),
    "P0302": Meaning("cylinder 2 misfire", _CYLINDER, _BALANCE, (), True),
    "P0303": Meaning("cylinder 3 misfire", _CYLINDER, _BALANCE, (), True),
    "P0304": Meaning("cylinder 4 misfire", _CYLINDER, _BALANCE, (), True),
    "P0380": Meaning("glow plug or heater circuit A", _GLOW, ("glow-fault",), (), True),
    "P0670": Meaning("glow control module circuit", _GLOW, ("glow-fault",), (), True),
    "P0671": Meaning("cylinder 1 glow plug circuit", _GLOW, ("glow-fault",), (), True),
    "P0672": Meaning("cylinder 2 glow plug circuit", _GLOW, ("glow-fault",), (), True),
    "P0673": Meaning("cylinder 3 glow plug circuit", _GLOW, ("glow-fault",), (), True),
    "P0674": Meaning("cylinder 4 glow plug circuit", _GLOW, ("glow-fault",), (), True),
    "P0016": Meaning("crankshaft/camshaft correlation, A", ("camshaft",), ("compression-low",)),
    "P0017": Meaning("crankshaft/camshaft correlation, B", ("camshaft",), ("compression-low",)),
    # Coolant
    "P0115": Meaning("coolant temperature circuit", _COOLANT, ("burn-inhibited",), (), True),
    "P0116": Meaning("coolant range/performance", _COOLANT, ("burn-inhibited",), (), True),
    "P0117": Meaning("coolant circuit low", _COOLANT, ("burn-inhibited",), (), True),
    "P0118": Meaning("coolant circuit high", _COOLANT, ("burn-inhibited",), (), True),
    "P0128": Meaning(
        "coolant below thermostat temperature", ("thermostat",), ("thermostat-open",), (), True
    ),
    # Supply
    "P0562": Meaning("system voltage low", ("voltage",), ("burn-inhibited",), (), True),
    "P0620": Meaning("generator control circuit", ("charging",), ("burn-inhibited",), (), True),
    "P0622": Meaning("generator field circuit", ("charging",), ("burn-inhibited",), (), True),
    "P0641": Meaning("reference voltage A open", _REFERENCE, _SUPPLY, (), True),
    "P0642": Meaning("reference voltage A low", _REFERENCE, _SUPPLY, (), True),
    "P0643": Meaning("reference voltage A high", _REFERENCE, _LIES, ("supply-low",), True),
    "P0651": Meaning("reference voltage B open", _REFERENCE, _SUPPLY, (), True),
    "P0652": Meaning("reference voltage B low", _REFERENCE, _SUPPLY, (), True),
    "P0653": Meaning("reference voltage B high", _REFERENCE, _LIES, ("supply-low",), True),
    # Catalysts and reductant
    "P0420": Meaning("catalyst efficiency below threshold", ("catalyst",), ("catalyst-tired",)),
    "P20EE": Meaning("NOx catalyst efficiency", ("NOx",), ("reductant-deposits",)),
    "P204F": Meaning("reductant system performance", ("reductant",), ("reductant-deposits",)),
    "P207F": Meaning("reductant quality", ("reductant",), ("reductant-deposits",)),
    "P20E8": Meaning("reductant pressure too low", ("reductant",), ("reductant-deposits",)),
    # Particulate sensor
    "P24AE": Meaning("particulate sensor circuit", _MATTER, ("particulate-sensor-fouled",)),
    "P24AF": Meaning("its range/performance", _MATTER, ("particulate-sensor-fouled",)),
    "P24B0": Meaning("its circuit low", _MATTER, ("particulate-sensor-fouled",)),
    "P24B1": Meaning("its circuit high", _MATTER, ("particulate-sensor-fouled",)),
    "P24B3": Meaning("its heater circuit", _MATTER, ("particulate-sensor-fouled",)),
    "P24D0": Meaning("its supply voltage circuit", _MATTER, ("particulate-sensor-fouled",)),
}  # fmt: skip
