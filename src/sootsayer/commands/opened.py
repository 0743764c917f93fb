"""A case and the rulebook in force, read for a command."""

from __future__ import annotations

import argparse
import hashlib
import json
import os
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from sootsayer.catalogue import OWN, language, speak
from sootsayer.commands.find_case import CaseFile, find_case
from sootsayer.commands.tongue import chosen
from sootsayer.commands.usage import check_language
from sootsayer.rulebook.shipped import shipped_cases, shipped_rules

if TYPE_CHECKING:
    from sootsayer.casework.model import Case
    from sootsayer.documents.nodes import Document
    from sootsayer.rulebook.compiled import Rulebook
    from sootsayer.rulebook.model import Model
    from sootsayer.rulebook.shop import Shop


@dataclass(frozen=True, slots=True)
class Opened:
    """What a verdict needs: the case, the rulebook, the moment, the entry to judge as of, and
    the settings of the shop, None where there is none. `digest`: SHA-256 (hex) of the case file."""

    case: Case
    rulebook: Rulebook
    now: datetime
    as_of: int | None
    shop: Shop | None
    digest: str = ""


def open_case(arguments: argparse.Namespace) -> Opened:
    """Read all that a command on one case needs: `case` and the shared options.

    Raises Stop, Refused and OSError.
    """
    settings = open_shop(arguments.shop)
    language = language_of(arguments.language, settings)
    cases = None if settings is None else settings.cases
    found = find_case(arguments.case, shipped_cases(), cases)
    document, digest = _readable(found)

    from sootsayer.casework.case_file import case_of
    from sootsayer.commands.moment import as_of_entry, moment_of

    rulebook, settings = open_rulebook(settings, language)
    read = case_of(document, rulebook.model)
    entry = as_of_entry(read, arguments.as_of)
    now = moment_of(read, at=arguments.at, as_of=entry, demonstration=found.demonstration)
    return Opened(read, rulebook, now, entry, settings, digest)


def open_shop(named: str | None) -> Shop | None:
    """The shop's settings as they stand in its folder; None where there is none. Warns of a
    language in them that there are no words in."""
    from sootsayer.rulebook.shop import find_shop

    folder = find_shop(None if named is None else Path(named), os.environ, Path.cwd())
    if folder is None:
        return None
    from sootsayer.rulebook.shop_file import read_shop

    shop = read_shop(folder)
    if shop.language:
        from sootsayer.commands.shop_language import warn_of_language

        warn_of_language(shop, lambda: known_languages(shop))
    return shop


def load_rulebook(folders: Sequence[Path]) -> Rulebook:
    """As `rulebook.compiled.load_rulebook`, from what was kept of these packs if that is right."""
    from sootsayer.rulebook.kept import load_kept

    return load_kept(folders, os.environ)


def open_rulebook(shop: Shop | None, language: str) -> tuple[Rulebook, Shop | None]:
    """The shipped rulebook with the shop's own packs, and its settings held against that."""
    own = () if shop is None else shop.pack_folders()
    rulebook = load_rulebook([shipped_rules(), *own])
    settings = None if shop is None else _fitted(shop, rulebook.model)
    return replace(rulebook, model=in_words_of(rulebook.model, shop, language)), settings


def in_words_of(model: Model, shop: Shop | None, language: str) -> Model:
    """Rules with their texts in a language, as far as it has words for them. Raises Refused."""
    if language == OWN:
        return model
    from sootsayer.rulebook.words import translated
    from sootsayer.rulebook.words_files import load_words

    return translated(model, load_words(_word_folders(shop), language))


def _fitted(shop: Shop, model: Model) -> Shop:
    from sootsayer.rulebook.shop_fit import fitted

    return fitted(shop, model)


def in_language(opened: Opened, named: str) -> Opened:
    """The same in another language, which is in force from now on. Raises Stop for one without
    words."""
    before = language()
    if language_of(named, opened.shop) == before:
        return opened
    rulebook, _ = open_rulebook(opened.shop, language())
    return replace(opened, rulebook=rulebook)


def language_of(named: str | None, shop: Shop | None) -> str:
    """The language of packs and program from now on: the one asked for, else that of the
    variable, of the shop, of the locale. Raises Stop for one asked for without words."""

    def known() -> tuple[str, ...]:
        return known_languages(shop)

    if named is not None:
        check_language(named, known)
    speak(chosen(named, None if shop is None else shop.language, os.environ, known))
    return language()


def known_languages(shop: Shop | None) -> tuple[str, ...]:
    """Every language that there are words in, of the program or of packs."""
    from sootsayer.rulebook.words_files import languages
    from sootsayer.tongues import tongues

    return tuple(sorted({*languages(_word_folders(shop)), *tongues()}))


def _word_folders(shop: Shop | None) -> list[Path]:
    return [shipped_rules(), *(() if shop is None else (shop.folder,))]


def _readable(found: CaseFile) -> tuple[Document, str]:
    """The case as a document of a known format, and the digest of its bytes. What is none is
    refused here, within moments, before a rulebook is read."""
    from sootsayer.casework.no_entries import parse_case
    from sootsayer.documents.reading import read_bytes

    data = read_bytes(found.path, found.shown_as)
    document = parse_case(data, found.shown_as)

    from sootsayer.casework.case_file import refuse_other_format

    refuse_other_format(document)
    return document, hashlib.sha256(data).hexdigest()


def as_text(plain: dict[str, object]) -> str:
    """JSON in plain ASCII, so that no terminal and no encoding can stumble over it."""
    text = json.dumps(plain, indent=2, ensure_ascii=True, allow_nan=False)
    return text.replace("\x7f", "\\u007f") + "\n"
