"""`sootsayer rules check [PACKS]`: everything that can be found wrong with the rules."""

from __future__ import annotations

import argparse
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

from sootsayer.catalogue import say
from sootsayer.catalogue_numbers import fixed
from sootsayer.commands.leaving import DONE, NO, WRONG, Stop
from sootsayer.commands.usage import add_language, short
from sootsayer.console.output import write

if TYPE_CHECKING:
    from sootsayer.judgement.checked import Checked
    from sootsayer.rulebook.shop import Shop

SUMMARY = "find everything that is wrong with the rules"
DESCRIPTION = """\
Check the rules in force, the shipped and the shop's own, in one run: files, names and
units; proofs; rules that can never decide; levels and links; what no check yields;
faults that nothing tells apart; interlocks that nothing can clear; ids that are gone;
translations that are stale. What can be proven is proven, or shown by a case."""
EXAMPLE = """\
example:
  sootsayer rules check
      all rules in force
  sootsayer rules check packs/shop-own.yaml
      what is wrong in this pack, read beside the rules in force
  sootsayer rules check --coverage
      which outcomes of which rules no proof and no case shows
  sootsayer rules check --watch
      again at each save, until Ctrl-C

The exit code is 0 where no error is found (warnings and notes are none), 1 where there
are errors in packs that can be read, and 2 where one cannot be read at all."""

ALONE = "--alone checks the packs that are named, and none is"
ALONE_NEXT = "name a pack file or a folder of packs, or leave --alone out"
NOTHING_WRITTEN = "{file} cannot be written: {why}"
NOTHING_WRITTEN_NEXT = "name another file for --junit"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument(
        "packs", metavar="PACKS", nargs="*",
        help=say("pack files or folders of packs, beside the rules in force (else only those)"),
    )  # fmt: skip
    parser.add_argument(
        "--alone", action="store_true", help=say("PACKS alone, without the rules in force")
    )
    parser.add_argument(
        "--coverage", action="store_true",
        help=say("with cases too, and the list of what neither proofs nor cases show"),
    )  # fmt: skip
    parser.add_argument("--json", action="store_true", help=say("print it as JSON, for a program"))
    parser.add_argument("--junit", metavar="FILE", help=say("write it to FILE as JUnit XML too"))
    parser.add_argument("--watch", action="store_true", help=say("again at each save"))
    parser.add_argument(
        "--shop", metavar="DIR",
        help=say("the shop's own folder (else SOOTSAYER_SHOP, else the nearest shop.yaml upward)"),
    )  # fmt: skip
    add_language(parser)


def run(arguments: argparse.Namespace) -> int:
    """Check. Raises Stop, Refused and OSError."""
    if not arguments.watch:
        return _once(arguments)
    from sootsayer.commands.rules_watch import watched

    return watched(lambda: _once(arguments), lambda: _folders(arguments))


def _once(arguments: argparse.Namespace) -> int:
    from sootsayer.commands.opened import as_text, language_of
    from sootsayer.learning.checked import check_rulebook
    from sootsayer.rulebook.shipped import shipped_rules

    began = time.perf_counter()
    shop, folders, words = _asked(arguments)
    language_of(arguments.language, shop)
    checked = check_rulebook(folders, [shipped_rules(), *words], shop)
    if arguments.packs and not arguments.alone:
        from sootsayer.learning.checked import only_in

        checked = only_in(checked, arguments.packs)
    if arguments.coverage and checked.rulebook is not None:
        from sootsayer.commands.rules_cases import facts_of_cases
        from sootsayer.learning.checked import covered_by_cases

        checked = covered_by_cases(checked, facts_of_cases(checked.rulebook, shop))
    if arguments.junit:
        _junit(Path(arguments.junit), checked)
    if arguments.json:
        from sootsayer.console.rules_check_json import checked_json

        write(as_text(checked_json(checked)), sys.stdout)
    else:
        _draw(checked, arguments.coverage, time.perf_counter() - began)
    return _code(checked)


def _code(checked: Checked) -> int:
    if checked.unread:
        return WRONG
    return NO if checked.errors else DONE


def _asked(arguments: argparse.Namespace) -> tuple[Shop | None, list[Path], list[Path]]:
    """The shop, the folders and files to read, and the folders that may have words."""
    from sootsayer.commands.opened import open_shop
    from sootsayer.rulebook.shipped import shipped_rules

    named = [Path(each) for each in arguments.packs]
    if arguments.alone and not named:
        raise Stop(say(ALONE), say(ALONE_NEXT))
    if arguments.alone:
        return None, named, []
    shop = open_shop(arguments.shop)
    own = () if shop is None else shop.pack_folders()
    in_force = [shipped_rules(), *own]
    more = [each for each in named if not _lies_in(each, in_force)]
    return shop, [*in_force, *more], [] if shop is None else [shop.folder]


def _lies_in(path: Path, folders: list[Path]) -> bool:
    """Whether it is one of the folders, or a file in one: it is read already."""
    try:
        real = path.resolve()
        return any(folder.resolve() in (real, real.parent) for folder in folders)
    except (OSError, RuntimeError):  # a link that leads to itself
        return False


def _folders(arguments: argparse.Namespace) -> list[Path]:
    return _asked(arguments)[1]


def _junit(file: Path, checked: Checked) -> None:
    from sootsayer.console.rules_check_junit import junit
    from sootsayer.documents.writing import CannotWrite, replace_file

    try:
        replace_file(file, junit(checked))
    except CannotWrite as refused:
        what = say(NOTHING_WRITTEN, file=short(str(file)), why=refused.why)
        raise Stop(what, say(NOTHING_WRITTEN_NEXT)) from None


def _draw(checked: Checked, coverage: bool, seconds: float) -> None:
    from sootsayer.console import rules_check_page as draw
    from sootsayer.console.laying import laid
    from sootsayer.console.paper import BLANK, QUIET, Line, page
    from sootsayer.console.rules_check_texts import FAST
    from sootsayer.console.screen import show

    told = draw.remark_lines(checked.remarks)
    if told:
        write("".join(f"{line}\n" for line in laid(told, sys.stdout)) + "\n", sys.stdout)
    lines = draw.summary_lines(checked)
    shown = draw.coverage_lines(checked.shown, cases=coverage, whole=coverage)
    lines += [BLANK, *shown] if shown else []
    lines += draw.verdict_lines(checked)
    lines.append(Line(say(FAST, seconds=fixed(seconds, 1)), style=QUIET))
    show(page(lines), sys.stdout)
