"""The quantities that packs can name, by name.

Each is called with one `Measured` per input, in order and in the inputs' units, and gives a
`Measured`: `named("soot-per-litre")(Measured(22, 1), Measured(2.8))`. `quantity.answer` takes
them by name and says what is missing, assumed or refused.
"""

from __future__ import annotations

from collections.abc import Mapping

from sootsayer.physics import quantity_flow, quantity_load, quantity_pressure
from sootsayer.physics.quantity import Quantity

QUANTITIES: Mapping[str, Quantity] = {
    quantity.name: quantity
    for room in (quantity_flow, quantity_pressure, quantity_load)
    for quantity in room.QUANTITIES
}
"""All of them, by name, in the order of flow, pressure and load."""


def named(name: str) -> Quantity:
    """The quantity of that name. Raises ValueError that lists the names there are."""
    found = QUANTITIES.get(name)
    if found is None:
        raise ValueError(f'no quantity is named "{name}"; there are {", ".join(QUANTITIES)}')
    return found
