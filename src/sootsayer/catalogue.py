"""Every sentence of the program, as whole templates with named slots.

A template is the key under which its translation is found; so it is a literal, never glued from
parts. What goes into a slot comes from outside unless `say` itself made it, and is made visible
first: control characters, escapes and direction marks never reach a screen.

One language is in force in the whole process, threads included. The command chooses it (`speak`);
where one page is in another language than the rest, it is drawn inside `speaking`.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sootsayer.catalogue_conventions import convention, numeral, plain
from sootsayer.documents.escaping import visible

if TYPE_CHECKING:
    from sootsayer.tongues import Tongue

OWN = "en"  # the language of the templates themselves

# Slots for numbers that a thing is called by. They are typed back, so they are written as they are;
# every other whole number is a count, with its thousands apart where the language parts them.
CALLED_BY_NUMBER = frozenset(
    {"line", "column", "first", "last", "entry", "root", "other", "outcome", "number", "record"}
)


@dataclass(frozen=True, slots=True)
class _Force:
    """The language in force and its words; None for English, and where there are none."""

    language: str = OWN
    tongue: Tongue | None = None


_force = _Force()


class Said(str):
    """Text that `say` made: its slots are already visible, so it may fill another slot as it is."""

    __slots__ = ()


def shown(value: object) -> Said:
    """One value as text that may be drawn."""
    return value if isinstance(value, Said) else Said(visible(str(value)))


def say(template: str, /, **slots: object) -> Said:
    """The sentence in the language in force with its slots filled; raises `KeyError` for a slot
    that is not given."""
    return _filled(_in_force(template), slots)


def say_count(one: str, many: str, /, *, count: float, **slots: object) -> Said:
    """As `say`, with the form that the language has for `count`: of English the template `one`
    when it is 1 and `many` otherwise. Other languages go by the whole part of it (CLDR has French
    so: 1,5 jour)."""
    said = None if _force.tongue is None else _force.tongue.counted(one, many, int(count))
    return _filled(said or (one if count == 1 else many), {"count": _counted(count), **slots})


def spoken(text: str) -> str:
    """A text without slots in the language in force, as it stands: its braces are braces."""
    return _in_force(text)


def listed(parts: list[Said] | tuple[Said, ...]) -> Said:
    """Several texts as one, separated by semicolons: `a; b; c`."""
    return Said(say(SEPARATOR).join(parts))


SEPARATOR = "; "


def language() -> str:
    """The code of the language in force."""
    return _force.language


def has_words(language: str) -> bool:
    """Whether the program itself speaks this language here."""
    if language == OWN:
        return True
    from sootsayer.tongues import tongue as tongue_of

    return tongue_of(language) is not None


def speak(language: str, tongue: Tongue | None = None) -> None:
    """From now on this language is in force; its words are `tongue`, else its catalogue's."""
    global _force
    if language != OWN and tongue is None:
        from sootsayer.tongues import tongue as tongue_of

        tongue = tongue_of(language)
    _force = _Force(language, tongue)


@contextmanager
def speaking(language: str, tongue: Tongue | None = None) -> Iterator[None]:
    """As `speak`, and as before afterwards."""
    global _force
    before = _force
    speak(language, tongue)
    try:
        yield
    finally:
        _force = before


def _counted(count: float) -> Said:
    """How many, as the language in force writes numbers."""
    return Said(numeral(plain(count), convention(_force.language)))


def _in_force(template: str) -> str:
    said = None if _force.tongue is None else _force.tongue.one(template)
    return said or template


def _filled(template: str, slots: dict[str, object]) -> Said:
    return Said(template.format(**{name: _slot(name, value) for name, value in slots.items()}))


def _slot(name: str, value: object) -> Said:
    if isinstance(value, bool) or not isinstance(value, int) or name in CALLED_BY_NUMBER:
        return shown(value)
    return _counted(value)
