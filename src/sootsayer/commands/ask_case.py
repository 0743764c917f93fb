"""Which case is asked: the one named, one chosen from the list, a new one, or a copy."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from itertools import islice
from pathlib import Path

from sootsayer.catalogue import Said, say, shown
from sootsayer.commands.ask_typing import Typing
from sootsayer.commands.asking import starting
from sootsayer.commands.asking.values import NotUsable
from sootsayer.commands.case_shelf import SUFFIX, Shelved, case_line, shelved
from sootsayer.commands.find_case import HERE, CaseFile, find_case
from sootsayer.commands.heard import says
from sootsayer.commands.leaving import Stop
from sootsayer.commands.usage import short
from sootsayer.console import ask_texts as t
from sootsayer.console import heard_texts as h
from sootsayer.documents.torn import split_torn
from sootsayer.documents.writing import CannotWrite, replace_file
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.shipped import shipped_cases
from sootsayer.rulebook.shop import Shop

DEMONSTRATION = "{case} is a demonstration case; nothing is ever written to it"
DEMONSTRATION_NEXT = "add --copy to ask a copy of it, or name another case"
NAME_IT = "no case is named"
NAME_IT_NEXT = "name one, or begin one with --new"
NOT_BEGUN = "{file} was not begun: {why}"
NOT_BEGUN_NEXT = "put that right, or name another file: sootsayer ask --new FILE"
BROKEN_OFF = "the answers end before the new case is described"
BROKEN_OFF_NEXT = "begin them with what the vehicle is, such as: 2.0 L panel van"
THERE_ALREADY = "there is a file {file} already"
THERE_ALREADY_NEXT = "leave --new out to go on with it, or name another"
_MOST_IDS = 2000

Tell = Callable[[Said], None]


class Left(Exception):  # noqa: N818 (nothing is wrong: nothing was chosen)
    """The person left without choosing a case."""


@dataclass(frozen=True, slots=True)
class Choice:
    """What was asked for: CASE as typed (None: none), and how."""

    case: str | None
    new: bool
    copy: bool
    shop: Shop | None
    typing: Typing | None
    tell: Tell
    now: datetime

    @property
    def folder(self) -> Path:
        """Where a new case goes: the shop's cases, else `cases` here."""
        return Path(HERE) if self.shop is None else self.shop.cases


def chosen(choice: Choice, model: Callable[[], Model]) -> CaseFile:
    """The case file to ask; a new one or a copy is written first. Raises Stop, Left, OSError."""
    if choice.new:
        return _begun(choice, model())
    if choice.case is None:
        return _from_list(choice, model)
    own = None if choice.shop is None else choice.shop.cases
    found = find_case(choice.case, shipped_cases(), own)
    return _copied(choice, found) if found.demonstration else found


def _from_list(choice: Choice, model: Callable[[], Model]) -> CaseFile:
    """The open cases are listed, and one of them or a new one is chosen."""
    typing = choice.typing
    if typing is None or not typing.interactive:
        raise Stop(say(NAME_IT), say(NAME_IT_NEXT))
    open_cases = [case for case in shelved(choice.folder) if case.id and not case.closed]
    heading = t.OPEN_CASES if open_cases else t.NO_OPEN_CASES
    choice.tell(say(heading, folder=shown(str(choice.folder))))
    for number, case in enumerate(open_cases, start=1):
        choice.tell(case_line(number, case))
    while True:
        choice.tell(say(t.CHOOSE if open_cases else t.CHOOSE_NEW))
        typed = (typing.line(say(t.PROMPT_WAITING)) or "").strip()
        if not typed:
            raise Left
        if says(typed, h.NEW):
            return _begun(choice, model())
        picked = _picked(typed, open_cases)
        if picked is not None:
            return CaseFile(picked.path, str(picked.path), demonstration=False)
        choice.tell(say(t.NO_SUCH_CHOICE, text=short(typed)))
        choice.tell(say(t.NO_SUCH_CHOICE_NEXT))


def _picked(typed: str, cases: list[Shelved]) -> Shelved | None:
    if typed.isascii() and typed.isdigit() and 1 <= int(typed[:6]) <= len(cases):
        return cases[int(typed[:6]) - 1]
    return next((case for case in cases if typed in (case.id, case.path.stem)), None)


