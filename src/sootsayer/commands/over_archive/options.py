"""What the commands over an archive share: where it is, how many at once, what is in force."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from sootsayer.catalogue import Said, say, shown
from sootsayer.commands.leaving import Stop, complain
from sootsayer.commands.usage import short

if TYPE_CHECKING:
    from sootsayer.learning.archive.rows import Row, Task
    from sootsayer.learning.archive.running import Run
    from sootsayer.learning.archive.shelf import Shelf
    from sootsayer.rulebook.compiled import PackText
    from sootsayer.rulebook.shop import Shop

P = TypeVar("P")
T = TypeVar("T")

HERE = "cases"  # where there is no shop
MOST_PROCESSES = 256

NO_PROCESSES = '--processes is a whole number from 1 to {most}, not "{text}"'
PROCESSES_NEXT = "leave it out to use all cores, or write --processes 1"
NO_FOLDER = "there is no folder of cases {folder}"
NOT_A_FOLDER = "{folder} is no folder"
FOLDER_NEXT = "name the folder of closed cases with --cases DIR"
DIED = "a process died three times at one of these files: {names}"
DIED_NEXT = "run it again with --processes 1 to see at which; --resume FILE keeps what is done"
NO_CLUSTER = "no scheduler answers at {address}: {why}"
CLUSTER_NEXT = "write the scheduler's address, like --fleet tcp://127.0.0.1:8786"
NO_EXTRA = "a path with :// and --fleet need what this installation does not have"
EXTRA_NEXT = "install it with the extra: pip install 'sootsayer[fleet]'"
STOPPED = "stopped"
GO_ON = "what is done is kept in {file}: run the same again, and it goes on from there"
CANNOT_KEEP = "{file} cannot be written: {why}"
CANNOT_KEEP_NEXT = "give another file with --resume, or leave it out"


def add_archive(parser: argparse.ArgumentParser) -> None:
    """The options that say which cases, and how they are gone through."""
    parser.add_argument(
        "--cases",
        metavar="DIR",
        help=say("folder of closed cases, or a URL of one (else the shop's cases)"),
    )
    parser.add_argument(
        "--synthetic", action="store_true", help=say("take in cases that were drawn, not met")
    )
    parser.add_argument(
        "--resume",
        metavar="FILE",
        help=say("keep what is done in FILE, and go on from there when run again"),
    )
    parser.add_argument(
        "--processes", metavar="N", help=say("how many processes at once (else one for each core)")
    )
    parser.add_argument(
        "--fleet", metavar="ADDRESS", help=say("work on the Dask cluster whose scheduler is there")
    )
    parser.add_argument(
        "--shop",
        metavar="DIR",
        help=say("the shop's own folder (else SOOTSAYER_SHOP, else the nearest shop.yaml upward)"),
    )


def processes_of(typed: str | None) -> int:
    """How many processes. Raises Stop."""
    from sootsayer.learning.archive.running import cores

    if typed is None:
        return cores()
    if typed.isascii() and typed.isdigit() and len(typed) < 9 and 1 <= int(typed) <= MOST_PROCESSES:
        return int(typed)
    raise Stop(say(NO_PROCESSES, most=MOST_PROCESSES, text=short(typed)), say(PROCESSES_NEXT))


def pack_texts_in_force(shop: Shop | None) -> tuple[PackText, ...]:
    """The shipped packs and the shop's own, as they stand on the disk. Raises Refused."""
    from sootsayer.rulebook.compiled import texts_in
    from sootsayer.rulebook.shipped import shipped_rules

    own = () if shop is None else shop.pack_folders()
    return texts_in([shipped_rules(), *own])


@dataclass(frozen=True, slots=True)
class Archive:
    """A shelf of cases, and what it is called."""

    shelf: Shelf
    name: str
    whole_name: str  # however it was typed: which one it is


def archive_of(arguments: argparse.Namespace, shop: Shop | None) -> Archive:
    """What `--cases` names, else the shop's cases, else `cases` here. Raises Stop."""
    named = arguments.cases
    if named is not None and "://" in named:
        from sootsayer.learning.fleet import RemoteShelf

        with _extra():
            import fsspec  # noqa: F401 (only whether it is there)
        return Archive(RemoteShelf(named), named, named)

    from sootsayer.learning.archive.shelf import LocalShelf

    own = Path(HERE) if shop is None else shop.cases
    folder = own if named is None else Path(named)
    try:
        if folder.is_dir():
            return Archive(LocalShelf(folder.resolve()), str(folder), str(folder.resolve()))
        what = NOT_A_FOLDER if folder.exists() else NO_FOLDER
    except (OSError, ValueError):
        what = NO_FOLDER
    raise Stop(say(what, folder=short(str(folder))), say(FOLDER_NEXT))


def run_over(
    task: Task[P],
    archive: Archive,
    arguments: argparse.Namespace,
    doing: Said,
    tallied: Callable[[Iterator[Row[P]]], T],
) -> T:
    """What `tallied` makes of the rows of the archive; a bar is on stderr meanwhile. Raises Stop,
    and Refused for a file of --resume that is of another run."""
    from sootsayer.console.progress import counting_bar
    from sootsayer.documents.writing import CannotWrite
    from sootsayer.learning.archive.journal import Journal
    from sootsayer.learning.archive.running import Died, replayed
    from sootsayer.learning.archive.walk import items

    shelf, processes = archive.shelf, processes_of(arguments.processes)
    try:
        journal = None
        if arguments.resume is not None:
            journal = Journal(Path(arguments.resume), task, archive.whole_name)
        shown_to = sys.stderr if sys.stderr is not None and sys.stderr.isatty() else None
        total = 0 if shown_to is None else sum(1 for _ in items(shelf))
        with _cluster(arguments.fleet) as run, counting_bar(doing, total, shown_to) as advance:
            rows = replayed(task, shelf, processes=processes, journal=journal, run=run)
            return tallied(_each(rows, advance))
    except KeyboardInterrupt:
        if arguments.resume is not None:
            complain(say(STOPPED), say(GO_ON, file=short(arguments.resume)))
        raise
    except Died as died:
        names = ", ".join(died.names)
        raise Stop(say(DIED, names=short(names, 300)), say(DIED_NEXT)) from None
    except CannotWrite as refused:
        what = say(CANNOT_KEEP, file=short(str(refused.path)), why=shown(refused.why))
        raise Stop(what, say(CANNOT_KEEP_NEXT)) from None


@contextmanager
def _cluster(address: str | None) -> Iterator[Run[Any] | None]:
    """Who does the work: the cluster at the address; None for this machine. Raises Stop."""
    if address is None:
        yield None
        return
    from sootsayer.learning.fleet import NoCluster, connected, rows_on

    with _extra():
        import distributed  # noqa: F401 (only whether it is there)
    try:
        client = connected(address)
    except NoCluster as none:
        what = say(NO_CLUSTER, address=short(address), why=short(none.why, 200))
        raise Stop(what, say(CLUSTER_NEXT)) from None
    try:
        yield partial(rows_on, client)
    finally:
        client.close()


@contextmanager
def _extra() -> Iterator[None]:
    try:
        yield
    except ImportError:
        raise Stop(say(NO_EXTRA), say(EXTRA_NEXT)) from None


def _each(rows: Iterator[Row[P]], advance: Callable[[int], None]) -> Iterator[Row[P]]:
    for row in rows:
        advance(1)
        yield row
