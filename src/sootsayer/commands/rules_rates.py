"""`sootsayer rules rates`: how often findings came with faults; how far confidence came true."""

from __future__ import annotations

import argparse
import sys
from difflib import get_close_matches
from typing import TYPE_CHECKING

from sootsayer.catalogue import language, say
from sootsayer.commands.leaving import DONE, Stop
from sootsayer.commands.over_archive.options import add_archive
from sootsayer.commands.usage import add_language, short
from sootsayer.console.output import write

if TYPE_CHECKING:
    from sootsayer.rulebook.model import Model

SUMMARY = "how often findings came with faults, and how far confidence came true"
DESCRIPTION = """\
Count closed cases: how often each finding was seen with each fault where no other
listed fault was there, and otherwise, with 95 % intervals (Jeffreys and Wilson); and
how far confidence came true (calibration). Names the numbers that cases speak against
and where selection bites. Changes nothing: a number changes only by a person's hand."""
EXAMPLE = """\
example:
  sootsayer rules rates
      over the shop's own closed cases
  sootsayer rules rates soot-overload --cases archive
      one fault, finding or family, in another folder
  sootsayer rules rates --diff > rates.patch
      proposed numbers as a difference, to be read and taken over by hand"""

NO_THING = '"{thing}" is no finding with evidence and no fault'
DID_YOU_MEAN = 'did you mean "{near}"?'
NAME_ONE = "name a finding, a family or a fault of the rulebook"
SOURCE = "{count} closed cases in {folder}"
DRAWN_SOURCE = "SYNTHETIC, proves nothing: {drawn} of {count} cases in {folder} were drawn"
NO_DIFF = "# No number of this rulebook has enough cases against it: nothing is proposed."


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument("thing", metavar="ID", nargs="?", help=say("one finding, family or fault"))
    parser.add_argument("--more", action="store_true", help=say("every number that has cases"))
    kind = parser.add_mutually_exclusive_group()
    kind.add_argument("--json", action="store_true", help=say("print it as JSON, for a program"))
    kind.add_argument(
        "--diff",
        action="store_true",
        help=say("propose numbers as a difference; nothing is applied"),
    )
    add_archive(parser)
    add_language(parser)


def run(arguments: argparse.Namespace) -> int:
    """Count and draw. Raises Stop, Refused and OSError."""
    from functools import partial

    from sootsayer.commands.opened import as_text, in_words_of, language_of, open_shop
    from sootsayer.commands.over_archive.options import archive_of, pack_texts_in_force, run_over
    from sootsayer.learning.rates.proposals import proposals
    from sootsayer.learning.rates.selection import selected
    from sootsayer.learning.rates.shares import numbers_in, rates
    from sootsayer.learning.rates.tally import tallied
    from sootsayer.learning.rates.task import RatesTask

    shop = open_shop(arguments.shop)
    language_of(arguments.language, shop)
    archive = archive_of(arguments, shop)
    task = RatesTask(pack_texts_in_force(shop), shop, arguments.synthetic)
    model = task.worker().rulebook.model
    thing = None if arguments.thing is None else _thing(arguments.thing, model)
    tally = run_over(task, archive, arguments, say("Counting cases"), partial(tallied, model))
    counted = rates(model, tally)
    proposed = proposals(model, counted)
    bitten = selected(tally)
    if arguments.json:
        from sootsayer.learning.rates.as_json import as_json

        write(as_text(as_json(tally, counted, proposed, bitten)), sys.stdout)
    elif arguments.diff:
        from sootsayer.learning.rates.diff import as_diff, drawn_up

        held = tally.archive
        slots = {"count": held.replayed, "folder": archive.name, "drawn": held.drawn}
        source = say(DRAWN_SOURCE if held.drawn else SOURCE, **slots)
        lines = list(as_diff(drawn_up(model, task.packs, proposed, source))) or [say(NO_DIFF)]
        write("".join(f"{line}\n" for line in lines), sys.stdout)
    else:
        from sootsayer.commands.over_archive.rates_page import RatesTold, rates_page
        from sootsayer.console.names import declared_words
        from sootsayer.console.screen import show

        told = RatesTold(
            folder=archive.name,
            tally=tally,
            rates=counted,
            proposals=proposed,
            selected=bitten,
            numbers=numbers_in(model),
            thing=thing,
            more=arguments.more,
            words=declared_words(in_words_of(model, shop, language())),
        )
        show(rates_page(told), sys.stdout)
    return DONE


def _thing(named: str, model: Model) -> str:
    """The fault, or what has the evidence: of a finding without numbers of its own its family.
    Raises Stop."""
    from sootsayer.rulebook.reads import family_of

    known = {*model.evidence, *model.faults}
    if named in known:
        return named
    if named in model.findings and family_of(model, named) in known:
        return family_of(model, named)
    near = get_close_matches(named[:100], sorted(known), n=1, cutoff=0.6)
    what = say(NO_THING, thing=short(named))
    raise Stop(what, say(DID_YOU_MEAN, near=near[0]) if near else say(NAME_ONE))
