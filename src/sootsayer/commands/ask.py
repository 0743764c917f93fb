"""`sootsayer ask [CASE]`: the guided questionnaire."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from contextlib import ExitStack
from datetime import datetime
from typing import TYPE_CHECKING

from sootsayer.catalogue import Said, say, shown
from sootsayer.commands.clock import to_the_second
from sootsayer.commands.leaving import DONE, INTERRUPTED, Stop
from sootsayer.commands.usage import add_language
from sootsayer.console.output import write

if TYPE_CHECKING:
    from sootsayer.commands.ask_typing import Typing
    from sootsayer.commands.asking.state import Session
    from sootsayer.commands.find_case import CaseFile
    from sootsayer.documents.holding import Holder
    from sootsayer.rulebook.compiled import Rulebook
    from sootsayer.rulebook.shop import Shop

SUMMARY = "ask what is worth knowing next, and enter the answers in a case"
DESCRIPTION = """\
The guided questionnaire: it proposes the next useful check, and takes any fact at any
time. Each answer is on the disk when it is acknowledged. Type ?? while asked for all
that can be typed."""
EXAMPLE = """\
example:
  sootsayer ask cases/2031-03-14-a.yaml
      go on with this case
  sootsayer ask
      choose one of the open cases, or begin a new one
  sootsayer ask 2031-03-14-a --sheet
      the next checks as a page to take to the vehicle, with blanks
  sootsayer ask 2031-03-14-a --answers answers.txt
      one answer a line, from a file

