"""`sootsayer records export FOLDER [ID ...]`: a copy to hand over."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from sootsayer.catalogue import say, say_count, shown
from sootsayer.commands.leaving import DONE, Stop
from sootsayer.commands.records_shared import add_json, add_ledger, add_shop, ledger_at
from sootsayer.commands.usage import short
from sootsayer.console.output import write

if TYPE_CHECKING:
    from sootsayer.casework.people import Person
    from sootsayer.rulebook.shop import Shop

SUMMARY = "a copy of records to hand over, which nobody's name is in"
DESCRIPTION = """\
Copy records into a new folder, to hand them over: the chosen ones whole (with the
texts they rest on and their outcomes), of the others the digests alone, so that the
chain is whole down to the same head. Everybody that people.yaml knows is looked for
first; where somebody is named, nothing is written."""
EXAMPLE = """\
example:
  sootsayer records export for-the-assessor 12
      one record whole, the chain around it as digests
  sootsayer records verify --ledger for-the-assessor
      what the one who gets it can do; replay and explain work there too"""

PEOPLE = "people.yaml"
CANNOT = "{folder}: {why}"
CANNOT_NEXT = "name a new folder for the copy"
LOST = {
    "missing": "a text that the records rest on is missing: {digest}",
    "changed": "a text that the records rest on is changed: {digest}",
    "no digest": "a text that the records rest on is no digest: {digest}",
}
LOST_NEXT = "see what is wrong: sootsayer records verify"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument("folder", metavar="FOLDER", help=say("a folder that is not there yet"))
    parser.add_argument(
        "ids", metavar="ID", nargs="*", help=say("records by number, digest or case (else all)")
    )
    parser.add_argument(
        "--people",
        metavar="FILE",
        action="append",
        default=[],
        help=say("a people.yaml to look for too; that of the shop's cases always is"),
    )
    add_json(parser)
    add_ledger(parser)
    add_shop(parser)


def run(arguments: argparse.Namespace) -> int:
    """Search, then copy. Raises Stop, Refused and OSError."""
    from sootsayer.commands.opened import as_text, open_shop
    from sootsayer.console import records_texts as t
    from sootsayer.documents.writing import CannotWrite
    from sootsayer.ledger.exporting import NamesSomebody, export
    from sootsayer.ledger.kept import Lost
    from sootsayer.ledger.reading import find

    shop = open_shop(arguments.shop)
    ledger = ledger_at(arguments.ledger, shop)
    people = _people(arguments.people, shop)
    wanted = {find(ledger, each).number for each in arguments.ids} if arguments.ids else None
    try:
        done = export(ledger, Path(arguments.folder), wanted, people)
    except NamesSomebody as names:
        found = names.found
        named = say(t.NAMED[found.what])
        slots = {"number": found.number, "what": named, "case": short(found.case)}
        raise Stop(say(t.NAMES_FOUND, **slots), say(t.NAMES_FOUND_NEXT)) from None
    except CannotWrite as refused:
        what = say(CANNOT, folder=short(str(refused.path)), why=shown(refused.why))
        raise Stop(what, say(CANNOT_NEXT)) from None
    except Lost as lost:
        what = say(LOST[lost.why], digest=short(lost.digest))
        raise Stop(what, say(LOST_NEXT)) from None
    if arguments.json:
        told = {"format": 1, "whole": done.whole, "closed": done.closed}
        write(as_text({**told, "people": len(people)}), sys.stdout)
        return DONE
    folder = short(arguments.folder)
    searched = say_count(*t.NOBODY_FOUND, count=len(people)) if people else say(t.NOBODY_KNOWN)
    lines = [say_count(*t.EXPORTED, count=done.whole, closed=done.closed), searched]
    lines.append(say(t.EXPORT_NEXT, folder=folder))
    write("".join(f"{line}\n" for line in lines), sys.stdout)
    return DONE


def _people(files: list[str], shop: Shop | None) -> dict[str, Person]:
    """Everybody who is known. Raises Refused."""
    from sootsayer.casework.people import read_people
    from sootsayer.documents.reading import read_bytes

    found: dict[str, Person] = {}
    for file in files:
        read_bytes(Path(file), file)  # one that was named must be there
        found |= read_people(Path(file))
    cases = Path("cases") if shop is None else shop.cases
    return found | read_people(cases / PEOPLE)
