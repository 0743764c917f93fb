"""The rulebook, the shop's settings and the case again, from nothing but kept texts."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from sootsayer.casework.case_file import case_of
from sootsayer.casework.model import Case
from sootsayer.casework.no_entries import parse_case
from sootsayer.catalogue import say
from sootsayer.ledger.gathering import Sources
from sootsayer.rulebook.compiled import Rulebook, load_rulebook
from sootsayer.rulebook.shop import CASES, PACKS, SHOP_FILE, Shop
from sootsayer.rulebook.shop_file import read_shop
from sootsayer.rulebook.shop_fit import fitted
from sootsayer.rulebook.words import translated
from sootsayer.rulebook.words_files import FOLDER, LANGUAGE, OWN, load_words

_RULES, _SHOP = "rules", "shop"
_MOST = 8  # rulebooks remembered: a ledger has few, and each is used for many records


@dataclass(frozen=True, slots=True)
class Rebuilt:
    """What a case is judged with; `shop` is held against the rulebook already."""

    rulebook: Rulebook
    shop: Shop | None


_remembered: dict[tuple[object, ...], Rebuilt] = {}


def rebuild(sources: Sources) -> Rebuilt:
    """The rulebook and settings that the texts say. Raises Refused and OSError."""
    key = sources.key()
    if key not in _remembered:
        while len(_remembered) >= _MOST:
            _remembered.pop(next(iter(_remembered)))
        _remembered[key] = _rebuilt(sources)
    return _remembered[key]


def _rebuilt(sources: Sources) -> Rebuilt:
    # The language is the record's word for it, and names a folder that is written to: a record that
    # anybody may have forged must not choose which.
    if LANGUAGE.fullmatch(sources.language) is None:
        raise OSError(say("no language: {language}", language=repr(sources.language[:80])))
    with tempfile.TemporaryDirectory(prefix="sootsayer-") as name:
        rules, own = Path(name) / _RULES, Path(name) / _SHOP
        _write(rules, sources.packs)
        _write(rules / FOLDER / sources.language, sources.words)
        _write(own / FOLDER / sources.language, sources.shop_words)
        _write(own / PACKS, sources.shop_packs)
        shop = None
        if sources.settings is not None:
            _write(own, {SHOP_FILE: sources.settings})
            shop = read_shop(own)
        folders = [rules, *([own / PACKS] if sources.shop_packs else [])]
        rulebook = load_rulebook(folders)
        settings = None if shop is None else fitted(shop, rulebook.model)
        if sources.language != OWN:
            words = load_words([rules, own], sources.language)
            rulebook = replace(rulebook, model=translated(rulebook.model, words))
        return Rebuilt(rulebook, settings)


def _write(folder: Path, texts: Mapping[str, bytes]) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in texts.items():
        if not name or Path(name).name != name or name in {CASES, ".", ".."}:
            raise OSError(say("no file name: {name}", name=repr(name[:80])))
        try:
            (folder / name).write_bytes(text)
        except ValueError:  # a NUL or half a character in the name
            raise OSError(say("no file name: {name}", name=repr(name[:80]))) from None


def case_again(text: bytes, rebuilt: Rebuilt, file: str) -> Case:
    """The case as that rulebook reads it. Raises Refused."""
    return case_of(parse_case(text, file), rebuilt.rulebook.model)