CASE is the path of a case file, or the id of a case. A new case goes to the path
given, else to the shop's cases, else to the folder cases here; its id is the day and
a letter. Nothing is ever written to a demonstration case: a copy is offered.
Ctrl-C leaves a case that goes on where it was. The exit code is 0 when it ends, 2
where something could not be read or written, 130 after Ctrl-C."""

NOBODY = "there is no terminal to ask at and no file of answers; the case is untouched"
NOBODY_NEXT = "run it in a terminal, or give --answers FILE"
CLOSED = "the case {case} is closed by its outcome"
CLOSED_NEXT = "begin a new case for a new visit, or look at it: sootsayer judge {case}"
BUSY_NEXT = "wait, or add --take-over"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument(
        "case",
        metavar="CASE",
        nargs="?",
        help=say("path of a case file, or an id; may be left out"),
    )
    parser.add_argument(
        "--new", action="store_true", help=say("begin a new case (at CASE, if given)")
    )
    parser.add_argument(
        "--copy", action="store_true", help=say("ask a copy of a demonstration case")
    )
    parser.add_argument(
        "--sheet", action="store_true", help=say("print the next checks as one page with blanks")
    )
    parser.add_argument(
        "--from-sheet", action="store_true", help=say("ask for what is on that page, in its order")
    )
    parser.add_argument(
        "--fixed", action="store_true", help=say("ask in the customary order instead, for training")
    )
    parser.add_argument(
        "--answers", metavar="FILE", help=say("one answer a line, from FILE (- is standard input)")
    )
    parser.add_argument(
        "--take-over", action="store_true", help=say("take over a case that somebody else has open")
    )
    parser.add_argument("--by", metavar="ID", help=say("who enters (else as the last entry)"))
    parser.add_argument(
        "--at",
        metavar="TIME",
        help=say("enter as if it were TIME, written like 2031-03-14T09:02+01:00 (else now)"),
    )
    parser.add_argument(
        "--shop",
        metavar="DIR",
        help=say("the shop's own folder (else SOOTSAYER_SHOP, else the nearest shop.yaml upward)"),
    )
    add_language(parser)


def run(arguments: argparse.Namespace) -> int:
    """Ask. Raises Stop, Refused and OSError."""
    from sootsayer.commands.ask_typing import AtTerminal, answers_from, at_a_terminal

    typing: Typing | None = None
    if arguments.answers is not None:
        typing = answers_from(arguments.answers)
    elif at_a_terminal():
        sys.stdin.reconfigure(errors="replace")  # type: ignore[union-attr]
        typing = AtTerminal()
    elif not arguments.sheet:
        raise Stop(say(NOBODY), say(NOBODY_NEXT))

    from sootsayer.commands.ask_case import Left

    try:
        return _ask(arguments, typing)
    except Left:
        return DONE
    except KeyboardInterrupt:
        from sootsayer.commands.ask_shell import kept

        write(f"\n{kept(shown(arguments.case or ''))}\n", sys.stdout)
        return INTERRUPTED


def _ask(arguments: argparse.Namespace, typing: Typing | None) -> int:
    from sootsayer.commands.ask_case import Choice, chosen
    from sootsayer.commands.opened import language_of, open_rulebook, open_shop

    shop = open_shop(arguments.shop)
    rulebook, shop = open_rulebook(shop, language_of(arguments.language, shop))
    clock = _clock(arguments.at)
    choice = Choice(arguments.case, arguments.new, arguments.copy, shop, typing, _tell, clock())
    if arguments.sheet and arguments.case is not None and not arguments.copy:
        return _sheet(arguments, rulebook, shop, clock)
    file = chosen(choice, lambda: rulebook.model)
    session = _session(arguments, file, rulebook, shop, clock)
    if session.case.closed:
        slots = {"case": session.setting.called}
        raise Stop(say(CLOSED, **slots), say(CLOSED_NEXT, **slots))
    arguments.case = session.setting.called
    if arguments.sheet:
        return _print_sheet(session)
    return _hold_and_run(arguments, session, file, typing, clock)


def _hold_and_run(
    arguments: argparse.Namespace,
    session: Session,
    file: CaseFile,
    typing: Typing | None,
    clock: Callable[[], datetime],
) -> int:
    from sootsayer.commands.ask_shell import Shell

    assert typing is not None
    with ExitStack() as stack:
        mine = _hold(arguments, session, file, typing, stack, clock)
        return Shell(file.path, typing, clock, mine).run(session)


def _hold(
    arguments: argparse.Namespace,
    session: Session,
    file: CaseFile,
    typing: Typing,
    stack: ExitStack,
    clock: Callable[[], datetime],
) -> Holder | None:
    """The case held for writing; None where it is only read. Raises Left and Stop."""
    from sootsayer.catalogue_numbers import moment_of
    from sootsayer.commands.ask_case import Left
    from sootsayer.commands.heard import says
    from sootsayer.console import ask_texts as t
    from sootsayer.console import heard_texts as h
    from sootsayer.documents.holding import held, holder_of
    from sootsayer.documents.writing import CannotWrite

    other = holder_of(file.path)
    if other is not None and not arguments.take_over:
        what = say(t.BUSY, who=other.who, since=moment_of(other.since))
        if not typing.interactive:
            raise Stop(what, say(BUSY_NEXT))
        _tell(what)
        _tell(say(t.BUSY_ASK))
        typed = typing.line(say(t.PROMPT_WAITING)) or ""
        if says(typed, h.READ):
            _tell(say(t.READS))
            return None
        if not says(typed, h.TAKE):
            raise Left
        _tell(say(t.TAKEN, who=other.who))
    since = clock().strftime("%Y-%m-%d %H:%M")
    try:
        return stack.enter_context(held(file.path, session.by, since))
    except CannotWrite as refused:
        _tell(say(t.CANNOT_HOLD, why=refused.why))
        return None


def _sheet(
    arguments: argparse.Namespace,
    rulebook: Rulebook,
    shop: Shop | None,
    clock: Callable[[], datetime],
) -> int:
    """The page for a case that is only read: a demonstration case may be asked for as well."""
    from sootsayer.commands.find_case import find_case
    from sootsayer.rulebook.shipped import shipped_cases

    file = find_case(arguments.case, shipped_cases(), None if shop is None else shop.cases)
    return _print_sheet(_session(arguments, file, rulebook, shop, clock))


def _print_sheet(session: Session) -> int:
    from sootsayer.commands.asking.sheet import sheet_shown
    from sootsayer.console.paper import page
    from sootsayer.console.screen import show

    show(page(sheet_shown(session).says), sys.stdout)
    return DONE


def _session(
    arguments: argparse.Namespace,
    file: CaseFile,
    rulebook: Rulebook,
    shop: Shop | None,
    clock: Callable[[], datetime],
) -> Session:
    """The session on a case as it stands in its file. Raises Stop, Refused and OSError."""
    from sootsayer.casework.logs.entries import by_of
    from sootsayer.commands.asking.beginning import begun
    from sootsayer.commands.asking.state import Setting
    from sootsayer.commands.main import COMMANDS
    from sootsayer.commands.naming_rounds import ID
    from sootsayer.commands.usage import short
    from sootsayer.console import ask_texts as t
    from sootsayer.documents.reading import read_bytes

    by = arguments.by
    if by is not None and not ID.fullmatch(by):
        raise Stop(say(t.BAD_ID, text=short(by)), say(t.BAD_ID_NEXT, example="tech-1"))
    setting = Setting(
        rulebook, shop, file.shown_as, _called(arguments.case, file),
        fixed=arguments.fixed, next_command="plan" if "plan" in COMMANDS else "judge",
    )  # fmt: skip
    data = read_bytes(file.path, file.shown_as)
    session = begun(setting, data, clock(), from_sheet=arguments.from_sheet)
    from dataclasses import replace

    return replace(session, by=by or by_of(session.case))


def _called(typed: str | None, file: CaseFile) -> str:
    """How the case is named in the next command: as it was typed where that will do."""
    return typed if typed is not None and file.path.stem == typed else str(file.path)


def _clock(typed: str | None) -> Callable[[], datetime]:
    """The clock, to the second; or the one moment of `--at`. Raises Stop."""
    if typed is None:
        return to_the_second
    from sootsayer.casework.moments import MomentRefused, read_moment

    try:
        moment = read_moment(typed)
    except MomentRefused as refused:
        raise Stop(shown(refused.what), shown(refused.instead)) from None
    return lambda: moment


def _tell(text: Said) -> None:
    from sootsayer.console.paper import Line, page
    from sootsayer.console.screen import show

    show(page([Line(text)]), sys.stdout)
