"""A language out of plain tables, and one that is made of English, for tests."""

from __future__ import annotations

from collections.abc import Mapping


class Told:
    """The words of a language by template; of a counted text the form for one and for many."""

    def __init__(self, texts: Mapping[str, str]) -> None:
        self._texts = texts

    def one(self, template: str) -> str | None:
        return self._texts.get(template)

    def counted(self, one: str, many: str, count: int) -> str | None:
        return self._texts.get(one if count == 1 else many)
