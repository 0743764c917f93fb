"""Computed numbers written into the text of packs."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from sootsayer.belief.noisy import spread_problems
from sootsayer.learning.computed_links import Links
from sootsayer.rulebook.compiled import Rulebook, load_rulebook, shipped_rules
from tests.laws.making_cases import rulebook
from tests.learning.packs_rewritten import rewritten

SOURCE = "rules/spreads, seed 1, 2 vehicles a fault"
FLAT = (0.01, 0.8, 0.1, 0.05, 0.04)
HIGH = (0.0, 0.05, 0.15, 0.3, 0.5)


def links() -> Links:
    """Made-up results for two blocks, a fault of each and one `hides`."""
    return Links(
        2,
        {"restriction": FLAT, "measured-far-above-shown": (0.98, 0.02)},
        {
            ("restriction", "soot-overload"): HIGH,
            ("measured-far-above-shown", "model-zeroed"): (0.25, 0.75),
        },
        {
            ("restriction", "soot-overload"): HIGH,
            ("measured-far-above-shown", "model-zeroed"): (0.25, 0.75),
        },
        {("front-hose-leaks", "restriction"): (0.6, 0.36, 0.02, 0.01, 0.01)},
    )


@pytest.fixture
def packs(tmp_path: Path) -> Path:
    """The shipped packs, rewritten with these results."""
    for path in sorted(Path(shipped_rules()).glob("*.yaml")):
        shutil.copy(path, tmp_path)
        text = rewritten(path, rulebook().model, links(), SOURCE)
        (tmp_path / path.name).write_text(text, encoding="utf-8")
    return tmp_path


@pytest.fixture
def loaded(packs: Path) -> Rulebook:
    return load_rulebook([packs])


def test_numbers_and_basis_are_written(loaded: Rulebook) -> None:
    """What was computed stands in the packs, with where it came from, as lint wants it."""
    evidence = loaded.model.evidence["restriction"]
    assert evidence.otherwise == pytest.approx(FLAT)
    assert evidence.bases["soot-overload"].source == SOURCE
    assert evidence.seen_with["soot-overload"] == pytest.approx(HIGH, abs=0.01)
    assert spread_problems(evidence.otherwise, evidence.seen_with["soot-overload"]) == []
    hidden = loaded.model.faults["front-hose-leaks"].hides["restriction"]
    assert hidden == pytest.approx((0.6, 0.36, 0.02, 0.01, 0.01))


def test_what_people_know_is_kept_apart(loaded: Rulebook) -> None:
    """Links that were not computed keep their faults and do not call themselves computed."""
    before = rulebook().model.evidence["measured-far-above-shown"]
    after = loaded.model.evidence["measured-far-above-shown"]
    assert after.seen_with.keys() == before.seen_with.keys()
    assert after.seen_with["model-zeroed"][1] == pytest.approx(0.75)
    for fault in after.seen_with.keys() - {"model-zeroed"}:
        assert after.bases[fault].source != SOURCE
        assert after.seen_with[fault][1] == pytest.approx(before.seen_with[fault][1], abs=5e-3)


def test_writing_twice_is_writing_once(packs: Path, loaded: Rulebook) -> None:
    """The command can be run again after every merge."""
    for path in sorted(packs.glob("*.yaml")):
        assert rewritten(path, loaded.model, links(), SOURCE) == path.read_text(encoding="utf-8")


def test_nothing_else_is_touched(packs: Path) -> None:
    """Packs without a computed number stay as they are, byte for byte, and comments stay."""
    untouched = 0
    for path in sorted(Path(shipped_rules()).glob("*.yaml")):
        before, after = path.read_text("utf-8"), (packs / path.name).read_text("utf-8")
        untouched += before == after
        for line in before.splitlines():
            if line.strip().startswith("#"):
                assert line.strip() in after
    assert untouched > 8
