"""Asking one question until it is answered: at a terminal again, from a file once."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from typing import TypeVar

from sootsayer.catalogue import Said, say, shown
from sootsayer.commands.ask_typing import Typing
from sootsayer.commands.heard import says
from sootsayer.commands.leaving import Stop
from sootsayer.commands.usage import short
from sootsayer.console import heard_texts as h
from sootsayer.console import rules_new_texts as t
from sootsayer.console.paper import BLANK, QUIET, STRONG, Line, page
from sootsayer.console.screen import show
from sootsayer.console.vocabulary import id_said
from sootsayer.documents.escaping import visible

T = TypeVar("T")
_WAYS = {"yes": h.YES, "no": h.NO, "show": h.SHOW_TEXT}
LONGEST = 400  # characters of one answer


class Back(Exception):  # noqa: N818 (a wish)
    """To the question before."""


class Left(Exception):  # noqa: N818 (a wish)
    """Out, with nothing written."""


class NotTaken(Exception):  # noqa: N818 (says what is wrong with an answer)
    def __init__(self, what: Said, instead: Said) -> None:
        self.what = what
        self.instead = instead
        super().__init__(what)


class Talk:
    """Somebody who is asked. `number`: of the nine questions, the last that was begun; `asked`:
    how many lines were asked for in all."""

    def __init__(self, typing: Typing) -> None:
        self._typing = typing
        self.number = 0
        self.asked = 0

    @property
    def interactive(self) -> bool:
        return self._typing.interactive

    def tell(self, *lines: Said) -> None:
        show(page(Line(line, indent=3) for line in lines), sys.stdout)

    def ask(
        self,
        question: Said,
        help_: Said,
        read: Callable[[str], T],
        default: str | None = None,
        first: bool = False,
    ) -> T:
        """What `read` makes of the answer. `default`: what Enter or `-` stands for; `first`: it
        begins a question of the nine.

        Raises Back, Left, and Stop where answers from a file are wrong or end.
        """
        if first:
            self.number += 1
        self.asked += 1
        mark = say("{number}", number=self.number) if first else Said("")
        head = [BLANK] if first else []
        show(page([*head, Line(question, mark=f"{mark:<3}", style=STRONG)]), sys.stdout)
        if default is not None:
            show(page([Line(say(t.DEFAULT, default=id_said(t.DEFAULTS, default)))]), sys.stdout)
        while True:
            typed = self._line(question)
            if typed == "?":
                show(page([Line(help_, indent=3, style=QUIET)]), sys.stdout)
                continue
            try:
                return self._taken(typed, read, default)
            except NotTaken as wrong:
                self._refuse(wrong)

    def _line(self, question: Said) -> str:
        line = self._typing.line(say(t.PROMPT))
        if line is None:
            if self._typing.interactive:
                raise Left
            raise Stop(say(t.ENDED, question=question), say(t.ENDED_NEXT))
        return " ".join(line.split())

    def _taken(self, typed: str, read: Callable[[str], T], default: str | None) -> T:
        if says(typed, h.BACK_TO):
            raise Back
        if says(typed, h.STOP):
            raise Left
        if typed in ("", "-"):
            if default is None:
                raise NotTaken(say("this needs an answer"), say("write one; ? explains"))
            typed = default
        if len(typed) > LONGEST or visible(typed) != typed:
            what = say("that is too long, or holds characters that cannot be seen")
            raise NotTaken(what, say("write it in fewer plain characters"))
        return read(typed)

    def _refuse(self, wrong: NotTaken) -> None:
        if not self._typing.interactive:
            place = shown(self._typing.place)
            raise Stop(
                say(t.NOT_TAKEN, place=place, what=wrong.what),
                say(t.NOT_TAKEN_NEXT, instead=wrong.instead),
            )
        self.tell(wrong.what, Said(f"-> {wrong.instead}"))


def one_of(wanted: Sequence[str], instead: str) -> Callable[[str], str]:
    """A reader that takes one of these words, however it is said."""

    def read(typed: str) -> str:
        for word in wanted:
            if typed.casefold() == word or says(typed, _WAYS.get(word, "")):
                return word
        raise NotTaken(say('"{typed}" is none of them', typed=short(typed)), say(instead))

    return read


def text(most: int = 120) -> Callable[[str], str]:
    """A reader that takes any text of at most so many characters."""

    def read(typed: str) -> str:
        if len(typed) > most:
            raise NotTaken(say(t.SEES_LONG, most=most), say(t.SEES_LONG_NEXT))
        return typed

    return read
