"""A new shop's settings: a commented shop.yaml that says what each key is for.

Everything but the format is a comment, so that nothing is known until a person writes it.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from sootsayer.catalogue import language, say, shown
from sootsayer.commands.leaving import DONE, Stop
from sootsayer.commands.usage import short
from sootsayer.commands.written import comment
from sootsayer.console.output import write
from sootsayer.documents.writing import CannotWrite, replace_file

if TYPE_CHECKING:
    from sootsayer.rulebook.model import Model, RemedyDef

IS_THERE = "{file} is there already, and is not written over"
IS_THERE_NEXT = "write to another name, or move the file away first"
CANNOT = "{file} cannot be written: {why}"
CANNOT_NEXT = "check the folder and its rights, then try again"
WRITTEN = (
    "Written: {file}\n"
    "  → open it, take the # away from what you know and write your own numbers;\n"
    "    sootsayer finds it as shop.yaml in the working folder, or by --shop DIR\n"
)

# Comments; the keys between them are the format's, and the same in every language.
OPENING = """\
The settings of a shop. Lines that begin with # are not read: take the # away from what you
know, and put your own number there. What is not known is left out, and stays unknown: a plan is
then made by chance and time, and says so."""
FOR_PEOPLE = "For people only."
ONE_CURRENCY = "All money below is in this one currency, three capitals."
AN_HOUR = (
    "For an hour of work, in the shop's currency, without tax or with it, but always the same way."
)
UNREPAIRED = """\
How dear it is to end with the vehicle unrepaired: so many times all the work that could be done
on it. A lower number gives up sooner on dear work with a faint chance; 10 without this key."""
AT_HAND = "Tools at hand, by the names that checks use; without this key all are. [] means none."
PARTS = """\
What you pay for the parts of a remedy: one number, or from the lowest to the highest.
Shipping, loan parts and disposal belong in here too."""
MINUTES = "How many minutes a remedy takes here: one number, or from the shortest to the longest."
LASTED = (
    "How often a remedy lasted here: `17 of 20`, or a number between 0 and 1. Count your own cases."
)


def write_new_shop(name: str) -> int:
    """Write the file, never over one that is there. Raises Stop."""
    path = Path(name)
    text = new_shop(_shipped_model())
    if path.exists():
        raise Stop(say(IS_THERE, file=short(name)), say(IS_THERE_NEXT))
    try:
        replace_file(path, text, new=True)
    except CannotWrite as refused:
        raise Stop(say(CANNOT, file=short(name), why=refused.why), say(CANNOT_NEXT)) from None
    write(say(WRITTEN, file=short(name)), sys.stdout)
    return DONE


def new_shop(model: Model) -> str:
    """The text: every remedy of the rulebook with its own numbers as examples, commented out."""
    remedies = model.remedies.values()
    tools = sorted({tool for check in model.checks.values() for tool in check.tools})
    parts = (
        f"{comment(say(OPENING))}\nformat: 1\n",
        f"{comment(say(FOR_PEOPLE))}\n# name: North Yard\n",
        f"{comment(say(ONE_CURRENCY))}\n# currency: EUR\n",
        f"{comment(say(AN_HOUR))}\n# labour rate: 85\n",
        f"{comment(say(UNREPAIRED))}\n# unrepaired: 10\n",
        f"{comment(say(AT_HAND))}\n# tools: [{', '.join(tools)}]\n",
        f"{comment(say(PARTS))}\n# prices:\n"
        + _lines(f"#   {each.id}: {_price(each)}  # {each.label}" for each in remedies),
        f"{comment(say(MINUTES))}\n# times:\n"
        + _lines(f"#   {each.id}: {_time(each)}" for each in remedies),
        f"{comment(say(LASTED))}\n# chances:\n"
        + _lines(f"#   {each.id}: {_chances(each)}" for each in remedies),
    )
    return "\n".join(parts)


def _lines(lines: Iterable[str]) -> str:
    return "".join(f"{shown(line)}\n" for line in lines)


def _price(remedy: RemedyDef) -> str:
    if remedy.parts is None:
        return "{from: 0, to: 0}"
    return f"{{from: {remedy.parts.lowest:g}, to: {remedy.parts.highest:g}}}"


def _time(remedy: RemedyDef) -> str:
    return f"{{from: {remedy.minutes.lowest:g}, to: {remedy.minutes.highest:g}}}"


def _chances(remedy: RemedyDef) -> str:
    return "{" + ", ".join(f"{fault}: {chance:g}" for fault, chance in remedy.cures.items()) + "}"


def _shipped_model() -> Model:
    from sootsayer.commands.opened import open_rulebook

    return open_rulebook(None, language())[0].model
