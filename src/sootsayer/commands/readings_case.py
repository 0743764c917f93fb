"""The case behind `sootsayer readings`: what it lends to reading, and entering windows in it."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from sootsayer.casework.append import append_entries
from sootsayer.casework.case_file import case_of, read_case
from sootsayer.casework.logs.about import other_vehicle
from sootsayer.casework.logs.columns import Wish
from sootsayer.casework.logs.entries import (
    Taking,
    by_of,
    entry_lines,
    offset_of,
    round_of,
    same_points,
)
from sootsayer.casework.logs.facts import possible_ranges
from sootsayer.casework.logs.model import Log, Window
from sootsayer.casework.logs.read import Settings, read_log
from sootsayer.casework.logs.state import Levels
from sootsayer.casework.model import Case
from sootsayer.casework.moments import MomentRefused, read_moment
from sootsayer.casework.no_entries import parse_case
from sootsayer.catalogue import Said, say, say_count, shown
from sootsayer.commands.clock import clock
from sootsayer.commands.find_case import CaseFile, find_case
from sootsayer.commands.heard import says
from sootsayer.commands.leaving import Stop
from sootsayer.commands.naming_rounds import ID, round_named
from sootsayer.commands.opened import language_of, open_rulebook, open_shop
from sootsayer.commands.usage import short
from sootsayer.console import heard_texts as h
from sootsayer.console.readings_texts import WRITTEN
from sootsayer.console.vocabulary import round_said
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem
from sootsayer.documents.torn import split_torn
from sootsayer.documents.writing import CannotWrite
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.shipped import shipped_cases

ALL = "all"
_HOT, _BURNING = "coolant-hot-min", "burning-temperature-min"

NO_LOG = "there is no file {file}"
NO_LOG_NEXT = "give the path of the log"
NO_WINDOW = "the log has no window {number}"
NO_WINDOW_NEXT = "its windows are 1 to {count}"
NO_WINDOWS_NEXT = "it has none; nothing was entered"
NO_NUMBER = '"{text}" is no list of windows'
NO_NUMBER_NEXT = "write numbers with commas, as 1,3, or all"
GIVES_NOTHING = "window {number} gives no reading: {why}"
GIVES_NOTHING_NEXT = "take others; nothing was entered"
NO_RULE = "no rule in force asks for a reading in this state"
NONE_GIVE = "no window of this log gives a reading"
TWICE = "more than one of these windows is of {points}"
TWICE_NEXT = "take one of each, by --take; nothing was entered"
CLOSED = "the case {case} is closed by its outcome"
CLOSED_NEXT = "begin a new case for a new visit; nothing was entered"
DEMONSTRATION = "{case} is a demonstration case that came with sootsayer"
DEMONSTRATION_NEXT = "copy it, and name the copy; nothing was entered"
BAD_ID = '"{text}" is not in lower case with dashes'
BAD_ID_NEXT = "write it like {example}; nothing was entered"
NOT_WRITTEN = "{file} was not written: {why}"
NOT_WRITTEN_NEXT = "nothing was entered; put that right and try again"
UNDATED = "the log has no date: its readings are entered as if it had ended now"
UNDATED_NEXT = "say when it began, by --at; readings age, and permissions with them"


@dataclass(frozen=True, slots=True)
class Prepared:
    """Lines that a case will take, the round they are of, and the windows they came from."""

    file: CaseFile
    lines: tuple[str, ...]
    round: str
    numbers: str

    def enter(self) -> Said:
        """Append all of them or none; what to say of it. Raises Stop."""
        try:
            append_entries(self.file.path, self.lines)
        except CannotWrite as refused:
            what = say(NOT_WRITTEN, file=self.file.shown_as, why=refused.why)
            raise Stop(what, say(NOT_WRITTEN_NEXT)) from None
        one, many = WRITTEN
        slots = {
            "file": self.file.shown_as,
            "round": round_said(self.round),
            "numbers": self.numbers,
        }
        return Said(say_count(one, many, count=len(self.lines), **slots) + "\n")


@dataclass(frozen=True, slots=True)
class Target:
    """The rulebook, and the case with its file where one was named."""

    model: Model
    case: Case | None
    file: CaseFile | None

    @property
    def round(self) -> str:
        """The round that readings go into unless another is said."""
        return round_of(self.case) if self.case is not None else "arrival"

    @property
    def can_enter(self) -> bool:
        """Whether the case takes entries at all."""
        open_case = self.case is not None and not self.case.closed
        return open_case and self.file is not None and not self.file.demonstration

    def warnings(self, log: Log) -> list[Problem]:
        """What speaks against the log being of this case's vehicle."""
        return other_vehicle(log, self.case.vehicle) if self.case is not None else []

    def prepared(
        self, log: Log, windows: Sequence[Window], arguments: argparse.Namespace
    ) -> Prepared:
        """The windows as lines that the case will take. Nothing is written. Raises Stop and
        Refused."""
        case, file = self._open()
        taking = Taking(
            _id(arguments.by, "tech-1") or by_of(case),
            arguments.round or self.round,
            _begun(arguments.at, log, case),
        )
        lines = entry_lines(log, windows, taking, self.model)
        before = split_torn(file.path.read_bytes())[0]
        text = before + (b"" if before.endswith(b"\n") else b"\n")
        text += "".join(f"{line}\n" for line in lines).encode()
        case_of(parse_case(text, file.shown_as), self.model)  # refused here, not tomorrow
        numbers = ", ".join(str(window.number) for window in windows)
        return Prepared(file, tuple(lines), taking.round, numbers)

    def _open(self) -> tuple[Case, CaseFile]:
        assert self.case is not None
        assert self.file is not None
        if self.file.demonstration:
            raise Stop(say(DEMONSTRATION, case=self.case.id), say(DEMONSTRATION_NEXT))
        if self.case.closed:
            raise Stop(say(CLOSED, case=self.case.id), say(CLOSED_NEXT))
        return self.case, self.file


