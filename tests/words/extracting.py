"""The program's texts for Babel, by a method of its own."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from functools import cache
from pathlib import Path
from typing import IO

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir

from tests.words.collecting import texts
from tests.words.program import SOURCE, Found

Message = tuple[int, str, str | tuple[str, str], list[str]]
KEYWORDS: dict[str, tuple[int, ...] | None] = {"say": None, "say_count": (1, 2)}


def extract(
    opened: IO[bytes],
    _keywords: Collection[str],
    _tags: Collection[str],
    options: object,  # noqa: ARG001 (Babel names it)
) -> Iterator[Message]:
    """Babel's extraction method for one file: what the collector found in it."""
    for each in _by_file().get(Path(opened.name).resolve(), ()):
        if each.many:
            yield each.line, "say_count", (each.text, each.many), []
        else:
            yield each.line, "say", each.text, []


@cache
def _by_file() -> dict[Path, list[Found]]:
    found: dict[Path, list[Found]] = {}
    for each in texts():
        found.setdefault(each.file, []).append(each)
    return {file.resolve(): texts for file, texts in found.items()}


def template() -> Catalog:
    """Every text of the program, none translated. A text that is counted in one place and said
    alone in another is one entry, the counted one."""
    made = Catalog(project="sootsayer", charset="utf-8", fuzzy=False)
    method = f"{__name__}:{extract.__name__}"
    found = list(extract_from_dir(SOURCE, [("**.py", method)], keywords=KEYWORDS))
    counted = {text[0]: text[1] for _, _, text, _, _ in found if isinstance(text, tuple)}
    for file, _, text, _, _ in found:
        one = text[0] if isinstance(text, tuple) else text
        many = counted.get(one)
        made.add(one if many is None else (one, many), locations=[(str(file), 0)])
    for message in made:
        message.flags.discard("python-format")  # a per cent sign is one here
    return made
