"""`sootsayer readings LOG [CASE]`: steady windows of a live-data log into a round."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from sootsayer.catalogue import say, shown
from sootsayer.commands.leaving import DONE, NO, Stop, complain, complain_problems
from sootsayer.commands.usage import add_language, short
from sootsayer.console.output import write
from sootsayer.console.vocabulary import round_said

if TYPE_CHECKING:
    from sootsayer.casework.logs.model import Log, Window
    from sootsayer.commands.readings_case import Target

SUMMARY = "find the steady readings in a live-data log, and enter them in a case"
DESCRIPTION = """\
Read a live-data log, find the stretches in which the engine was held in one state,
and show what was read in each. Chosen ones become readings of one round of the case."""
EXAMPLE = """\
example:
  sootsayer readings drive.csv
      what is in the log: its columns, its windows, pressure against flow
  sootsayer readings drive.csv my-case.yaml --take 1,3
      enter windows 1 and 3 in the case
  sootsayer readings drive.csv my-case.yaml --column dp="Druck 2" --unit dp=hPa
      say which column is the differential pressure, and its unit

LOG is text with commas, semicolons or tabs; its form is told from its content.
CASE is the path of a case file, or the id of a demonstration case; it may be left out,
and then nothing is entered. Without --take or --all the windows are shown, and on a
terminal the choice is asked. The exit code is 1 where the log has no steady window."""

DECIMALS = {"comma": True, "point": False}
TAKE_WITHOUT_CASE = "windows are entered in a case, and none is named"
TAKE_WITHOUT_CASE_NEXT = "name the case file behind the log"
TAKE_AND_JSON = "--json shows the windows and enters nothing"
TAKE_AND_JSON_NEXT = "leave one of them out"
TAKE_AND_ALL = "--take and --all exclude each other"
PAIR = '"{text}" does not say which column is what'
PAIR_NEXT = "write it like {option} {example}; what can be named: {known}"
NO_ROLE = 'nothing here is called "{role}"'
NO_UNIT = 'no unit is called "{unit}"'
NO_UNIT_NEXT = "write one like mbar, hPa, kPa, kg/h, g/s, C, rpm, km/h"
ASK = "Windows to enter in round {round} (numbers, all, or Enter for none): "
NOTHING_ENTERED = "Nothing was entered.\n"
NO_PICTURE_NEXT = "give another name for the picture; nothing was written"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument("log", metavar="LOG", help=say("path of the log"))
    parser.add_argument(
        "case",
        metavar="CASE",
        nargs="?",
        help=say("path of a case file, or an id; may be left out"),
    )
    parser.add_argument("--take", metavar="NUMBERS", help=say("enter these windows, as 1,3"))
    parser.add_argument(
        "--all", action="store_true", help=say("enter every window that gives readings")
    )
    parser.add_argument(
        "--round", metavar="NAME", help=say("round to enter them in (else the newest of the case)")
    )
    parser.add_argument("--by", metavar="ID", help=say("who enters them (else as the last entry)"))
    parser.add_argument(
        "--at",
        metavar="TIME",
        help=say(
            "when the log begins, written like 2031-03-14T09:02+01:00 (else by its own dates, "
            "else so that it ends now)"
        ),
    )
    parser.add_argument(
        "--column", metavar="WHAT=NAME", action="append", default=[],
        help=say('say which column is what, as dp="Druck 2"; may be repeated'),
    )  # fmt: skip
    parser.add_argument(
        "--unit", metavar="WHAT=UNIT", action="append", default=[],
        help=say("say the unit of a column, as dp=hPa; may be repeated"),
    )  # fmt: skip
    parser.add_argument(
        "--decimals", choices=tuple(DECIMALS),
        help=say("say which mark the log's decimals have, where 1,500 could be 1.5 or 1500"),
    )  # fmt: skip
    parser.add_argument(
        "--picture", metavar="FILE", help=say("write the log and its windows as an SVG picture")
    )
    parser.add_argument("--json", action="store_true", help=say("print the windows as JSON"))
    parser.add_argument(
        "--shop",
        metavar="DIR",
        help=say("the shop's own folder (else SOOTSAYER_SHOP, else the nearest shop.yaml upward)"),
    )
    add_language(parser)


def run(arguments: argparse.Namespace) -> int:
    """Read, show, and enter what was chosen. Raises Stop, Refused and OSError."""
    from sootsayer.casework.logs.facts import facts_of
    from sootsayer.casework.logs.flow import flow_picture
    from sootsayer.commands.readings_case import open_target, read_shown, round_typed, undated

    _check_usage(arguments)
    target = open_target(arguments)
    arguments.round = round_typed(arguments.round)
    wish, decimals = _wish(arguments), DECIMALS.get(arguments.decimals or "")
    log = read_shown(arguments.log, target, wish, traced=bool(arguments.picture), decimals=decimals)
    flow = flow_picture(log, target.model, target.case)
    facts = {window.number: facts_of(window, target.model) for window in log.windows}
    chosen = _chosen(arguments, log, facts)
    prepared = target.prepared(log, chosen, arguments) if chosen else None
    if arguments.picture:
        _draw(arguments.picture, log, flow)
    if arguments.json:
        from sootsayer.commands.opened import as_text
        from sootsayer.console.readings_json import as_json

        write(as_text(as_json(log, facts)), sys.stdout)
        return DONE if log.windows else NO
    asks = _asks(arguments, target, facts)
    _show(arguments, target, log, flow, facts, asks)
    complain_problems([*log.warnings, *target.warnings(log)])
    if asks:
        chosen = _asked(arguments.round or target.round, log, facts)
        if not chosen:
            write(say(NOTHING_ENTERED), sys.stdout)
        prepared = target.prepared(log, chosen, arguments) if chosen else None
    if prepared is not None:
        if log.begun is None and arguments.at is None:
            complain_problems([undated(log)])
        write(prepared.enter(), sys.stdout)
    return DONE if log.windows else NO


def _check_usage(arguments: argparse.Namespace) -> None:
    takes = arguments.take is not None or arguments.all
    if arguments.take is not None and arguments.all:
        raise Stop(say(TAKE_AND_ALL), say(TAKE_AND_JSON_NEXT))
    if takes and arguments.json:
        raise Stop(say(TAKE_AND_JSON), say(TAKE_AND_JSON_NEXT))
    if takes and arguments.case is None:
        raise Stop(say(TAKE_WITHOUT_CASE), say(TAKE_WITHOUT_CASE_NEXT))


def _wish(arguments: argparse.Namespace) -> object:
    """The columns and units that were said. Raises Stop."""
    from sootsayer.casework.logs.columns import Wish
    from sootsayer.casework.logs.units import head_unit

    columns = _pairs(arguments.column, "--column", say('dp="Name of the column"'))
    units: dict[str, str] = {}
    for role, text in _pairs(arguments.unit, "--unit", "dp=hPa").items():
        unit = head_unit(text)
        if unit is None:
            raise Stop(say(NO_UNIT, unit=short(text)), say(NO_UNIT_NEXT))
        units[role] = unit
    return Wish(columns, units)


def _pairs(texts: list[str], option: str, example: str) -> dict[str, str]:
    from sootsayer.casework.logs.words import BY_ID

    found: dict[str, str] = {}
    known = ", ".join(BY_ID)
    for text in texts:
        role, mark, value = text.partition("=")
        next_step = say(PAIR_NEXT, option=option, example=example, known=known)
        if not mark or not value.strip():
            raise Stop(say(PAIR, text=short(text)), next_step)
        if role.strip() not in BY_ID:
            raise Stop(say(NO_ROLE, role=short(role)), next_step)
        found[role.strip()] = value.strip()
    return found


def _chosen(
    arguments: argparse.Namespace, log: Log, facts: dict[int, dict[str, str]]
) -> list[Window]:
    from sootsayer.commands.readings_case import ALL, windows_of

    if arguments.all:
        return windows_of(ALL, log, facts)
    return windows_of(arguments.take, log, facts) if arguments.take is not None else []


def _asks(arguments: argparse.Namespace, target: Target, facts: dict[int, dict[str, str]]) -> bool:
    takes = arguments.take is not None or arguments.all
    both = sys.stdin is not None and sys.stdin.isatty() and sys.stdout.isatty()
    return not takes and target.can_enter and both and any(facts.values())


def _asked(round_: str, log: Log, facts: dict[int, dict[str, str]]) -> list[Window]:
    """What a person at the terminal chose; asked again until it can be done."""
    from sootsayer.commands.readings_case import windows_of

    while True:
        write(say(ASK, round=round_said(round_)), sys.stdout)
        typed = sys.stdin.readline()
        if not typed.strip():
            return []
        try:
            return windows_of(typed.strip(), log, facts)
        except Stop as stop:
            complain(stop.what, stop.instead)


def _show(
    arguments: argparse.Namespace,
    target: Target,
    log: Log,
    flow: object,
    facts: dict[int, dict[str, str]],
    asks: bool,
) -> None:
    from sootsayer.casework.logs.flow import FlowPicture
    from sootsayer.console.readings_page import Offer, readings_page
    from sootsayer.console.screen import show

    assert isinstance(flow, FlowPicture)
    takes = arguments.take is not None or arguments.all
    offer = Offer(facts, arguments.round or target.round, arguments.case, asks or takes)
    show(readings_page(log, flow, offer), sys.stdout)


def _draw(file: str, log: Log, flow: object) -> None:
    """Write the picture; a file that is there already is never written over. Raises Stop."""
    from pathlib import Path

    from sootsayer.casework.logs.flow import FlowPicture
    from sootsayer.console.readings_picture import picture
    from sootsayer.documents.writing import CannotWrite, replace_file

    assert isinstance(flow, FlowPicture)
    try:
        replace_file(Path(file), picture(log, flow), new=True)
    except CannotWrite as refused:
        raise Stop(
            say("{file}: {why}", file=short(file), why=shown(refused.why)), say(NO_PICTURE_NEXT)
        ) from None
