"""The files under rules/spreads/: read, and refused with what would be right."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.documents.problems import Refused
from sootsayer.learning.ranges import Either, Span
from sootsayer.learning.simulated.vehicle import KNOBS
from sootsayer.learning.spreads import Plan
from sootsayer.learning.spreads_file import read_spreads, shipped_spreads
from tests.laws.making_cases import rulebook

GOLDEN = Path(__file__).parent / "golden" / "spreads"


def folder(at: Path, **changed: str) -> Path:
    """The golden files with the shipped sound vehicle, some replaced."""
    texts = {
        "sound-vehicle": (shipped_spreads() / "sound-vehicle.yaml").read_text("utf-8"),
        "faults": (GOLDEN / "faults.yaml").read_text("utf-8"),
        "plan": (GOLDEN / "plan.yaml").read_text("utf-8"),
    }
    for name, text in {**texts, **changed}.items():
        (at / f"{name}.yaml").write_text(text, encoding="utf-8")
    return at


def refused(at: Path, **changed: str) -> str:
    """What the reader says of such files."""
    with pytest.raises(Refused) as caught:
        read_spreads(folder(at, **changed))
    return "\n".join(f"{p.place}: {p.what}: {p.instead}" for p in caught.value.problems)


def test_golden(tmp_path: Path) -> None:
    """Every way to write a range comes out as it was meant."""
    found = read_spreads(folder(tmp_path))
    assert found.faults == {
        "sensor-offset": {"dp-zero": Either(((0.5, Span(7, 40)), (0.5, Span(-25, -7))))},
        "sensor-stuck": {
            "dp-stuck": Span(1, 1),
            "dp-stuck-at": Either(((0.75, Span(0, 0)), (0.25, Span(10, 60, 20)))),
        },
        "fine-crack": {"particles": Span(80000, 2000000, log=True)},
    }
    behind = ((0.6, ()), (0.4, ("soot-overload",)))
    assert found.plan == Plan(7, 50, 0.5, 0.02, behind, ("restriction", "soot-load"))
    assert found.sound.keys() == KNOBS


def test_shipped_files_are_of_this_rulebook() -> None:
    """Every fault that is simulated is a fault of the rulebook, or not yet one; every block that
    is to be computed that the rulebook has can be; what lies behind a lie turns a knob."""
    spreads, model = read_spreads(shipped_spreads()), rulebook().model
    assert len(spreads.faults.keys() & model.faults.keys()) > 12
    assert sum(block in model.evidence for block in spreads.plan.blocks) > 9
    for share, faults in spreads.plan.behind:
        assert share > 0
        assert set(faults) <= spreads.faults.keys()
    assert sum(share for share, _ in spreads.plan.behind) == pytest.approx(1.0)


def test_what_is_wrong_is_said(tmp_path: Path) -> None:
    """An unknown knob, a range that falls, a missing key and a wrong format are each refused at
    their place, with what would be right."""
    faults = (GOLDEN / "faults.yaml").read_text("utf-8")
    said = refused(tmp_path, faults=faults.replace("dp-zero", "dp-zeroo"))
    assert "faults.yaml:7:" in said
    assert 'did you mean "dp-zero"?' in said
    assert "no range from 7 to -40" in refused(
        tmp_path, faults=faults.replace("from: 7, to: 40", "from: 7, to: -40")
    )
    assert "has no logarithm" in refused(tmp_path, faults=faults.replace("from: 80000", "from: 0"))
    plan = (GOLDEN / "plan.yaml").read_text("utf-8")
    assert "seed" in refused(tmp_path, plan=plan.replace("  seed: 7\n", ""))
    assert "format" in refused(tmp_path, plan=plan.replace("format: 1", "format: 2"))
    sound = (shipped_spreads() / "sound-vehicle.yaml").read_text("utf-8")
    kept = "\n".join(line for line in sound.splitlines() if "dp-gain" not in line) + "\n"
    assert 'no range for "dp-gain"' in refused(tmp_path, **{"sound-vehicle": kept})
