"""Packs say which other packs they name things of."""

from __future__ import annotations

from sootsayer.rulebook.desk import Desk


def borrowed_ids(desk: Desk) -> None:
    """A pack that names an id of another pack says so under `uses`."""
    for (_, other), (place, name) in sorted(desk.borrowed.items()):
        desk.wrong(
            place,
            f'"{name}" belongs to the pack "{other}", which this pack does not say it uses',
            f"add {other} to `uses` at the head of this pack",
        )
