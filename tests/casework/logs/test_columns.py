"""Which column is what, by words in three languages, by units, and as a person says."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.casework.logs.columns import NO_WISH, Wish, choose
from sootsayer.casework.logs.naming import score, split_unit, tokens
from sootsayer.casework.logs.words import BY_ID, ROLES
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Refused
from tests.casework.logs.making_logs import NAMES, drive, text
from tests.casework.logs.support import read, told

AT = Place("drive.csv", 1, 1)


def role_of(name: str) -> str:
    """What a lone column is taken for, "" for nothing."""
    bare, unit = split_unit(name)
    chosen = choose([name], [unit or ""], NO_WISH, AT)
    assert bare is not None
    return chosen.columns[0].role if chosen.columns else ""


@pytest.mark.parametrize(
    ("name", "role"),
    [
        ("Differential pressure [mbar]", "dp"),
        ("Delta P DPF (kPa)", "dp"),
        ("ΔP particle filter [hPa]", "dp"),
        ("Differenzdruck Partikelfilter [mbar]", "dp"),
        ("Partikelfilter Differenzdruck hPa", "dp"),
        ("Pression différentielle filtre à particules (mbar)", "dp"),
        ("dpfDifferentialPressure [kPa]", "dp"),
        ("Fuel differential pressure [kPa]", ""),
        ("Differential pressure, target [mbar]", ""),
        ("Engine speed [rpm]", "engine-speed"),
        ("RPM", "engine-speed"),
        ("Motordrehzahl [1/min]", "engine-speed"),
        ("Drehzahl (U/min)", "engine-speed"),
        ("Régime moteur tr/min", "engine-speed"),
        ("Turbo speed [rpm]", ""),
        ("Solldrehzahl [1/min]", ""),
        ("Intake air mass [mg/stroke]", "air"),
        ("MAF [g/s]", "air"),
        ("Luftmassenstrom [kg/h]", "air"),
        ("Luftmasse mg/Hub", "air"),
        ("Débit d'air (kg/h)", "air"),
        ("Air temperature [°C]", ""),
        ("Exhaust gas temperature before DPF [°C]", "exhaust-temperature"),
        ("DPF inlet temp (°F)", "exhaust-temperature"),
        ("Exhaust temp after catalyst before particle filter [°C]", "exhaust-temperature"),
        ("Abgastemperatur vor Partikelfilter [°C]", "exhaust-temperature"),
        ("Température échappement amont FAP (°C)", "exhaust-temperature"),
        ("Exhaust temperature after DPF [°C]", "exhaust-after"),
        ("Abgastemperatur nach Partikelfilter °C", "exhaust-after"),
        ("Température gaz d'échappement aval FAP [°C]", "exhaust-after"),
        ("Exhaust temperature before turbo [°C]", ""),
        ("Coolant temperature [°C]", "coolant"),
        ("ECT °C", "coolant"),
        ("Kühlmitteltemperatur", "coolant"),
        ("Kuehlwassertemperatur [°C]", "coolant"),
        ("Température eau moteur (°C)", "coolant"),
        ("Vehicle speed [km/h]", "road-speed"),
        ("Fahrzeuggeschwindigkeit km/h", "road-speed"),
        ("Vitesse véhicule (km/h)", "road-speed"),
        ("Speed [mph]", "road-speed"),
        ("Accelerator pedal position [%]", "pedal"),
        ("Fahrpedalstellung %", "pedal"),
        ("Brake pedal [%]", ""),
        ("Calculated engine load [%]", "load"),
        ("Motorlast [%]", "load"),
        ("Boost pressure absolute [mbar]", "boost"),
        ("Ladedruck [hPa]", "boost"),
        ("Boost pressure, target [hPa]", ""),
        ("Barometric pressure [kPa]", "barometer"),
        ("Umgebungsdruck [hPa]", "barometer"),
        ("DPF regeneration status", "regeneration-status"),
        ("Regeneration aktiv", "regeneration-status"),
        ("Distance since last regeneration [km]", ""),
        ("Kilometerstand [km]", "odometer"),
        ("Odometer (mi)", "odometer"),
        ("Differential pressure sensor voltage [V]", "sensor-volts"),
        ("Time [s]", "time"),
        ("Zeit", "time"),
        ("Heure", "time"),
        ("Injection time [ms]", ""),
        ("Time since start of regeneration [s]", ""),
        ("Gear", ""),
        ("Battery voltage [V]", ""),
    ],
)  # fmt: skip
def test_words(name: str, role: str) -> None:
    """Words and unit decide what a column is; what could mislead is not taken."""
    assert role_of(name) == role


def test_other_units_rule_a_role_out() -> None:
    """A differential pressure in volts or degrees is none."""
    words = tokens("Differential pressure")
    assert score(words, "mbar", BY_ID["dp"]) > score(words, None, BY_ID["dp"]) > 0.5
    assert score(words, "V", BY_ID["dp"]) == score(words, "C", BY_ID["dp"]) == 0.0


def test_equal_fits_are_not_guessed() -> None:
    """Two columns that fit alike are both left alone, and the message says how to choose."""
    names = ["Time [s]", "Differential pressure 1 [mbar]", "Differential pressure 2 [mbar]"]
    chosen = choose(names, ["s", "mbar", "mbar"], NO_WISH, AT)
    assert [column.role for column in chosen.columns] == ["time"]
    assert '--column dp="Differential pressure 1 [mbar]"' in chosen.warnings[0].instead


def test_no_unit_of_pressure_is_guessed() -> None:
    """Ten times too high is easily done: a pressure or air without unit is not read."""
    chosen = choose(["Differential pressure", "Air mass"], ["", ""], NO_WISH, AT)
    assert chosen.columns == ()
    assert [w.instead for w in chosen.warnings] == [
        "say the unit: --unit dp=mbar", "say the unit: --unit air=kg/h"
    ]  # fmt: skip
    said = choose(["Differential pressure"], [""], Wish({}, {"dp": "hPa"}), AT)
    assert said.columns[0].unit == "hPa"


def test_a_person_corrects(tmp_path: Path) -> None:
    """--column takes the column it names, by name, by name without unit, or by number."""
    names = ["Time [s]", "Engine speed [rpm]", "Sensor 7 [mbar]", *NAMES[3:]]
    content = text(drive(), names=names)
    assert read(tmp_path, content).column("dp") is None
    for said in ("Sensor 7 [mbar]", "sensor 7", "3"):
        column = read(tmp_path, content, columns={"dp": said}).column("dp")
        assert column is not None
        assert (column.index, column.said, column.score) == (2, True, 1.0)


def test_a_wrong_correction_names_what_there_is(tmp_path: Path) -> None:
    """A name that no column has is refused with the nearest one."""
    with pytest.raises(Refused) as refused:
        read(tmp_path, text(drive()), columns={"dp": "DPF diferential pressure [mbar]"})
    assert "did you mean" in refused.value.problems[0].instead
    with pytest.raises(Refused) as refused:
        read(tmp_path, text(drive()), columns={"dp": "Coolant temperature [°C]"})
    assert "say its unit: --unit dp=mbar" in refused.value.problems[0].instead


def test_unused_columns_are_named(tmp_path: Path) -> None:
    """What was not taken for anything is listed, so that nothing is silently missed."""
    log = read(tmp_path, text(drive(), names=[*NAMES[:7], "Gear"]))
    assert log.unused == ("Gear",)
    assert told(log) == ""


@given(st.text(max_size=120), st.sampled_from([None, "mbar", "C", "rpm", "%", "s", "V", "km"]))
@settings(deadline=None, max_examples=200)
def test_scores_stay_in_bounds(name: str, unit: str | None) -> None:
    """Whatever a column is called, every score lies between 0 and 1."""
    words = tokens(split_unit(name)[0])
    assert all(0.0 <= score(words, unit, role) <= 1.0 for role in ROLES)