def open_target(arguments: argparse.Namespace) -> Target:
    """The rulebook, and the case if one is named. Raises Stop, Refused and OSError."""
    log = arguments.log
    if not log or "\0" in log or not Path(log).exists():
        raise Stop(say(NO_LOG, file=short(log)), say(NO_LOG_NEXT))
    shop = open_shop(arguments.shop)
    rulebook, shop = open_rulebook(shop, language_of(arguments.language, shop))
    model = rulebook.model
    if arguments.case is None:
        return Target(model, None, None)
    found = find_case(arguments.case, shipped_cases(), None if shop is None else shop.cases)
    return Target(model, read_case(found.path, model, shown_as=found.shown_as), found)


def read_shown(
    file: str, target: Target, wish: object, *, traced: bool, decimals: bool | None = None
) -> Log:
    """The log, read with a bar of progress on a terminal. `decimals`: whether they were said to
    have a comma. Raises Refused and OSError."""
    assert isinstance(wish, Wish)
    levels = Levels(_limit(target, _HOT, Levels().hot), _limit(target, _BURNING, Levels().burning))
    settings = Settings(wish, possible_ranges(target.model), levels, traced, decimals)
    path = Path(file)
    if sys.stderr is None or not sys.stderr.isatty():
        return read_log(path, settings, shown_as=file)
    from sootsayer.console.progress import reading_bar

    with reading_bar(path.stat().st_size, sys.stderr) as advance:
        return read_log(path, settings, shown_as=file, progress=advance)


def windows_of(text: str, log: Log, facts: Mapping[int, Mapping[str, str]]) -> list[Window]:
    """The windows that "1,3" or "all" names. Raises Stop."""
    if text == ALL or says(text, h.ALL_WINDOWS):
        windows = [window for window in log.windows if facts[window.number]]
        if not windows:
            raise Stop(say(NONE_GIVE), say(NO_WINDOWS_NEXT))
    else:
        windows = [_window(part.strip(), text, log, facts) for part in text.split(",")]
    by_number = {window.number: window for window in windows}
    windows = [by_number[number] for number in sorted(by_number)]
    twice = same_points(windows)
    if twice:
        raise Stop(say(TWICE, points=", ".join(twice)), say(TWICE_NEXT))
    return windows


def _window(part: str, text: str, log: Log, facts: Mapping[int, Mapping[str, str]]) -> Window:
    if not (part.isascii() and part.isdigit()) or len(part) > 6:
        raise Stop(say(NO_NUMBER, text=short(text)), say(NO_NUMBER_NEXT))
    number = int(part)
    if not 1 <= number <= len(log.windows):
        count = len(log.windows)
        instead = say(NO_WINDOW_NEXT, count=count) if count else say(NO_WINDOWS_NEXT)
        raise Stop(say(NO_WINDOW, number=number), instead)
    window = log.windows[number - 1]
    if not facts[number]:
        why = shown(window.apart) if window.apart else say(NO_RULE)
        raise Stop(say(GIVES_NOTHING, number=number, why=why), say(GIVES_NOTHING_NEXT))
    return window


def _limit(target: Target, name: str, otherwise: float) -> float:
    own = target.case.limits.get(name) if target.case is not None else None
    known = target.model.limits.get(name)
    return own.value if own is not None else known.default if known is not None else otherwise


def _id(text: str | None, example: str) -> str | None:
    if text is not None and not ID.fullmatch(text):
        raise Stop(say(BAD_ID, text=short(text)), say(BAD_ID_NEXT, example=example))
    return text


def round_typed(typed: str | None) -> str | None:
    """By its id, or as it is called. Raises Stop."""
    if typed is None or ID.fullmatch(typed):
        return typed
    return _id(round_named(typed), "after-clean")


def _begun(typed: str | None, log: Log, case: Case) -> datetime:
    """When the log begins: as said, by its own dates at the case's offset, else so that it ends
    now."""
    if typed is not None:
        try:
            return read_moment(typed)
        except MomentRefused as refused:
            raise Stop(shown(refused.what), shown(refused.instead)) from None
    now = clock()
    if log.begun is not None:
        return log.begun.replace(tzinfo=offset_of(case) or now.tzinfo)
    return now.replace(microsecond=0) - timedelta(seconds=round(log.length))


def undated(log: Log) -> Problem:
    """Said where readings are entered of a log without a date."""
    return Problem(Place(log.file, 1, 1), str(say(UNDATED)), str(say(UNDATED_NEXT)))
