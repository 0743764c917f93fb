"""The program's texts in other languages: catalogues as gettext has them.

`words/LANGUAGE/LC_MESSAGES/sootsayer.mo`, in the package. A catalogue that is missing, broken or
wrong in one sentence never stops anything: there the program's own English stands.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from string import Formatter
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from gettext import GNUTranslations

OWN = "en"  # the language that the program is written in
WORDS = Path(__file__).parent / "words"
DOMAIN = "sootsayer"
_CODE = re.compile(r"[a-z]{2,3}(-[A-Z]{2})?")


class Tongue(Protocol):
    """One language's words for the program's templates; None where it has none that fit."""

    def one(self, template: str) -> str | None:
        """The template in this language."""

    def counted(self, one: str, many: str, count: int) -> str | None:
        """The one of the language's plural forms that `count` wants."""


class Catalogue:
    """A catalogue as gettext reads it. What does not have the slots of the English is no word."""

    def __init__(self, read: GNUTranslations) -> None:
        self._read = read
        self._fits: dict[tuple[str, ...], str | None] = {}

    def one(self, template: str) -> str | None:
        said = self._read.gettext(template) if template else template
        return None if said is template else self._fitting(said, template)

    def counted(self, one: str, many: str, count: int) -> str | None:
        try:
            said = self._read.ngettext(one, many, count)
        except (ArithmeticError, ValueError, RecursionError):  # the catalogue's own rule of plurals
            return None
        if said is one or said is many:
            return None
        # A form without the number is for one of a thing alone: French says none with it too.
        return self._fitting(said, many) or (self._fitting(said, one) if count == 1 else None)

    def _fitting(self, said: str, template: str) -> str | None:
        key = said, template
        if key not in self._fits:
            self._fits[key] = said if fits(said, template) else None
        return self._fits[key]


def fits(said: str, template: str) -> bool:
    """Whether a text has the very slots of a template, in any order. A text whose braces are no
    slots is never filled, so anything fits."""
    wanted = slots_of(template)
    return wanted is None or slots_of(said) == wanted


def slots_of(template: str) -> frozenset[tuple[str, str, str]] | None:
    """Every slot with its conversion and its format; None where the braces are no slots."""
    try:
        parts = list(Formatter().parse(template))
    except ValueError:
        return None
    return frozenset((n, how or "", form or "") for _, n, form, how in parts if n is not None)


def tongues() -> tuple[str, ...]:
    """The languages that there is a catalogue for, English among them, sorted."""
    try:
        found = {each.name for each in WORDS.iterdir() if file_of(each.name).is_file()}
    except OSError:
        found = set()
    return tuple(sorted({OWN, *filter(_CODE.fullmatch, found)}))


def file_of(language: str) -> Path:
    """Where the catalogue of a language is, if there is one."""
    return WORDS / language / "LC_MESSAGES" / f"{DOMAIN}.mo"


@cache
def tongue(language: str) -> Tongue | None:
    """The catalogue of a language; None for English, and where there is none that can be read."""
    if language == OWN or not _CODE.fullmatch(language):
        return None
    return read_catalogue(file_of(language))


def read_catalogue(file: Path) -> Catalogue | None:
    """The catalogue in a file; None where there is none that can be read."""
    from gettext import GNUTranslations

    try:
        with file.open("rb") as opened:
            return Catalogue(GNUTranslations(opened))
    except Exception:  # garbage fails in many ways, and none of them may stop the program
        return None
