"""The page of quantities is that of the program."""

from __future__ import annotations

from sootsayer.physics.quantities import QUANTITIES
from tests.physics.quantities_page import PAGE, page


def test_page_is_the_programs() -> None:
    """docs/reference/quantities.md is what the declarations say, and names every one."""
    text = PAGE.read_text(encoding="utf-8")
    assert text == page()
    assert all(f"\n## {name}\n" in text for name in QUANTITIES)
