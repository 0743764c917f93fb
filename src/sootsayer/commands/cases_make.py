"""`sootsayer cases make`: synthetic closed cases, drawn from the rulebook's own model."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from sootsayer.catalogue import say, say_count, shown
from sootsayer.commands.leaving import DONE, Stop
from sootsayer.commands.usage import add_language, short
from sootsayer.console.output import write

if TYPE_CHECKING:
    from pathlib import Path

SUMMARY = "make synthetic closed cases, marked as such everywhere"
DESCRIPTION = """\
Draw closed cases from the rulebook's own model: which faults a vehicle has, what is
then seen, and which of it somebody asked for. They show how the rulebook and these
tools behave, and prove nothing about vehicles. Each is marked synthetic in its id, its
story, its label and its entries. The same N, seed and rulebook give the same files;
a run that was stopped goes on where it was."""
EXAMPLE = """\
example:
  sootsayer cases make --n 200 --seed 7 --out drawn
  sootsayer rules rates --cases drawn --synthetic"""
MOST = 10_000_000

NO_NUMBER = '{option} is a whole number from {low} to {high}, not "{text}"'
NUMBER_NEXT = "write it like --n 200 --seed 7"
OTHER = "{file} is there already and holds something else; nothing is written over"
OTHER_NEXT = "give another folder with --out"
CANNOT = "{file} cannot be written: {why}"
CANNOT_NEXT = "check the folder and its rights, then run the same again: it goes on from there"
MADE = (
    "{count} synthetic case in {folder}. It was drawn from the rulebook: it proves nothing.",
    "{count} synthetic cases in {folder}. They were drawn from the rulebook: they prove nothing.",
)


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument("--n", required=True, metavar="N", help=say("how many"))
    parser.add_argument(
        "--seed", required=True, metavar="S", help=say("a whole number; same, same")
    )
    parser.add_argument("--out", required=True, metavar="DIR", help=say("the folder to write into"))
    parser.add_argument("--processes", metavar="N", help=say("how many at once (else all cores)"))
    parser.add_argument("--shop", metavar="DIR", help=say("draw by this shop's rulebook"))
    add_language(parser)


def run(arguments: argparse.Namespace) -> int:
    """Draw and write. Raises Stop, Refused and OSError."""
    n = whole_number("--n", arguments.n, 1, MOST)
    seed = whole_number("--seed", arguments.seed, 0, 10**9)

    from pathlib import Path

    from sootsayer.commands.opened import open_shop
    from sootsayer.commands.over_archive.options import pack_texts_in_force, processes_of
    from sootsayer.console.progress import counting_bar
    from sootsayer.learning.archive.running import rows_of
    from sootsayer.learning.synthetic import DrawTask, NoShelf, numbers

    task = DrawTask(pack_texts_in_force(open_shop(arguments.shop)), seed)
    folder = Path(arguments.out)
    processes = processes_of(arguments.processes)
    with counting_bar(say("Drawing cases"), n, sys.stderr) as advance:
        for row in rows_of(task, NoShelf(), numbers(seed, n), processes):
            assert row.found is not None  # drawing always gives a text
            _write(folder / row.name, row.found)
            advance(1)
    one, many = MADE
    write(say_count(one, many, count=n, folder=short(arguments.out)) + "\n", sys.stdout)
    return DONE


def _write(path: Path, text: str) -> None:
    from sootsayer.documents.writing import CannotWrite, reason_of, replace_file

    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        if path.exists():
            if path.read_bytes() != text.encode():
                raise Stop(say(OTHER, file=short(str(path))), say(OTHER_NEXT))
            return
        replace_file(path, text, new=True)
    except (CannotWrite, OSError) as refused:
        why = refused.why if isinstance(refused, CannotWrite) else reason_of(refused)
        what = say(CANNOT, file=short(str(path)), why=shown(why))
        raise Stop(what, say(CANNOT_NEXT)) from None


def whole_number(option: str, text: str, low: int, high: int) -> int:
    """The number of an option. Raises Stop."""
    if text.isascii() and text.isdigit() and len(text) < 12 and low <= int(text) <= high:
        return int(text)
    what = say(NO_NUMBER, option=option, low=low, high=high, text=short(text))
    raise Stop(what, say(NUMBER_NEXT))
