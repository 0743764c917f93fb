"""Which language: `--language`, else SOOTSAYER_LANGUAGE, else the shop's, else the locale's.

It is chosen twice. At once, so that help and wrong usage are in it too: from what was typed, with
a glance at the shop's settings. And again when the shop has been read. A language that there are
no words in counts as not named, but for that of `--language`, which is refused.
"""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence

from sootsayer.catalogue import OWN

VARIABLE = "SOOTSAYER_LANGUAGE"
_LOCALE = ("LC_ALL", "LC_MESSAGES", "LANG")  # the first that is set is the locale of messages
_PLAIN = frozenset({"c", "posix"})
# What Windows calls a language where it does not give its code.
_WINDOWS = {"english": "en", "french": "fr", "german": "de", "italian": "it", "spanish": "es"}
_OF_SHOP = re.compile(rb"""^language:[ \t]+["']?([a-zA-Z-]{2,6})["']?[ \t]*(?:#.*)?\r?$""", re.M)
_GLANCE = 65536  # bytes of the shop's settings

Known = Callable[[], Collection[str]]


def early(typed: Sequence[str], environ: Mapping[str, str]) -> str:
    """The language of what is said before anything is read. Raises nothing."""
    return chosen(option(typed, "--language"), _of_shop(typed, environ), environ, _catalogues)


def chosen(named: str | None, of_shop: str | None, environ: Mapping[str, str], known: Known) -> str:
    """The first of the languages named that there are words in, and in the end English.

    `named`: by the option; `of_shop`: by the shop, None where it names none; `known`: all that
    there are words in, asked for only where something else than English is named.
    """
    for wish in (named, environ.get(VARIABLE), of_shop, _of_locale(environ)):
        found = known_as(wish, known) if wish else None
        if found is not None:
            return found
    return OWN


def known_as(wish: str, known: Known) -> str | None:
    """The language of the words for `fr`, `fr-CA` or `fr_FR.UTF-8`: that of the country, else the
    language at large; None where there are none."""
    for code in _codes(wish):
        if code == OWN or code in known():
            return code
    return None


def option(typed: Sequence[str], name: str) -> str | None:
    """The value of an option as typed, before anybody parses it; of several the last."""
    value = None
    words = iter(typed)
    for word in words:
        if word == "--":
            break
        if word == name:
            value = next(words, None)
        elif word.startswith(name + "="):
            value = word[len(name) + 1 :]
    return value or None


def _codes(wish: str) -> Iterator[str]:
    bare = re.split("[.@]", wish, maxsplit=1)[0].replace("_", "-")
    language, _, country = bare.partition("-")
    language = language.casefold()
    if language in _PLAIN:
        yield OWN
    language = _WINDOWS.get(language, language)
    if country:
        yield f"{language}-{country.upper()}"
    yield language


def _catalogues() -> Collection[str]:
    from sootsayer.tongues import tongues

    return tongues()


def _of_locale(environ: Mapping[str, str]) -> str | None:
    named = next((environ[name] for name in _LOCALE if environ.get(name)), None)
    if named is None and sys.platform == "win32":
        from locale import getlocale

        return getlocale()[0]
    return named


def _of_shop(typed: Sequence[str], environ: Mapping[str, str]) -> str | None:
    """What the shop's settings seem to say, without reading them: they may be wrong in any way."""
    folder = option(typed, "--shop") or environ.get("SOOTSAYER_SHOP") or _upward()
    if folder is None:
        return None
    try:
        with open(os.path.join(folder, "shop.yaml"), "rb") as settings:  # noqa: PTH118, PTH123
            found = _OF_SHOP.search(settings.read(_GLANCE))
    except (OSError, ValueError):
        return None
    return None if found is None else found[1].decode("ascii")


def _upward() -> str | None:
    """The nearest folder upward that has a shop.yaml."""
    try:
        here = os.getcwd()  # noqa: PTH109
    except OSError:
        return None
    while not os.path.isfile(os.path.join(here, "shop.yaml")):  # noqa: PTH113, PTH118
        above = os.path.dirname(here)  # noqa: PTH120
        if above == here:
            return None
        here = above
    return here
