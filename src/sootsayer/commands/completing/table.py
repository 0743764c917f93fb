"""What may follow what on the command line, read from the parsers themselves.

A shell's script holds this table as text, one line a word, and finds everything else (cases,
packs, ids) in folders by itself. So nothing is started when somebody presses Tab.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

GAP = "|"  # between the parts of a line; the description, which may hold one, is the last


class Kind(Enum):
    """What a value is, and so what a script offers for it. `NOTHING`: free text, a number."""

    CASE = "case"
    PACK = "pack"
    THING = "id"
    FAULT = "fault"
    REMEDY = "remedy"
    ACTION = "action"
    LANGUAGE = "language"
    FILE = "file"
    FOLDER = "folder"
    SHOP = "shop"  # a folder, in which the script then looks for cases and packs
    NOTHING = "nothing"


# By how help names a value. What ID means differs: `OF_ID` has it by the argument.
KINDS = {
    "CASE": Kind.CASE,
    "THING": Kind.THING,
    "PACK": Kind.PACK,
    "PACKS": Kind.PACK,
    "LOG": Kind.FILE,
    "FILE": Kind.FILE,
    "DIR": Kind.FOLDER,
    "FOLDER": Kind.FOLDER,
    "LANGUAGE": Kind.LANGUAGE,
    "ACTION": Kind.ACTION,
}
for _name in (
    *("ENTRY", "TIME", "ROUND", "NAME", "NUMBERS", "WHAT=NAME", "WHAT=UNIT"),
    *("TEXT", "DIGEST", "DAY", "ADDRESS", "N", "S"),
):
    KINDS[_name] = Kind.NOTHING
OF_ID = {
    "thing": Kind.THING,
    "fault": Kind.FAULT,
    "faults": Kind.FAULT,
    "cured_by": Kind.REMEDY,
    "case": Kind.CASE,
    "by": Kind.NOTHING,  # who somebody is
    "id": Kind.NOTHING,  # the number of a record
    "ids": Kind.NOTHING,
}


@dataclass(frozen=True, slots=True)
class Word:
    """One line of the table: after the words `path` comes `word`.

    `what`: `command`, `option` or `place` (an argument without a name). `value`: the kind of what
    follows an option or stands in a place, empty where nothing follows; with `*` where more of
    the same may come; or `=a,b` where it is one of some words.
    """

    path: str
    what: str
    word: str
    value: str
    says: str

    def line(self) -> str:
        return GAP.join((self.path, self.what, self.word, self.value, self.says))


def table(parser: argparse.ArgumentParser, path: str = "") -> list[Word]:
    """Every word of the command line below the parser, in the order of its help."""
    return [word for action in parser._actions for word in _words(action, path)]


def _words(action: argparse.Action, path: str) -> Iterator[Word]:
    if isinstance(action, argparse._SubParsersAction):
        helps = {each.dest: each.help or "" for each in action._choices_actions}
        for name, below in action.choices.items():
            yield Word(path, "command", name, "", _one_line(helps.get(name, "")))
            yield from table(below, f"{path} {name}".strip())
        return
    says = _one_line(action.help or "")
    for option in action.option_strings:
        value = "" if action.nargs == 0 else value_of(action)
        yield Word(path, "option", option, value, says)
    if not action.option_strings:
        more = "*" if action.nargs in ("*", "+") else ""
        yield Word(path, "place", str(action.metavar), value_of(action) + more, says)


def value_of(action: argparse.Action) -> str:
    """The kind of an argument's value; raises `KeyError` for a name that help never used before."""
    if action.choices is not None:
        return "=" + ",".join(str(choice) for choice in action.choices)
    if action.dest == "shop":
        return Kind.SHOP.value
    name = str(action.metavar)
    kind = OF_ID[action.dest] if name in ("ID", "IDS") else KINDS[name]
    return kind.value


def _one_line(text: str) -> str:
    return " ".join(text.replace("%%", "%").split())