def _begun(choice: Choice, model: Model) -> CaseFile:
    """A new case: its header asked, its file written whole."""
    typing = choice.typing
    if typing is None:
        raise Stop(say(NAME_IT), say(NAME_IT_NEXT))
    if choice.case is not None and _path(choice.case).exists():
        raise Stop(say(THERE_ALREADY, file=short(choice.case)), say(THERE_ALREADY_NEXT))
    choice.tell(say(t.NEW_HEAD))
    draft = starting.new_draft(model)
    while draft.left:
        choice.tell(starting.asks(draft))
        typed = typing.line(say(t.NEW_PROMPT, key=draft.left[0]))
        if typed is None:
            if typing.interactive:
                raise Left
            raise Stop(say(BROKEN_OFF), say(BROKEN_OFF_NEXT))
        told = starting.told(draft, typed)
        if isinstance(told, NotUsable):
            if not typing.interactive:
                raise Stop(told.what, told.instead)
            choice.tell(told.what)
            choice.tell(told.instead)
            continue
        draft = told
    file = _written(choice, lambda id_: starting.header_text(draft, id_))
    choice.tell(say(t.BEGUN, case=file.path.stem, file=file.shown_as))
    return file


def _path(case: str) -> Path:
    return Path(case if case.endswith((SUFFIX, ".yml")) else case + SUFFIX)


def _copied(choice: Choice, found: CaseFile) -> CaseFile:
    """A copy of a demonstration case under an id of its own, where the person wants one."""
    typing = choice.typing
    if not choice.copy:
        if typing is None or not typing.interactive:
            raise Stop(say(DEMONSTRATION, case=found.path.stem), say(DEMONSTRATION_NEXT))
        file = choice.folder / (next(iter(_free(choice))) + SUFFIX)
        choice.tell(say(t.COPY_ASK, case=found.path.stem, file=shown(str(file))))
        if not says(typing.line(say(t.PROMPT_WAITING)) or "", h.YES):
            raise Left
    text = split_torn(found.path.read_bytes())[0].decode("utf-8")
    header, mark, rest = text.partition("\ncase: ")
    line, _, rest = rest.partition("\n")
    assert mark, line  # every shipped case has its id on a line of its own

    copy = _written(
        Choice(None, False, True, choice.shop, typing, choice.tell, choice.now),
        lambda id_: f"{header}\ncase: {id_}\n{rest}",
    )
    choice.tell(say(t.COPIED, file=copy.shown_as))
    return copy


def _free(choice: Choice) -> list[str]:
    used = {file.stem for file in choice.folder.glob("*" + SUFFIX)}
    return list(islice(starting.fresh_ids(choice.now.date(), used), _MOST_IDS))


def _written(choice: Choice, text_of: Callable[[str], str]) -> CaseFile:
    """The file under the path named, else under the first free id of the day."""
    if choice.case is not None:
        path = _path(choice.case)
        return _write(path, text_of(_id_of(path)))
    choice.folder.mkdir(exist_ok=True)
    for id_ in _free(choice):
        try:
            return _write(choice.folder / (id_ + SUFFIX), text_of(id_))
        except Stop:
            if not (choice.folder / (id_ + SUFFIX)).exists():
                raise  # else somebody else has just taken this id
    raise Stop(say(NAME_IT), say(NAME_IT_NEXT))


def _id_of(path: Path) -> str:
    from sootsayer.commands.naming_rounds import ID

    name = "-".join(path.stem.casefold().split())
    if not ID.fullmatch(name) or len(name) > 80:
        raise Stop(say(t.BAD_ID, text=short(path.stem)), say(t.BAD_ID_NEXT, example="2031-03-14-a"))
    return name


def _write(path: Path, text: str) -> CaseFile:
    try:
        replace_file(path, text, new=True)
    except CannotWrite as refused:
        what = say(NOT_BEGUN, file=short(str(path)), why=shown(refused.why))
        raise Stop(what, say(NOT_BEGUN_NEXT)) from None
    return CaseFile(path, str(path), demonstration=False)
