"""The reference page of the pack format tells the truth."""

from __future__ import annotations

import re
from pathlib import Path

from sootsayer.physics.units import UNITS
from sootsayer.rulebook.compiled import load_rulebook
from sootsayer.rulebook.frequencies import WORDS
from sootsayer.rulebook.names import Section

PAGE = (Path(__file__).parents[2] / "docs" / "reference" / "pack-format.md").read_text("utf-8")


def example() -> str:
    found = re.search(r"```yaml\n(.*?)```", PAGE, re.DOTALL)
    assert found is not None
    return found[1]


def test_the_example_loads(tmp_path: Path) -> None:
    """The pack on the page is a whole rulebook without a fault."""
    (tmp_path / "example.yaml").write_text(example(), encoding="utf-8")
    model = load_rulebook([tmp_path]).model
    assert set(model.faults) == {"soot-overload", "short-trips", "hose-leaks"}


def test_the_page_names_everything() -> None:
    """Every section, unit and frequency word stands on the page."""
    for section in Section:
        assert f"**{section.value}**" in PAGE, section
    for word, value in WORDS.items():
        assert f"{word} {value}" in re.sub(r"\s+", " ", PAGE), word
    units = re.search(r"The units are (.*?)\.\n", PAGE, re.DOTALL)
    assert units is not None
    assert set(re.split(r"[,;]\s+", units[1])) == {"none", *UNITS}
