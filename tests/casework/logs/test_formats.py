"""Every form in which a log is met is read to the same windows."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from tests.casework.logs.making_logs import (
    HELD_2500,
    IDLE,
    NAMES,
    REST,
    Phase,
    cells,
    drive,
    text,
)
from tests.casework.logs.support import at, points, read, told

SHORT = (REST, IDLE, Phase(4, (800, 2500)), HELD_2500)
ROWS = list(drive(SHORT))
GERMAN = (
    "Zeit", "Motordrehzahl", "Differenzdruck Partikelfilter", "Luftmasse", "Abgastemperatur vor "
    "Partikelfilter", "Kühlmitteltemperatur", "Fahrzeuggeschwindigkeit", "Fahrpedal",
)  # fmt: skip
FRENCH = (
    "Temps [s]", "Régime moteur [tr/min]", "Pression différentielle FAP [mbar]",
    "Débit massique d'air [kg/h]", "Température échappement avant filtre [°C]",
    "Température liquide de refroidissement [°C]", "Vitesse véhicule [km/h]",
    "Pédale d'accélérateur [%]",
)  # fmt: skip
UNITS = ("s", "1/min", "mbar", "kg/h", "°C", "°C", "km/h", "%")


def times(form: str) -> list[str]:
    """The first column in other words."""
    begin = datetime(2031, 3, 14, 9, 2, 11)
    moments = [begin + timedelta(seconds=row.time) for row in ROWS]
    if form == "ms":
        return [f"{row.time * 1000:.0f}" for row in ROWS]
    return [
        moment.strftime(form).replace("%L", f"{moment.microsecond // 1000:03d}")
        for moment in moments
    ]


def renamed(first: str) -> tuple[str, ...]:
    return (first, *NAMES[1:])


def long_form(delimiter: str = ";", unit: bool = True) -> str:
    """One row a sample and channel."""
    head = ["Time [s]", "Channel", "Value"] + (["Unit"] if unit else [])
    lines = [delimiter.join(head)]
    for row in ROWS:
        for name, cell in list(zip(NAMES, cells(row), strict=True))[1:]:
            bare, mark = name.removesuffix("]").split(" [")
            lines.append(
                delimiter.join([f"{row.time:.1f}", bare if unit else name, cell]
                               + ([mark] if unit else []))
            )  # fmt: skip
    return "\n".join(lines) + "\n"


VARIANTS: dict[str, str | bytes] = {
    "commas": text(ROWS),
    "semicolons": text(ROWS, delimiter=";"),
    "tabs": text(ROWS, delimiter="\t"),
    "semicolons and decimal commas": text(ROWS, delimiter=";", decimal_comma=True),
    "tabs and decimal commas": text(ROWS, delimiter="\t", decimal_comma=True),
    "byte order mark": b"\xef\xbb\xbf" + text(ROWS).encode(),
    "UTF-16 with mark": text(ROWS).encode("utf-16"),
    "UTF-16 big end first": b"\xfe\xff" + text(ROWS).encode("utf-16-be"),
    "UTF-16 without mark": text(ROWS, names=[n.replace("°", "") for n in NAMES]).encode(
        "utf-16-le"
    ),
    "Latin-1": text(ROWS, names=FRENCH, delimiter=";").encode("latin-1"),
    "carriage returns": text(ROWS, end="\r"),
    "CR LF": text(ROWS, end="\r\n"),
    "mixed line ends": text(ROWS).replace("\n", "\r\n", 30),
    "blank lines between": text(ROWS, end="\n\n"),
    "lines above the names": text(ROWS, above=["Live data", "Workshop;12", ""]),
    "units in a second row": text(ROWS, names=GERMAN, units=UNITS, delimiter=";"),
    "bracketed units in a second row": text(
        ROWS, names=GERMAN, units=[f"[{unit}]" for unit in UNITS], delimiter="\t"
    ),
    "French": text(ROWS, names=FRENCH, delimiter=";", decimal_comma=True),
    "units without brackets": text(
        ROWS,
        names=["time s", "engine speed, rpm", "differential pressure DPF (mbar)",
               "air mass / kg/h", "exhaust temperature upstream of filter °C", "coolant temp C",
               "vehicle speed km/h", "accelerator pedal %"],
        delimiter=";",
    ),
    "words in another order": text(
        ROWS,
        names=["Elapsed time", "Speed, engine [rpm]", "Pressure (differential, particle filter) "
               "[mbar]", "Mass of air, intake [kg/h]", "DPF inlet temperature, exhaust [°C]",
               "Temperature of coolant [°C]", "Speed of vehicle [km/h]", "Pedal position [%]"],
        delimiter="\t",
    ),
    "quoted cells": "\n".join(
        ",".join(f'"{cell}"' for cell in line.split(",")) for line in text(ROWS).splitlines()
    ) + "\n",
    "quoted decimal commas": "\n".join(
        ",".join(f'"{cell.replace(".", ",")}"' for cell in line.split(","))
        for line in text(ROWS).splitlines()
    ) + "\n",
    "milliseconds": text(ROWS, names=renamed("Time [ms]"), time=times("ms")),
    "milliseconds unsaid": text(ROWS, names=renamed("Time"), time=times("ms")),
    "clock": text(ROWS, names=renamed("Clock time"), time=times("%H:%M:%S.%L")),
    "clock of whole seconds": text(ROWS, names=renamed("Time"), time=times("%H:%M:%S")),
    "date and clock": text(ROWS, names=renamed("Date/time"), time=times("%Y-%m-%d %H:%M:%S.%L")),
    "ISO moment": text(ROWS, names=renamed("Timestamp"), time=times("%Y-%m-%dT%H:%M:%S.%LZ")),
    "German date": text(
        ROWS, names=renamed("Datum Uhrzeit"), time=times("%d.%m.%Y %H:%M:%S,%L"), delimiter=";"
    ),
    "seconds since 1970": text(
        ROWS, names=renamed("Timestamp"), time=[f"{1_931_000_000 + r.time:.1f}" for r in ROWS]
    ),
    "long form": long_form(),
    "long form, units in the names": long_form(",", unit=False),
    "trailing separators": text(ROWS, delimiter=";").replace("\n", ";\n"),
    "units in the cells": text(ROWS, names=[n.split(" [")[0] for n in NAMES]).replace(
        "\n", " %\n"
    ).replace("Accelerator pedal %", "Accelerator pedal [%]").replace(
        "pressure,", "pressure [mbar],").replace("flow,", "flow [kg/h],"),
}  # fmt: skip


@pytest.mark.parametrize("name", VARIANTS)
def test_variant(name: str, tmp_path: Path) -> None:
    """However it is written, the same drive gives the same three windows and the same means."""
    log = read(tmp_path, VARIANTS[name])
    assert points(log) == ["rest", "idle", "2500"], told(log)
    assert at(log, "rest").channels["dp"].mean == pytest.approx(1.0, abs=0.3)
    idle, held = at(log, "idle"), at(log, "2500")
    assert idle.channels["dp"].mean == pytest.approx(14.5, abs=0.6)
    assert held.channels["dp"].mean == pytest.approx(52.1, abs=1.0)
    assert held.channels["air"].mean == pytest.approx(150, abs=1)
    assert held.channels["exhaust-temperature"].mean == pytest.approx(200, abs=3)
    assert held.channels["engine-speed"].mean == pytest.approx(2500, abs=5)
    assert idle.channels["coolant"].mean == pytest.approx(88, abs=1)
    assert log.length == pytest.approx(ROWS[-1].time, abs=1)


def test_units_are_brought_to_ours(tmp_path: Path) -> None:
    """kPa, g/s and Fahrenheit are read as mbar, kg/h and Celsius."""
    lines = ["Time [s],rpm,DPF delta pressure [kPa],MAF [g/s],Exhaust temp before DPF [°F]"]
    lines += [
        f"{r.time:.1f},{r.rpm:.0f},{r.dp / 10:.2f},{r.air / 3.6:.2f},{r.exhaust * 1.8 + 32:.0f}"
        for r in ROWS
    ]
    log = read(tmp_path, "\n".join(lines) + "\n")
    held = at(log, "2500")
    assert held.channels["dp"].mean == pytest.approx(52.1, abs=1.0)
    assert held.channels["dp"].unit == "mbar"
    assert held.channels["air"].mean == pytest.approx(150, abs=1)
    assert held.channels["exhaust-temperature"].mean == pytest.approx(200, abs=3)


def test_different_rates(tmp_path: Path) -> None:
    """A channel with fewer readings than the others is averaged over its own."""
    lines = ["Time [s];Engine speed [rpm];Differential pressure [mbar];Coolant [°C]"]
    for i, r in enumerate(ROWS):
        lines.append(
            f"{r.time:.1f};{r.rpm:.0f};{f'{r.dp:.1f}' if i % 4 == 0 else ''};"
            f"{'88' if i % 40 == 0 else '--'}"
        )
    log = read(tmp_path, "\n".join(lines) + "\n")
    assert points(log) == ["rest", "idle", "2500"]
    held = at(log, "2500").channels
    assert held["dp"].n * 3 < held["engine-speed"].n
    assert held["dp"].mean == pytest.approx(52.1, abs=1.0)


def test_what_is_no_reading_is_left_out(tmp_path: Path) -> None:
    """Dashes and N/A are no readings; >655 and words are told of, and none is averaged in."""
    lines = text(ROWS).splitlines()
    for number, bad in ((100, "--"), (105, "N/A"), (110, ">655"), (112, ">655"), (115, "abc"),
                        (120, "NaN"), (121, "inf"), (122, "6553.5"), (123, "1_0")):  # fmt: skip
        parts = lines[number].split(",")
        parts[2] = bad
        lines[number] = ",".join(parts)
    log = read(tmp_path, "\n".join(lines) + "\n")
    assert at(log, "idle").channels["dp"].highest < 20
    said = told(log)
    assert "drive.csv:111:" in said
    assert '2 cells only say more or less than can be shown, the first ">655"' in said
    assert 'the first "abc"' in said
    assert '1 reading is not possible, "6553.5"' in said
    assert "--" not in said.replace("--column", "")


def test_cut_last_line(tmp_path: Path) -> None:
    """A last line that was not finished is left out and told of."""
    whole = text(ROWS)
    log = read(tmp_path, whole[: len(whole) - 20])
    assert "the last line is cut off" in told(log)
    assert points(log) == ["rest", "idle", "2500"]
    assert log.rows == len(ROWS) - 1


def test_a_last_number_that_may_be_cut_is_not_read(tmp_path: Path) -> None:
    """Without its line end the last row has all cells and still nobody knows its last number."""
    assert read(tmp_path, text(ROWS)[:-1]).rows == len(ROWS) - 1


def test_time_missing_repeated_late_and_backwards(tmp_path: Path) -> None:
    """Each oddity of time is told of with its line, and the windows stay right."""
    lines = text(ROWS).splitlines()
    lines[60] = lines[60].replace(lines[60].split(",")[0], "", 1)
    lines[62] = lines[61].split(",")[0] + "," + lines[62].split(",", 1)[1]
    lines[70], lines[71] = lines[71], lines[70]
    log = read(tmp_path, "\n".join([*lines, *lines[1:]]) + "\n")
    said = told(log)
    assert "drive.csv:61:1: 1 row has no time" in said.replace("2 rows have", "1 row has")
    assert "out of order" in said
    assert f"drive.csv:{len(lines) + 1}:1: time goes backwards here" in said
    assert points(log) == ["rest", "idle", "2500"] * 2


def test_midnight(tmp_path: Path) -> None:
    """A clock that begins anew at midnight is not time going backwards."""
    begin = datetime(2031, 3, 14, 23, 59, 0)
    clock = [(begin + timedelta(seconds=row.time)).strftime("%H:%M:%S") for row in ROWS]
    log = read(tmp_path, text(ROWS, names=renamed("Time"), time=clock))
    assert points(log) == ["rest", "idle", "2500"]
    assert told(log) == ""


def test_a_gap_ends_a_window(tmp_path: Path) -> None:
    """A pause in the recording cuts a window in two."""
    rows = [f"{(r.time if r.time < 75 else r.time + 100):.1f}" for r in ROWS]
    log = read(tmp_path, text(ROWS, time=rows))
    assert points(log) == ["rest", "idle", "idle", "2500"]


def test_date_of_the_log(tmp_path: Path) -> None:
    """A log with dates says when it began."""
    log = read(tmp_path, text(ROWS, names=renamed("Date/time"), time=times("%d.%m.%Y %H:%M:%S")))
    assert log.begun == datetime(2031, 3, 14, 9, 2, 11)
