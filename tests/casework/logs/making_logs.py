"""Makes live-data logs of an invented vehicle: a seeded script of what it did, and a writer.

The gas is that of `sootsayer.physics`; the filter, the drive and the noise are made up. Run
`python -m tests.casework.logs.making_logs` to write the demonstration log again.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from sootsayer.physics.gas import air_viscosity

DEMONSTRATION = Path(__file__).parents[3] / "cases" / "logs" / "panel-van-drive.csv"
SEED = 20310314


@dataclass(frozen=True, slots=True)
class Phase:
    """A stretch of `seconds`: rpm from and to, road speed km/h, pedal %, exhaust C aimed at."""

    seconds: float
    rpm: tuple[float, float]
    speed: float = 0.0
    pedal: float = 0.0
    exhaust: float = 150.0
    coolant: float = 88.0
    burning: bool = False
    boost: float = 1.0


REST = Phase(40, (0, 0), exhaust=80)
IDLE = Phase(70, (800, 800), exhaust=150)
HELD_2500 = Phase(60, (2500, 2500), pedal=12, exhaust=200)
HELD_2000 = Phase(50, (2000, 2000), pedal=10, exhaust=190)
HELD_1500 = Phase(50, (1500, 1500), pedal=8, exhaust=180)
PULL = Phase(7, (2000, 3600), speed=70, pedal=98, exhaust=380, boost=2.1)
ROAD = Phase(90, (2100, 2100), speed=90, pedal=25, exhaust=280, boost=1.25)
BURNING = Phase(60, (1050, 1050), exhaust=590, burning=True)
COLD = Phase(50, (900, 900), exhaust=90, coolant=30)
DRIVE = (
    REST, IDLE, Phase(4, (800, 2500)), HELD_2500, Phase(4, (2500, 800)), Phase(10, (800, 800)),
    Phase(12, (1200, 2000), speed=50, pedal=30), PULL,
    Phase(10, (2600, 2100), speed=90, pedal=20, exhaust=300), ROAD,
    Phase(15, (2000, 900), speed=30, exhaust=220),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Row:
    """One sample: s, rpm, mbar, kg/h, C, C, km/h, %, and whether a regeneration runs."""

    time: float
    rpm: float
    dp: float
    air: float
    exhaust: float
    coolant: float
    speed: float
    pedal: float
    burning: bool


def drive(
    phases: Sequence[Phase] = DRIVE,
    *,
    rate: float = 2.0,
    resistance: float = 0.25,
    zero: float = 1.0,
    seed: int = SEED,
) -> Iterator[Row]:
    """Samples, `rate` a second. `resistance` in mbar/(m3/h) at the viscosity of 200 C, `zero`
    mbar that the sensor adds."""
    chance = random.Random(seed)
    time, exhaust = 0.0, phases[0].exhaust
    for phase in phases:
        count = max(1, round(phase.seconds * rate))
        for i in range(count):
            share = i / count
            rpm = phase.rpm[0] + (phase.rpm[1] - phase.rpm[0]) * share
            exhaust += (phase.exhaust - exhaust) * (1 - math.exp(-1 / (rate * 3.0)))
            air = 0.03 * 2.0 * rpm * phase.boost
            flow = air * 1.02 * (exhaust + 273.15) / 353.0
            dp = zero + resistance * flow * air_viscosity(exhaust + 273.15) / air_viscosity(473.15)
            yield Row(
                round(time, 3),
                max(0.0, rpm + (chance.gauss(0, 4) if rpm else 0.0)),
                dp + chance.gauss(0, 0.3) + 0.004 * dp * chance.gauss(0, 1),
                max(0.0, air + (chance.gauss(0, 0.5) if air else 0.0)),
                exhaust + chance.gauss(0, 1),
                phase.coolant + chance.gauss(0, 0.2),
                phase.speed + (chance.gauss(0, 0.3) if phase.speed else 0.0),
                phase.pedal,
                phase.burning,
            )
            time += 1.0 / rate


NAMES = (
    "Time [s]", "Engine speed [rpm]", "DPF differential pressure [mbar]", "Air mass flow [kg/h]",
    "Exhaust temperature before DPF [°C]", "Coolant temperature [°C]", "Vehicle speed [km/h]",
    "Accelerator pedal [%]",
)  # fmt: skip


def cells(row: Row) -> list[str]:
    """A sample as the demonstration log writes it."""
    return [
        f"{row.time:.1f}", f"{row.rpm:.0f}", f"{row.dp:.1f}", f"{row.air:.1f}",
        f"{row.exhaust:.0f}", f"{row.coolant:.0f}", f"{max(row.speed, 0):.0f}", f"{row.pedal:.0f}",
    ]  # fmt: skip


def text(
    rows: Iterator[Row] | Sequence[Row],
    *,
    names: Sequence[str] = NAMES,
    above: Sequence[str] = (),
    units: Sequence[str] = (),
    delimiter: str = ",",
    decimal_comma: bool = False,
    end: str = "\n",
    time: Sequence[str] | None = None,
) -> str:
    """A log as text. `above`: lines above the names; `units`: a second row of them; `time`:
    what stands in the first column instead of seconds."""
    lines = [*above, delimiter.join(names), *([delimiter.join(units)] if units else [])]
    for index, row in enumerate(rows):
        line = cells(row)
        if time is not None:
            line[0] = time[index]
        if decimal_comma:
            line = [cell.replace(".", ",") for cell in line]
        lines.append(delimiter.join(line))
    return end.join(lines) + end


def demonstration() -> str:
    """The log that ships with the demonstration cases: semicolons and decimal commas."""
    return text(
        drive(rate=1.0),
        above=["Live data, invented; made by tests/casework/logs/making_logs.py",
               "Engine;2.0 L", "Odometer;84 012 km"],
        delimiter=";", decimal_comma=True,
    )  # fmt: skip


if __name__ == "__main__":
    DEMONSTRATION.parent.mkdir(exist_ok=True)
    DEMONSTRATION.write_text(demonstration(), encoding="utf-8", newline="")
