"""`sootsayer records keep CASE`: the verdict as it is given now, kept for ever."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from sootsayer.catalogue import Said, say, say_count
from sootsayer.commands.clock import to_the_second
from sootsayer.commands.leaving import DONE, Stop
from sootsayer.commands.records_shared import (
    add_json,
    add_ledger,
    cannot_write,
    ledger_at,
    person_of,
)
from sootsayer.commands.usage import add_moment
from sootsayer.console.output import write

if TYPE_CHECKING:
    from sootsayer.ledger.adding import Added
    from sootsayer.ledger.keeping import Decided, Given

SUMMARY = "keep the verdict on a case as a record"
DESCRIPTION = """\
Keep the verdict and plan on a case as they are given now, with everything to give
them again: the case as it stands, the rulebook's texts, the settings, the cautions,
and what you decided otherwise and why (it asks). Prints the head digest: write it
on the job sheet. Names, plates and chassis numbers are left out."""
EXAMPLE = """\
example:
  sootsayer records keep my-case.yaml --by tech-1
      asks what was decided otherwise, and keeps
  sootsayer records keep my-case.yaml --by tech-1 --as-advised
      asks nothing
  sootsayer records keep my-case.yaml --by tech-1 \\
      --otherwise "filter replaced at once" --why "the customer leaves tomorrow"

A record cannot be changed or taken back. What people.yaml beside the case knows of
the customer is left out of every text; what it does not know nobody can leave out."""

NOT_BOTH = "--as-advised and --otherwise say different things"
NOT_BOTH_NEXT = "leave one of them out"
NO_WHY = "of --otherwise there are {what}, and of --why there are {why}"
NO_WHY_NEXT = "give one --why behind each --otherwise"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument("case", metavar="CASE", help=say("path of a case file, or an id"))
    parser.add_argument("--by", metavar="ID", required=True, help=say("who keeps it, like tech-1"))
    parser.add_argument(
        "--as-advised", action="store_true", help=say("nothing was decided otherwise; ask nothing")
    )
    parser.add_argument(
        "--otherwise", metavar="TEXT", action="append", default=[],
        help=say("what was decided otherwise; may be repeated"),
    )  # fmt: skip
    parser.add_argument(
        "--why",
        metavar="TEXT",
        action="append",
        default=[],
        help=say("why, behind each --otherwise"),
    )
    add_json(parser)
    add_ledger(parser)
    add_moment(parser)


def run(arguments: argparse.Namespace) -> int:
    """Judge, ask, keep, print. Raises Stop, Refused and OSError."""
    by = person_of(arguments.by)
    said = _said(arguments)

    from sootsayer.commands.records_given import given_of

    given, shop, patterns, torn = given_of(arguments)
    decided = said if said is not None else _asked(arguments, given)

    from sootsayer.documents.writing import CannotWrite
    from sootsayer.ledger.adding import add
    from sootsayer.ledger.keeping import Decided, verdict_body
    from sootsayer.ledger.kept import keep_texts
    from sootsayer.ledger.withholding import without_people

    withheld = given.withheld
    if decided is not None:
        clean = []
        for each in decided:
            (what, one), (why, two) = (without_people(s, patterns) for s in (each.what, each.why))
            clean.append(Decided(what, why))
            withheld += one + two
        decided = clean
    ledger = ledger_at(arguments.ledger, shop)
    body = verdict_body(given, at=to_the_second(), by=by, decided=decided)
    try:
        keep_texts(ledger, given.sources.all())
        added = add(ledger, body)
    except CannotWrite as refused:
        raise cannot_write(refused.path, refused.why) from None
    if arguments.json:
        from sootsayer.commands.opened import as_text

        told: dict[str, object] = {"format": 1, "number": added.number, "head": added.digest}
        write(as_text({**told, "withheld": withheld, "ledger": str(ledger.file)}), sys.stdout)
        return DONE
    from sootsayer.console.records_verify import head_lines
    from sootsayer.console.screen import show_lines

    notes = _notes(added, f"{ledger.file}.torn", withheld, torn)
    head = head_lines(added.number, added.digest)
    show_lines([*_kept(arguments, given, body, added), *notes, *head], sys.stdout)
    return DONE


def _said(arguments: argparse.Namespace) -> list[Decided] | None:
    """What the options say was decided; None where they say nothing. Raises Stop."""
    from sootsayer.ledger.keeping import Decided

    what, why = arguments.otherwise, arguments.why
    if arguments.as_advised and what:
        raise Stop(say(NOT_BOTH), say(NOT_BOTH_NEXT))
    if len(what) != len(why):
        raise Stop(say(NO_WHY, what=len(what), why=len(why)), say(NO_WHY_NEXT))
    if arguments.as_advised or what:
        return [Decided(one, other) for one, other in zip(what, why, strict=True)]
    return None


def _asked(arguments: argparse.Namespace, given: Given) -> list[Decided] | None:
    """What a person at the terminal answers; None where there is nobody to ask."""
    from sootsayer.commands.ask_typing import AtTerminal, at_a_terminal
    from sootsayer.console import records_said
    from sootsayer.console import records_texts as t
    from sootsayer.ledger.keeping import Decided

    if arguments.json or not at_a_terminal():
        return None
    for line in [
        records_said.header(given.told, given.case.vehicle.label),
        *records_said.advised(given.told),
    ]:
        write(f"{line}\n", sys.stdout)
    typing, found, prompt = AtTerminal(), list[Decided](), say(t.ASK_OTHERWISE)
    while what := (typing.line(prompt) or "").strip():
        found.append(Decided(what, (typing.line(say(t.ASK_WHY)) or "").strip()))
        prompt = say(t.ASK_MORE)
    return found


def _kept(
    arguments: argparse.Namespace, given: Given, body: dict[str, object], added: Added
) -> list[Said]:
    from sootsayer.console import records_said
    from sootsayer.console import records_texts as t
    from sootsayer.ledger.parts import mappings

    lines = [records_said.header(given.told, given.case.vehicle.label)]
    time = records_said.time_said(str(body["at"]))
    lines.append(say(t.KEPT, number=added.number, by=arguments.by, time=time))
    decided = body["decided"]
    if decided is None:
        lines.append(say(t.DECIDED_UNASKED))
    elif not decided:
        lines.append(say(t.DECIDED_NOTHING))
    lines += [say(t.DECIDED, what=d["what"], why=d["why"]) for d in mappings(decided)]
    return lines


def _notes(added: Added, torn_file: str, withheld: int, torn: bool) -> list[Said]:
    from sootsayer.console import records_texts as t

    lines = []
    if torn:
        lines.append(say(t.TORN_CASE))
    if withheld:
        lines.append(say_count(*t.WITHHELD, count=withheld))
    if added.torn:
        lines.append(say_count(*t.TORN_SET_ASIDE, count=added.torn, file=torn_file))
    if added.later:
        lines.append(say(t.CLOCK_BACK, later=added.later))
    return lines
