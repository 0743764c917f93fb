"""`sootsayer rules backtest PACK`: what a pack would have changed."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Collection, Sequence
from typing import TYPE_CHECKING

from sootsayer.catalogue import say
from sootsayer.commands.leaving import DONE, NO, Stop
from sootsayer.commands.over_archive.options import add_archive
from sootsayer.commands.usage import add_language, short
from sootsayer.console.output import write

if TYPE_CHECKING:
    from pathlib import Path

    from sootsayer.learning.backtest.task import BacktestTask, BacktestWorker
    from sootsayer.rulebook.compiled import PackText

SUMMARY = "what a pack would have changed, over closed cases"
DESCRIPTION = """\
Judge every closed case twice, without the pack and with it, as of the last entry
before its outcome or the work that cured it. Says which verdicts, leading faults,
permissions and questions would change, by which rule, and whether that is nearer to
what was confirmed or further from it. Changes no file."""
EXAMPLE = """\
example:
  sootsayer rules backtest packs/shop-own.yaml
      over the shop's own closed cases
  sootsayer rules backtest my-ash.yaml --cases archive --accept clean-in-place
      over another folder; one permission may become looser

A pack of a name that is in force already stands in for that one; if it is the very
file in force, the rulebook with it is held against the rulebook without it. The exit
code is 1 where a permission becomes looser that was not accepted by name."""

IS_IT = "there is no pack {pack}"
IS_IT_NEXT = "give the path of a pack, or the name of one in the shop's folder packs/"
NEEDED = "other packs need {pack}, so that there is no rulebook without it to compare with"
NEEDED_NEXT = "backtest an edited copy of it: a copy under the same name stands in for it"
NO_ACTION = 'there is no action "{action}" to accept'
ACTIONS_ARE = "the actions are: {known}"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument(
        "pack", metavar="PACK", help=say("path of a pack, or the name of a shop's own")
    )
    parser.add_argument(
        "--accept",
        action="append",
        default=[],
        metavar="ACTION",
        help=say("a permission that may become looser; may be given several times"),
    )
    parser.add_argument(
        "--every-entry",
        action="store_true",
        help=say("compare permissions as of every entry, not of the last one alone (slower)"),
    )
    parser.add_argument(
        "--no-questions",
        action="store_true",
        help=say("leave out which check would be asked first (twice as fast)"),
    )
    parser.add_argument("--more", action="store_true", help=say("name more cases and rules"))
    parser.add_argument("--json", action="store_true", help=say("print it as JSON, for a program"))
    add_archive(parser)
    add_language(parser)


def run(arguments: argparse.Namespace) -> int:
    """Replay and draw. Raises Stop, Refused and OSError."""
    from sootsayer.commands.opened import as_text, language_of, open_shop
    from sootsayer.commands.over_archive.options import archive_of, pack_texts_in_force, run_over
    from sootsayer.learning.backtest.tally import tallied
    from sootsayer.learning.backtest.task import BacktestTask

    shop = open_shop(arguments.shop)
    language_of(arguments.language, shop)
    archive = archive_of(arguments, shop)
    packs = pack_texts_in_force(shop)
    tried = _tried(arguments.pack, None if shop is None else shop.packs)
    before, after, replaces, in_force = sides(packs, tried)
    task = BacktestTask(
        before, after, shop, arguments.every_entry, not arguments.no_questions, arguments.synthetic
    )
    worker = _ready(task, _stem(tried.file) if in_force else None)
    _check_accepted(arguments.accept, {*worker.before.model.actions, *worker.after.model.actions})
    tally = run_over(task, archive, arguments, say("Judging twice"), tallied)
    loose = set(tally.loosened) - set(arguments.accept)
    code = NO if loose else DONE
    if arguments.json:
        from sootsayer.learning.backtest.as_json import as_json

        write(as_text(as_json(tally, worker.changed, arguments.accept)), sys.stdout)
        return code

    from sootsayer.commands.over_archive.backtest_page import BacktestTold, backtest_page
    from sootsayer.console.screen import show

    told = BacktestTold(
        pack=_stem(tried.file),
        folder=archive.name,
        tally=tally,
        changes=worker.changed,
        accepted=arguments.accept,
        replaces=replaces,
        in_force=in_force,
        more=arguments.more,
    )
    show(backtest_page(told), sys.stdout)
    return code


def _ready(task: BacktestTask, taken_out: str | None) -> BacktestWorker:
    """Both rulebooks, compiled. Raises Refused; Stop where the others cannot do without it."""
    from sootsayer.documents.problems import Refused
    from sootsayer.rulebook.compiled import rulebook_from

    try:
        return task.worker()
    except Refused:
        if taken_out is None:
            raise
        rulebook_from(task.after)  # where that is wrong, its own problems are told
        raise Stop(say(NEEDED, pack=short(taken_out)), say(NEEDED_NEXT)) from None


def sides(
    packs: Sequence[PackText], tried: PackText
) -> tuple[tuple[PackText, ...], tuple[PackText, ...], str, bool]:
    """Packs without and with the one that is tried; the file it stands in for ("" where none), and
    whether it is that very file."""
    others = tuple(each for each in packs if _stem(each.file) != _stem(tried.file))
    known = [each for each in packs if _stem(each.file) == _stem(tried.file)]
    if known and any(_same_file(each.file, tried.file) for each in known):
        return others, (*others, tried), "", True
    return tuple(packs), (*others, tried), known[0].file if known else "", False


def _tried(named: str, own: Path | None) -> PackText:
    """The pack that PACK names. Raises Stop and Refused."""
    from pathlib import Path

    from sootsayer.documents.reading import read_bytes
    from sootsayer.rulebook.compiled import PackText

    path = Path(named)
    if own is not None and not named.endswith(".yaml") and not _exists(path):
        path = own / f"{named}.yaml"
    if not _exists(path):
        raise Stop(say(IS_IT, pack=short(named)), say(IS_IT_NEXT))
    return PackText(str(path), read_bytes(path, str(path)))


def _exists(path: Path) -> bool:
    try:
        return path.exists()
    except (OSError, ValueError):
        return False


def _same_file(one: str, other: str) -> bool:
    from pathlib import Path

    try:
        return Path(one).samefile(other)
    except OSError:
        return False


def _stem(file: str) -> str:
    return file.replace("\\", "/").rpartition("/")[2].removesuffix(".yaml")


def _check_accepted(accepted: Collection[str], known: Collection[str]) -> None:
    for action in accepted:
        if action not in known:
            are = say(ACTIONS_ARE, known=", ".join(sorted(known)))
            raise Stop(say(NO_ACTION, action=short(action)), are)
