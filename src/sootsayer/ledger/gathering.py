"""Everything that a verdict rests on beside the case: the texts of the rulebook and the shop."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from sootsayer.documents.reading import read_bytes
from sootsayer.ledger.canonical import digest_of
from sootsayer.ledger.withholding import blanked
from sootsayer.rulebook.shipped import shipped_rules
from sootsayer.rulebook.shop import SHOP_FILE, Shop
from sootsayer.rulebook.words_files import FOLDER, OWN

Texts = Mapping[str, bytes]


@dataclass(frozen=True, slots=True)
class Sources:
    """Texts by file name: packs and translations, of the program and of the shop; `settings` is
    the shop's shop.yaml, None where there is no shop."""

    packs: Texts
    language: str = OWN
    words: Texts = field(default_factory=dict)
    settings: bytes | None = None
    shop_packs: Texts = field(default_factory=dict)
    shop_words: Texts = field(default_factory=dict)

    def all(self) -> Iterator[bytes]:
        """Every text, once or more."""
        for each in (self.packs, self.words, self.shop_packs, self.shop_words):
            yield from each.values()
        if self.settings is not None:
            yield self.settings

    def key(self) -> tuple[object, ...]:
        """The same for the same texts under the same names."""
        groups = (self.packs, self.words, self.shop_packs, self.shop_words)
        named = tuple(tuple((n, digest_of(t)) for n, t in sorted(g.items())) for g in groups)
        settings = None if self.settings is None else digest_of(self.settings)
        return (*named, settings, self.language)


def gather(shop: Shop | None, language: str) -> Sources:
    """The texts in force now. Raises Refused for one that cannot be read."""
    words = () if language == OWN else (language,)
    rules = shipped_rules()
    shipped = Sources(_texts(rules), language, _words(rules, words))
    if shop is None:
        return shipped
    settings = read_bytes(shop.folder / SHOP_FILE, str(shop.folder / SHOP_FILE))
    return replace(
        shipped,
        settings=blanked(settings, "name"),  # nothing is reckoned with it
        shop_packs=_texts(shop.packs) if shop.pack_folders() else {},
        shop_words=_words(shop.folder, words),
    )


def _words(folder: Path, languages: tuple[str, ...]) -> dict[str, bytes]:
    for language in languages:
        return _texts(folder / FOLDER / language)
    return {}


def _texts(folder: Path) -> dict[str, bytes]:
    try:
        files = sorted(each for each in folder.iterdir() if each.match("*.yaml"))
    except (FileNotFoundError, NotADirectoryError):
        return {}
    return {each.name: read_bytes(each, str(each)) for each in files}
