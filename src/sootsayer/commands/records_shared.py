"""What the actions on records share: which ledger, and who."""

from __future__ import annotations

import argparse
import re
from pathlib import Path
from typing import TYPE_CHECKING

from sootsayer.catalogue import say, shown
from sootsayer.commands.leaving import Stop
from sootsayer.commands.usage import short

if TYPE_CHECKING:
    from sootsayer.ledger.folder import Ledger
    from sootsayer.rulebook.shop import Shop

HERE = "records"  # the ledger's folder where there is no shop
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_LONGEST = 80
NO_FOLDER = '"{name}" is no folder'
NO_FOLDER_NEXT = "name the folder of a ledger"
NO_ID = '"{by}" is no id of a person'
NO_ID_NEXT = "a record holds no names: write an id in lower case with dashes, like tech-1"
CANNOT_KEEP = "{file}: {why}"
CANNOT_KEEP_NEXT = "nothing was added to the ledger; mend that and try again"


def add_ledger(parser: argparse.ArgumentParser) -> None:
    """The option that says which ledger."""
    parser.add_argument(
        "--ledger",
        metavar="DIR",
        help=say("the folder of the ledger (else records/ of the shop, else records/ here)"),
    )


def add_shop(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--shop",
        metavar="DIR",
        help=say("the shop's own folder (else SOOTSAYER_SHOP, else the nearest shop.yaml upward)"),
    )


def add_json(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help=say("print it as JSON, for a program"))


def ledger_of(arguments: argparse.Namespace) -> Ledger:
    """The ledger that is meant. Raises Refused for a shop that is none."""
    from sootsayer.commands.opened import open_shop

    if arguments.ledger is not None:
        return ledger_at(arguments.ledger, None)
    return ledger_at(None, open_shop(arguments.shop))


def ledger_at(named: str | None, shop: Shop | None) -> Ledger:
    """`named`, else the shop's own, else `records` here."""
    from sootsayer.ledger.folder import ledger_in

    if named is not None:
        if not named or "\0" in named:
            raise Stop(say(NO_FOLDER, name=short(named)), say(NO_FOLDER_NEXT))
        return ledger_in(Path(named))
    return ledger_in(Path(HERE) if shop is None else shop.records)


def person_of(typed: str) -> str:
    """An id, as cases have them: never a name. Raises Stop."""
    if len(typed) > _LONGEST or not _ID.fullmatch(typed):
        raise Stop(say(NO_ID, by=short(typed)), say(NO_ID_NEXT))
    return typed


def cannot_write(path: Path, why: str) -> Stop:
    """What to say where nothing was written."""
    return Stop(say(CANNOT_KEEP, file=short(str(path)), why=shown(why)), say(CANNOT_KEEP_NEXT))
