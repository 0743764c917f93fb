"""Every sentence of the program, as whole templates with named slots.

A template is the key under which a translation will be found; so it is a literal, never glued
from parts. What goes into a slot comes from outside unless `say` itself made it, and is made
visible first: control characters, escapes and direction marks never reach a screen.
"""

from __future__ import annotations

from sootsayer.documents.escaping import visible


class Said(str):
    """Text that `say` made: its slots are already visible, so it may fill another slot as it is."""

    __slots__ = ()


def shown(value: object) -> Said:
    """One value as text that may be drawn."""
    return value if isinstance(value, Said) else Said(visible(str(value)))


def say(template: str, /, **slots: object) -> Said:
    """The sentence with its slots filled; raises `KeyError` for a slot that is not given."""
    return Said(template.format(**{name: shown(value) for name, value in slots.items()}))


def say_count(one: str, many: str, /, *, count: int, **slots: object) -> Said:
    """As `say`, with the template `one` when `count` is 1 and `many` otherwise."""
    return say(one if count == 1 else many, count=count, **slots)


def listed(parts: list[Said] | tuple[Said, ...]) -> Said:
    """Several texts as one, separated by semicolons: `a; b; c`."""
    return Said("; ".join(parts))
