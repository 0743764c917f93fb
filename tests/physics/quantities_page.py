"""Writes docs/reference/quantities.md: `python -m tests.physics.quantities_page`."""

from __future__ import annotations

from pathlib import Path

from sootsayer.physics.measured import Measured
from sootsayer.physics.quantities import QUANTITIES
from sootsayer.physics.quantity import Input, Quantity

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "quantities.md"
HEAD = """# Quantities

What a pack can have computed from readings, by name. An input that is *assumed* where nobody read
it has the value and standard deviation shown; the others must be known, and are named when they
are not. [The physics](../explanation/physics.md) explains resistance, the reference vehicle and
the limits of all this. This page is written by `python -m tests.physics.quantities_page`.
"""


def page() -> str:
    """The whole page."""
    return HEAD + "".join(_section(quantity) for quantity in QUANTITIES.values())


def _section(quantity: Quantity) -> str:
    lines = [
        "",
        f"## {quantity.name}",
        "",
        f"{quantity.says}{_in(quantity.unit, quantity.difference)}.",
        "",
        "| input | unit | what | assumed |",
        "|---|---|---|---|",
        *(_row(at) for at in quantity.inputs),
        "",
        f"Holds for: {quantity.validity}. From: {quantity.reference}.",
        "",
    ]
    return "\n".join(lines)


def _in(unit: str, difference: bool) -> str:
    if not unit:
        return ""
    return f", in {unit}" + (" of difference" if difference else "")


def _row(at: Input) -> str:
    return f"| `{at.name}` | {at.unit} | {at.says} | {_assumed(at.assumed)} |"


def _assumed(measured: Measured | None) -> str:
    if measured is None:
        return ""
    return f"{measured.value:.4g} ± {measured.sd:.2g}" if measured.sd else f"{measured.value:.4g}"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
