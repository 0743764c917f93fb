"""The sentences for what YAML allows and we do not: one function for each fault."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from sootsayer.documents.characters import name_of
from sootsayer.documents.nodes import Node, Place, Scalar
from sootsayer.documents.problems import Problem

MOST_PROBLEMS = 100
DEEPEST = 50
AFTER_BLOCK_SIGN = (
    'more text stands on the line of "|" or ">"',
    "begin the text on the next line, or quote it",
)
_DIGITS = re.compile(r"-?[0-9]+")
_DIGITS_AND_UNIT = re.compile(r"[0-9]+(?: \S+)?")


class TooManyFaultsError(Exception):
    """So many faults that listing more would help nobody."""


@dataclass(slots=True)
class Faults:
    """Collects the problems of one file; `lines` are its lines, for quoting."""

    file: str
    lines: list[str]
    found: list[Problem] = field(default_factory=list)

    def quoted(self, place: Place) -> str:
        """The line at `place`, "" behind the last one."""
        return self.lines[place.line - 1] if place.line <= len(self.lines) else ""

    def add(self, place: Place, what: str, instead: str) -> None:
        """Adds a problem; raises `TooManyFaultsError` at the hundredth."""
        if len(self.found) + 1 >= MOST_PROBLEMS:
            what = f"{what} (and there may be more: only the first {MOST_PROBLEMS} are listed)"
        self.found.append(Problem(place, what, instead, self.quoted(place)))
        if len(self.found) >= MOST_PROBLEMS:
            raise TooManyFaultsError

    def too_deep(self, place: Place) -> None:
        self.add(
            place,
            f"lists and mappings are nested deeper than {DEEPEST} levels",
            "remove the surplus brackets",
        )

    def second_document(self, place: Place) -> None:
        self.add(place, 'a second document begins here ("---")', "keep one document in a file")

    def directive(self, place: Place) -> None:
        self.add(place, 'a line begins with "%"', "remove the line")

    def alias(self, place: Place, name: str) -> None:
        self.add(
            place,
            f'"*{shorten(name)}" is a YAML alias; these are not used here',
            "write the value out, or quote the text",
        )

    def anchor(self, place: Place, name: str) -> None:
        self.add(
            place,
            f'"&{shorten(name)}" is a YAML anchor; these are not used here',
            "remove it, or quote the text",
        )

    def tag(self, place: Place) -> None:
        self.add(
            place,
            'a word that begins with "!" is a YAML tag; these are not used here',
            "remove it, or quote the text",
        )

    def merge_key(self, place: Place) -> None:
        self.add(place, '"<<" is a YAML merge key; these are not used here', "write the keys out")

    def duplicate_key(self, place: Place, key: str, first: Place) -> None:
        self.add(
            place,
            f'the key "{shorten(key)}" is already given in line {first.line}',
            "keep one of the two",
        )

    def key_is_no_text(self, place: Place) -> None:
        self.add(
            place, "a list or a mapping stands where a key should", "write a text before the colon"
        )

    def empty_key(self, place: Place) -> None:
        self.add(place, "a key is empty", "write a text before the colon, or quote the text")

    def empty_item(self, place: Place) -> None:
        self.add(place, "a list item has no value", 'write a value after "- ", or remove it')

    def decimal_comma(self, place: Place, text: str) -> None:
        self.add(
            place,
            f'"{shorten(text)}" has a decimal comma',
            f"write {shorten(text.replace(',', '.'))}, or quote the text if it is one",
        )

    def long_number(self, place: Place, text: str) -> None:
        self.add(place, f"a number of {len(text)} characters", "quote it if it is a text")

    def forbidden_character(self, place: Place, character: str) -> None:
        self.add(
            place,
            f"an escape in this text stands for {name_of(character)}",
            "remove it from the text",
        )

    def block_header(self, place: Place) -> None:
        self.add(place, *AFTER_BLOCK_SIGN)

    def no_value(self, place: Place, key: str) -> None:
        self.add(
            place,
            f'the key "{shorten(key)}" has no value',
            "write a value after the colon, or quote the text if it is no key",
        )

    def split_by_comma(
        self, place: Place, keys: list[str], before: str | None, value: Node | None
    ) -> None:
        """Keys without colon in braces: nearly always a comma inside an unquoted text."""
        first = keys[0]
        if before is None or not isinstance(value, Scalar) or value.quoted:
            self.no_value(place, first)
            return
        what = f'"{shorten(first)}" has no value: the comma before it ended the text'
        if len(keys) == 1 and _DIGITS.fullmatch(value.text) and _DIGITS_AND_UNIT.fullmatch(first):
            instead = f"write {shorten(before)}: {value.text}.{first}"
        else:
            whole = ", ".join([value.text, *keys])
            instead = f'quote the text: {shorten(before)}: "{shorten(whole)}"'
        self.add(place, what, instead)


def shorten(text: str, most: int = 60) -> str:
    """`text`, cut to `most` characters with an ellipsis."""
    return text if len(text) <= most else text[: most - 1] + "…"
