"""What the packs' own numbers must fit, from outside: oil grades, carbon monoxide, what a filter
and its ash bear, soot ceilings per litre, ash growth. Sources beside each check."""

from __future__ import annotations

import re

import pytest

from sootsayer.physics.ash import ash_by_oil
from sootsayer.physics.heat import adiabatic_rise
from sootsayer.physics.measured import Measured
from sootsayer.physics.quantities import QUANTITIES
from tests.laws.making_cases import rulebook

# ACEA European oil sequences (2016, 2021 light duty; 2022 heavy duty), sulphated ash by ASTM D874
# in per cent of mass, from memory.
AFTER_TREATMENT = {"C1": 0.5, "C2": 0.8, "C3": 0.8, "C4": 0.5, "C5": 0.8, "C6": 0.8}  # at most
CONVENTIONAL = {"A3/B3": 0.9, "A3/B4": 1.0}  # at least; both reach to 1.5 or 1.6

# Degrees Celsius. Materials: handbook figures, from memory; silicon carbide has no melting point at
# ambient pressure, it decomposes.
MELTS = {"cordierite": 1430.0, "aluminium titanate": 1860.0, "silicon carbide": 2200.0}
# Journal of Materials Research 19 (2004) 2913, abstract: lubricant ash without iron or cerium
# sinters on silicon carbide from 970 C, which is itself not attacked below 1,100 C.
ASH_SINTERS, CARBIDE_ATTACKED = 970.0, 1100.0
# Journal of the European Ceramic Society 30 (2010), abstract: at 1,050 C ash of phosphates melts
# and dissolves cordierite.
CORDIERITE_DISSOLVES = 1050.0
# A8. Liu et al. 2021, Processes 9:1403, Fig. 8 (simulation): g/L to peak C, catalyst-out 650 C.
PEAKS = {3.0: 659.2, 6.0: 800.6, 9.0: 946.8}
HOTTEST_IN = 650.0
REFERENCE_LITRES = 2.8


def limit(name: str) -> float:
    return rulebook().model.limits[name].default


def numbers(text: str) -> list[float]:
    return [float(found) for found in re.findall(r"\d+(?:\.\d+)?", text)]


def peak(load: float) -> float:
    """Between and beyond the simulated loads along the nearer straight line."""
    low, high = (3.0, 6.0) if load < 6.0 else (6.0, 9.0)
    slope = (PEAKS[high] - PEAKS[low]) / (high - low)
    return PEAKS[low] + slope * (load - low)


def test_low_ash_oil_is_what_acea_calls_it() -> None:
    """ACEA, C categories (from memory): at most 0.5 or 0.8 per cent; every conventional class
    with a lower limit lies above, so the two grades of the pack do not overlap."""
    how = rulebook().model.signals["oil-grade"].how
    assert how is not None
    assert numbers(how) == [max(AFTER_TREATMENT.values())]
    assert max(AFTER_TREATMENT.values()) < min(CONVENTIONAL.values())
    note = rulebook().model.findings["oil-not-low-ash"].basis.note
    assert note is not None
    assert set(numbers(note)) == set(AFTER_TREATMENT.values())


def test_carbon_monoxide_limits_are_the_directives() -> None:
    """Directive (EU) 2017/164, annex: 20 ppm (23 mg/m3) over eight hours, 100 ppm (117 mg/m3)
    short term; the same in Directive 2004/37/EC, annex III (excerpt). 28.01 g/mol and 24.06 L/mol
    at 20 C tie the two units."""
    note = next(
        lock.basis.note
        for lock in rulebook().model.interlocks.values()
        if lock.basis.note is not None and "2017/164" in lock.basis.note
    )
    assert re.search(r"20 ppm over 8 hours and 100 ppm short term", note)
    for ppm, milligrams in ((20, 23), (100, 117)):
        assert ppm * 28.01 / 24.06 == pytest.approx(milligrams, abs=1)


def test_the_filter_outlives_its_ash() -> None:
    """It is the ash that limits the heat, not the brick: Choi, Liu & Jeong 2009 (J. Ind. Eng.
    Chem. 15:707, abstract: the limit is the eutectic of the ash, not the melting of the carbide;
    about 1,100 C from memory). So the pack's stop comes before any of it."""
    assert ASH_SINTERS < CORDIERITE_DISSOLVES < CARBIDE_ATTACKED < min(MELTS.values())
    stops = rulebook().model.remedies["regenerate-standing"].stop_when
    hottest = max(n for text in stops if " C " in text for n in numbers(text))
    assert HOTTEST_IN < hottest < ASH_SINTERS - 150


