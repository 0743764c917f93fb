"""Heat of burning soot, and how hot it can make the brick."""

from __future__ import annotations

from sootsayer.physics.ranges import within

CARBON = 12.011e-3
"""kg/mol, standard atomic weight (IUPAC)."""
TO_DIOXIDE = 393_510.0
"""J/mol of C burning to CO2 (393.51 kJ/mol; Prosen, Jessup & Rossini, NBS RP1620, 1944)."""
TO_MONOXIDE = 110_530.0
"""J/mol of C burning to CO (110.53 kJ/mol)."""
BRICK_HEAT = 500.0
"""kJ/(m3 K), that is 0.5 kJ/(L K) of cordierite brick, from memory."""


def heat_of_soot(to_dioxide: float = 1.0) -> float:
    """J/kg of soot taken as carbon, `to_dioxide` the share (0 to 1) that becomes CO2, the rest
    CO: 32.76 MJ/kg and 9.20 MJ/kg. Raises ValueError outside the range."""
    within("share burnt to CO2", to_dioxide, 0.0, 1.0)
    return (to_dioxide * TO_DIOXIDE + (1.0 - to_dioxide) * TO_MONOXIDE) / CARBON


def adiabatic_rise(load: float, brick_heat: float = BRICK_HEAT) -> float:
    """The most, in K, by which burning all of `load` g/L of soot can heat the brick: load x 32.76
    kJ/g / (rho cp of the brick), no heat carried away.

    `load` 0 to 30; `brick_heat` kJ/(m3 K) (200 to 2,000): about 500 cordierite, more for silicon
    carbide (from memory). A bound for normal flow and for dropping to idle alike, above the rises
    of Liu et al. 2021 (Processes 9:1403) for any brick_heat below 795. It bounds the mean of the
    brick: where soot lies unevenly, the load there counts. Raises ValueError outside the ranges.
    """
    within("soot load", load, 0.0, 30.0, "g/L")
    within("heat capacity of the brick", brick_heat, 200.0, 2000.0, "kJ/(m3 K)")
    return load * heat_of_soot() / 1000.0 / brick_heat


def steady_rise(burnt: float, mass_flow: float, heat_capacity: float = 1100.0) -> float:
    """K by which gas leaves hotter than it came when `burnt` kg/s of soot (0 to 0.01) burn in
    `mass_flow` kg/s (0.001 to 3) of gas, settled, no loss to the outside: first law.

    `heat_capacity` J/(kg K), 1,100 being hot air (1,000 to 1,300). Raises ValueError outside.
    """
    within("burning soot", burnt, 0.0, 0.01, "kg/s")
    within("mass flow", mass_flow, 0.001, 3.0, "kg/s")
    within("heat capacity of the gas", heat_capacity, 1000.0, 1300.0, "J/(kg K)")
    return burnt * heat_of_soot() / (mass_flow * heat_capacity)
