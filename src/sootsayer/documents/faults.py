"""The sentences for what YAML allows and we do not: one function for each fault."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from sootsayer.catalogue import Said, say
from sootsayer.documents.characters import name_of
from sootsayer.documents.nodes import Node, Place, Scalar
from sootsayer.documents.problems import Problem

MOST_PROBLEMS = 100
DEEPEST = 50
AFTER_BLOCK_SIGN = (
    'more text stands on the line of "|" or ">"',
    "begin the text on the next line, or quote it",
)
IS_A_TAG = 'a word that begins with "!" is a YAML tag; these are not used here'
NO_MORE = "{what} (and there may be more: only the first {most} are listed)"
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

    def add(self, place: Place, what: Said, instead: Said) -> None:
        """Adds a problem; raises `TooManyFaultsError` at the hundredth."""
        if len(self.found) + 1 >= MOST_PROBLEMS:
            what = say(NO_MORE, what=what, most=MOST_PROBLEMS)
        self.found.append(Problem(place, what, instead, self.quoted(place)))
        if len(self.found) >= MOST_PROBLEMS:
            raise TooManyFaultsError

    def too_deep(self, place: Place) -> None:
        what = say("lists and mappings are nested deeper than {most} levels", most=DEEPEST)
        self.add(place, what, say("remove the surplus brackets"))

    def second_document(self, place: Place) -> None:
        what = say('a second document begins here ("---")')
        self.add(place, what, say("keep one document in a file"))

    def directive(self, place: Place) -> None:
        self.add(place, say('a line begins with "%"'), say("remove the line"))

    def alias(self, place: Place, name: str) -> None:
        what = say('"*{name}" is a YAML alias; these are not used here', name=shorten(name))
        self.add(place, what, say("write the value out, or quote the text"))

    def anchor(self, place: Place, name: str) -> None:
        what = say('"&{name}" is a YAML anchor; these are not used here', name=shorten(name))
        self.add(place, what, say("remove it, or quote the text"))

    def tag(self, place: Place) -> None:
        self.add(place, say(IS_A_TAG), say("remove it, or quote the text"))

    def merge_key(self, place: Place) -> None:
        what = say('"<<" is a YAML merge key; these are not used here')
        self.add(place, what, say("write the keys out"))

    def duplicate_key(self, place: Place, key: str, first: Place) -> None:
        what = say(
            'the key "{key}" is already given in line {line}', key=shorten(key), line=first.line
        )
        self.add(place, what, say("keep one of the two"))

    def key_is_no_text(self, place: Place) -> None:
        what = say("a list or a mapping stands where a key should")
        self.add(place, what, say("write a text before the colon"))

    def empty_key(self, place: Place) -> None:
        self.add(
            place, say("a key is empty"), say("write a text before the colon, or quote the text")
        )

    def empty_item(self, place: Place) -> None:
        what = say("a list item has no value")
        self.add(place, what, say('write a value after "- ", or remove it'))

    def decimal_comma(self, place: Place, text: str) -> None:
        right = shorten(text.replace(",", "."))
        self.add(
            place,
            say('"{text}" has a decimal comma', text=shorten(text)),
            say("write {right}, or quote the text if it is one", right=right),
        )

    def long_number(self, place: Place, text: str) -> None:
        what = say("a number of {count} characters", count=len(text))
        self.add(place, what, say("quote it if it is a text"))

    def forbidden_character(self, place: Place, character: str) -> None:
        what = say("an escape in this text stands for {character}", character=name_of(character))
        self.add(place, what, say("remove it from the text"))

    def block_header(self, place: Place) -> None:
        what, instead = AFTER_BLOCK_SIGN
        self.add(place, say(what), say(instead))

    def no_value(self, place: Place, key: str) -> None:
        self.add(
            place,
            say('the key "{key}" has no value', key=shorten(key)),
            say("write a value after the colon, or quote the text if it is no key"),
        )

    def split_by_comma(
        self, place: Place, keys: list[str], before: str | None, value: Node | None
    ) -> None:
        """Keys without colon in braces: nearly always a comma inside an unquoted text."""
        first = keys[0]
        if before is None or not isinstance(value, Scalar) or value.quoted:
            self.no_value(place, first)
            return
        what = say('"{key}" has no value: the comma before it ended the text', key=shorten(first))
        if len(keys) == 1 and _DIGITS.fullmatch(value.text) and _DIGITS_AND_UNIT.fullmatch(first):
            number = f"{value.text}.{first}"
            instead = say("write {key}: {number}", key=shorten(before), number=number)
        else:
            whole = shorten(", ".join([value.text, *keys]))
            instead = say('quote the text: {key}: "{text}"', key=shorten(before), text=whole)
        self.add(place, what, instead)


def shorten(text: str, most: int = 60) -> str:
    """`text`, cut to `most` characters with an ellipsis."""
    return text if len(text) <= most else text[: most - 1] + "…"