def test_a_ceiling_keeps_a_steady_burn_below_sintering_ash() -> None:
    """A8: at the ceilings per litre a burn at normal flow peaks below the sintering of ash; from
    10 g/L, where the packs speak of danger, it no longer does."""
    for name in ("soot-per-litre-carbide", "soot-per-litre-other"):
        assert peak(limit(name)) < ASH_SINTERS, name
    assert peak(10.0) > ASH_SINTERS


def test_a_ceiling_holds_where_a_hot_filter_is_dropped_to_idle() -> None:
    """A8, A12: no more heat than all of the soot's can come, and at the ceiling of cordierite or
    unknown material even all of it from 650 C melts no ash. Eight g/L would: so the higher
    ceiling is silicon carbide's alone, which bears it (and has the heavier brick, from memory)."""
    other = HOTTEST_IN + adiabatic_rise(limit("soot-per-litre-other"))
    assert other < ASH_SINTERS
    carbide = HOTTEST_IN + adiabatic_rise(limit("soot-per-litre-carbide"))
    assert CORDIERITE_DISSOLVES < carbide < MELTS["silicon carbide"]
    assert HOTTEST_IN + adiabatic_rise(12.0) > MELTS["cordierite"]


def test_grams_and_grams_per_litre_are_one_ceiling() -> None:
    """Common practice: 22 g on 2.8 L is the 8 g/L of silicon carbide, and 4 to 5 g/L (cordierite,
    from memory) is the other; nothing above 40 g, whatever the volume."""
    assert limit("soot-in-place-max") / REFERENCE_LITRES == pytest.approx(
        limit("soot-per-litre-carbide"), abs=0.2
    )
    assert 4.0 <= limit("soot-per-litre-other") <= 5.0
    assert limit("soot-in-place-never") == 40.0
    assert limit("soot-over") == limit("soot-in-place-never")
    for grams, per_litre in (("soot-due", "due"), ("soot-high", "high"), ("soot-over", "over")):
        same = limit(grams) / REFERENCE_LITRES
        assert limit(f"soot-per-litre-{per_litre}") == pytest.approx(same, rel=0.03)


def test_triggers_lie_below_the_ceiling() -> None:
    """Common practice: true triggers lie at 3 to 6 g/L; a burn that is due may be done in place,
    one that is high may not without the vehicle's own figure."""
    assert 3.0 <= limit("soot-per-litre-due") <= 6.0
    assert limit("soot-per-litre-due") < limit("soot-per-litre-carbide")
    assert limit("soot-per-litre-carbide") < limit("soot-per-litre-high")


def test_ash_fills_a_filter_when_the_packs_say() -> None:
    """A9. A. Sappok, DieselNet (excerpt; heavy duty): 6 g/L at 53 000 km, 27 g/L at 241 000 km.
    The packs' full (60 g on 2.8 L, 21 g/L) is of that size, and at the rate that the program
    reckons with it is reached between the distances where ash is hardly and surely expected."""
    full = limit("ash-full-from")
    assert 6.0 < full / REFERENCE_LITRES < 27.3
    reckoned = QUANTITIES["ash-by-distance"]
    young, old = (
        reckoned(Measured(limit(km), 0.0)).value for km in ("filter-km-young", "filter-km-old")
    )
    assert young < full < old
    per_litre = old / REFERENCE_LITRES / limit("filter-km-old") * 1000.0
    assert 6 / 53 < per_litre < 4 * 6 / 53


def test_much_oil_makes_more_ash_than_a_healthy_engine() -> None:
    """A9. Oil use of healthy engines up to 0.090 g/km (West & Sluder, SAE 2013-01-0884, excerpt),
    20 to 70 per cent of the ash arriving (Tornehed & Olofsson 2011): half a litre in 1,000 km
    brings more even where least arrives."""
    low_ash = max(AFTER_TREATMENT.values()) / 100.0
    healthy = ash_by_oil(1000, 0.090 / 0.85, low_ash, 0.70)
    half_a_litre = ash_by_oil(1000, 0.5, low_ash, 0.20)
    assert half_a_litre > healthy
