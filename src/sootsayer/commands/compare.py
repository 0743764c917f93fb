"""`sootsayer compare CASE`: before and after, like for like."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from difflib import get_close_matches
from typing import TYPE_CHECKING

from sootsayer.catalogue import Said, say, shown
from sootsayer.commands.leaving import DONE, NO, Stop
from sootsayer.commands.naming_rounds import round_of_these, rounds_listed
from sootsayer.commands.usage import add_shared, short
from sootsayer.console.output import write
from sootsayer.console.vocabulary import round_said

if TYPE_CHECKING:
    from sootsayer.casework.logs.flow import FlowPicture

SUMMARY = "before and after: did the work help"
DESCRIPTION = """\
Compare two rounds of a case, like for like: each differential pressure at the same
point and warmth, its zero removed, brought to the same flow and temperature. Says by
how much each changed and whether that is more than instruments and conditions
explain, refuses what may not be compared and says what to read instead, and ends in
one sentence: worked, partly, not shown, or worse; and what remains."""
EXAMPLE = """\
example:
  sootsayer compare estate-before-and-after
      the first round that has readings, and the newest
  sootsayer compare my-case.yaml --from after-clean --to after-road-run
      two rounds by their names
  sootsayer compare my-case.yaml --picture before-and-after.svg
      pressure against flow as a picture beside the page

CASE is the path of a case file, or the id of a demonstration case.
The exit code is 0 where the work helped, wholly or in part; 1 where that is not
shown, where it is worse, or where nothing may be compared; and 2 where something
could not be read, or the case has no two rounds with readings."""

NO_ROUNDS = "no round of {case} has readings, so there is no before and after"
NO_ROUNDS_NEXT = "enter readings with round: arrival, and after the work with a round of its own"
ONE_ROUND = "only the round {round} of {case} has readings, so there is no before and after"
ONE_ROUND_NEXT = "read again after the work, in a round of another name, such as after-road-run"
NO_SUCH_ROUND = 'no round "{round}" of {case} has readings'
ROUNDS_ARE = "its rounds with readings are: {rounds}"
ROUND_NEAR = 'did you mean "{near}"? Its rounds with readings are: {rounds}'
SAME_ROUND = "from {from_round} to {to_round} is no before and after"
WRONG_ORDER = "name the earlier round with --from and a later one with --to: {rounds}"
NO_PICTURE_POINTS = "no reading of both rounds has its flow, so there is nothing to draw"
NO_PICTURE_POINTS_NEXT = (
    "leave --picture out, or read air and exhaust temperature beside the pressure in both rounds"
)
CANNOT_WRITE = "{file}: {why}"
CANNOT_WRITE_NEXT = "give another name for the picture; nothing was written"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument("case", metavar="CASE", help=say("path of a case file, or an id"))
    parser.add_argument(
        "--from", dest="from_round", metavar="ROUND", help=say("the earlier round (else the first)")
    )
    parser.add_argument(
        "--to", dest="to_round", metavar="ROUND", help=say("the later round (else the newest)")
    )
    parser.add_argument(
        "--picture", metavar="FILE", help=say("write pressure against flow as an SVG picture")
    )
    add_shared(parser)


def run(arguments: argparse.Namespace) -> int:
    """Compare and draw. Raises Stop, Refused and OSError."""
    from sootsayer.commands.opened import as_text, open_case

    opened = open_case(arguments)

    from sootsayer.advice.like_for_like_outcome import Helped
    from sootsayer.judgement.compare import compare, rounds_of
    from sootsayer.judgement.compare_flow import flow_picture
    from sootsayer.judgement.compare_remains import what_remains
    from sootsayer.judgement.judge import tell
    from sootsayer.judgement.workings import work_out

    work = work_out(opened.case, opened.rulebook, opened.now, opened.as_of, opened.shop)
    names = chosen(rounds_of(work), opened.case.id, arguments.from_round, arguments.to_round)
    compared = compare(work, *names)
    verdict = tell(work, proposing=False)
    remains = what_remains(work, verdict, compared.to_round)
    flow = flow_picture(work, compared)
    if arguments.picture:
        _draw(arguments.picture, flow, opened.case.id, names)
    code = DONE if compared.outcome.helped in {Helped.WORKED, Helped.PARTLY} else NO
    if arguments.json:
        from sootsayer.judgement.compare_json import as_json
        from sootsayer.judgement.compare_said import refusals_of

        told = as_json(compared, refusals_of(work, compared), remains, verdict.program)
        write(as_text(told), sys.stdout)
        return code

    from sootsayer.console.compare_page import Told, compare_page
    from sootsayer.console.names import names_of
    from sootsayer.console.screen import show

    labels = names_of(opened.rulebook.model, opened.case, opened.shop)
    show(compare_page(Told(compared, remains, flow, labels)), sys.stdout)
    return code


def chosen(
    rounds: Sequence[str], case: str, earlier: str | None, later: str | None
) -> tuple[str, str]:
    """The two rounds to compare. Raises Stop where the case has none such."""
    if not rounds:
        raise Stop(say(NO_ROUNDS, case=case), say(NO_ROUNDS_NEXT))
    first, last = (_one_of(rounds, case, typed) for typed in (earlier, later))
    if len(rounds) == 1:
        raise Stop(say(ONE_ROUND, round=round_said(rounds[0]), case=case), say(ONE_ROUND_NEXT))
    pair = (first or rounds[0], last or rounds[-1])
    if rounds.index(pair[0]) >= rounds.index(pair[1]):
        what = say(SAME_ROUND, from_round=round_said(pair[0]), to_round=round_said(pair[1]))
        raise Stop(what, say(WRONG_ORDER, rounds=rounds_listed(rounds)))
    return pair


def _one_of(rounds: Sequence[str], case: str, typed: str | None) -> str | None:
    """The round that was typed, None where none was. Raises Stop."""
    if typed is None:
        return None
    found = round_of_these(typed, rounds)
    if found is None:
        what = say(NO_SUCH_ROUND, round=short(typed), case=case)
        raise Stop(what, _rounds_are(rounds, typed))
    return found


def _rounds_are(rounds: Sequence[str], typed: str) -> Said:
    known = rounds_listed(rounds)
    called = {str(round_said(each)): each for each in rounds} | {each: each for each in rounds}
    near = get_close_matches(typed[:100], called, n=1, cutoff=0.5)
    return say(ROUND_NEAR, near=near[0], rounds=known) if near else say(ROUNDS_ARE, rounds=known)


def _draw(file: str, flow: FlowPicture, case: str, rounds: tuple[str, str]) -> None:
    """Write the picture; a file that is there already is never written over. Raises Stop."""
    from pathlib import Path

    from sootsayer.console.compare_picture import compare_picture
    from sootsayer.documents.writing import CannotWrite, replace_file

    if not flow.points:
        raise Stop(say(NO_PICTURE_POINTS), say(NO_PICTURE_POINTS_NEXT))
    try:
        replace_file(Path(file), compare_picture(flow, case, *rounds), new=True)
    except CannotWrite as refused:
        raise Stop(
            say(CANNOT_WRITE, file=short(file), why=shown(refused.why)), say(CANNOT_WRITE_NEXT)
        ) from None
