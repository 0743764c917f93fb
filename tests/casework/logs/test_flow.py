"""Pressure against flow: what went into the drive comes out of the picture."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.casework.logs.flow import flow_picture
from sootsayer.rulebook.compiled import load_rulebook
from sootsayer.rulebook.shipped import shipped_rules
from tests.casework.logs.making_logs import (
    DEMONSTRATION,
    HELD_1500,
    HELD_2500,
    IDLE,
    NAMES,
    REST,
    cells,
    demonstration,
    drive,
    text,
)
from tests.casework.logs.support import read

MODEL = load_rulebook([shipped_rules()]).model
STANDING = (REST, IDLE, HELD_1500, HELD_2500)


@pytest.mark.parametrize(("resistance", "zero"), [(0.10, 0.0), (0.25, 1.0), (0.5, 18.0)])
def test_the_fit_finds_what_was_put_in(resistance: float, zero: float, tmp_path: Path) -> None:
    """Resistance and zero of the drive are those of the fit, within its own uncertainty."""
    log = read(tmp_path, text(drive(STANDING, resistance=resistance, zero=zero)))
    flow = flow_picture(log, MODEL, None)
    assert [point.point for point in flow.points] == ["rest", "idle", "1500", "2500"]
    assert flow.resistance is not None
    assert flow.zero is not None
    assert flow.resistance.value == pytest.approx(resistance, abs=3 * flow.resistance.sd)
    assert flow.zero == pytest.approx(zero, abs=2.0)


def test_bands_are_those_of_the_rulebook(tmp_path: Path) -> None:
    """Each level begins at its own slope, steeper from level to level."""
    flow = flow_picture(read(tmp_path, text(drive(STANDING))), MODEL, None)
    slopes = [band.slope for band in flow.bands]
    assert len(slopes) >= 3
    assert slopes == sorted(slopes)


def test_without_air_or_temperature_there_is_no_picture(tmp_path: Path) -> None:
    """Flow is not made up: the remark names what is missing."""
    rows = list(drive(STANDING))
    keep = (0, 1, 2, 4, 5, 6)
    lines = [",".join(NAMES[i] for i in keep)]
    lines += [",".join(cells(row)[i] for i in keep) for row in rows]
    flow = flow_picture(read(tmp_path, "\n".join(lines) + "\n"), MODEL, None)
    assert [point.point for point in flow.points] == ["rest"]
    assert any("no air reading" in remark for remark in flow.remarks)


def test_the_demonstration_log_is_what_the_script_makes() -> None:
    """The shipped log is the script's, byte for byte."""
    assert DEMONSTRATION.read_text(encoding="utf-8") == demonstration()
