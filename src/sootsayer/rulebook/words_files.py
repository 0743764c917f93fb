"""words/LANGUAGE/PACK.yaml → translations, with everything that is wrong in the files."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from functools import cache
from pathlib import Path
from typing import Any

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Document, Mapping, Place, Scalar
from sootsayer.documents.problems import Refused
from sootsayer.documents.schema_check import check_schema
from sootsayer.documents.yaml_source import read_document
from sootsayer.rulebook.desk import Desk, instead_of_format
from sootsayer.rulebook.names import Names
from sootsayer.rulebook.shipped import shipped_rules
from sootsayer.rulebook.words import POINT, Translation, Words

FOLDER = "words"
FORMAT = 1
OTHER_FORMAT = "these words have format {format}, and only format {known} is known here"
OF_ANOTHER = '`{key}` is "{text}" in a file of "{right}"'
AFTER_ITS_PACK = 'write "{right}", or name the file after its pack: {file}'
INTO_ITS_FOLDER = 'write "{right}", or put the file into the folder of its language'
OWN = "en"  # of the shipped packs and of the program
LANGUAGE = re.compile(r"[a-z]{2,3}(-[A-Z]{2})?")


def languages(folders: Sequence[Path]) -> tuple[str, ...]:
    """The languages that there are words in: English, and each with a file in `folders`."""
    found = {OWN}
    for folder in folders:
        for each in _inside(folder / FOLDER):
            if LANGUAGE.fullmatch(each.name) and any(_files(each)):
                found.add(each.name)
    return tuple(sorted(found))


def load_words(folders: Sequence[Path], language: str) -> Words:
    """All words files of a language: `words/LANGUAGE/*.yaml` in each folder, which are those
    of the shipped rules and of the shop. Of two translations of one text the later folder's
    stands.

    Raises Refused with all problems of all files; a language without files has no words.
    """
    desk = Desk(Names())
    if LANGUAGE.fullmatch(language) is None:
        what = say('"{language}" is not the code of a language', language=language)
        desk.wrong(Place(FOLDER, 1, 1), what, say("write it as `en` or `pt-BR`"))
        raise Refused(desk.problems)
    found: list[Translation] = []
    for folder in folders:
        for file in _files(folder / FOLDER / language):
            found += _read(desk, file, language)
    if desk.problems:
        raise Refused(dict.fromkeys(desk.problems))
    return Words(language, tuple(found))


def _inside(folder: Path) -> list[Path]:
    try:
        return sorted(folder.iterdir())
    except (FileNotFoundError, NotADirectoryError):
        return []


def _files(folder: Path) -> list[Path]:
    return [each for each in _inside(folder) if each.suffix == ".yaml"]


@cache
def schema() -> dict[str, Any]:
    """The shipped JSON Schema of words files; not to be changed."""
    path = shipped_rules() / "schema" / "words.schema.json"
    loaded: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return loaded


def _read(desk: Desk, file: Path, language: str) -> list[Translation]:
    try:
        document = read_document(file)
    except Refused as refused:
        desk.problems.extend(refused.problems)
        return []
    desk.lines[document.file] = document.lines
    version = document.root.get("format")
    if isinstance(version, Scalar) and version.value != FORMAT:
        desk.wrong(
            version.place,
            say(OTHER_FORMAT, format=version.text, known=FORMAT),
            instead_of_format(FORMAT),
        )
        return []
    desk.problems.extend(check_schema(document, schema()))
    _is_named(desk, document, "words", file.stem, AFTER_ITS_PACK)
    _is_named(desk, document, "language", language, INTO_ITS_FOLDER)
    return [
        *_translations(document, "texts", file.stem, ""),
        *_translations(document, "points", file.stem, POINT),
    ]


def _is_named(desk: Desk, document: Document, key: str, right: str, instead: str) -> None:
    node = document.root.get(key)
    if isinstance(node, Scalar) and node.text != right:
        what = say(OF_ANOTHER, key=key, text=node.text, right=right)
        file = Path(document.file).name
        desk.wrong(node.place, what, say(instead, right=right, file=file))


def _translations(document: Document, key: str, pack: str, before: str) -> Iterator[Translation]:
    """What stands under `key`; what has the wrong shape is left out, and the schema says so."""
    body = document.root.get(key)
    for id_, texts in body.items.items() if isinstance(body, Mapping) else ():
        for name, node in texts.items.items() if isinstance(texts, Mapping) else ():
            of = node.get("of") if isinstance(node, Mapping) else None
            text = node.get("text") if isinstance(node, Mapping) else None
            if isinstance(of, Scalar) and isinstance(text, Scalar):
                yield Translation(before + id_, name, of.text, text.text, pack, text.place)
