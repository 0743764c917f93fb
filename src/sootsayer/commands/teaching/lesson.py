"""The conversation from the first question to the proven pack in the shop's folder."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from sootsayer.casework.model import Case
from sootsayer.catalogue import language, say, say_count
from sootsayer.commands.leaving import Stop
from sootsayer.commands.opened import in_words_of, language_of, open_rulebook, open_shop
from sootsayer.commands.rules_cases import cases_read, folders_of
from sootsayer.commands.teaching.about_fact import Known, ask_fact, ask_sees, ask_value
from sootsayer.commands.teaching.about_faults import (
    ask_cases,
    ask_know,
    ask_links,
    ask_otherwise,
    ask_source,
)
from sootsayer.commands.teaching.draft import Draft
from sootsayer.commands.teaching.naming import ask_apart, ask_name, ids_of
from sootsayer.commands.teaching.pack_text import pack_text
from sootsayer.commands.teaching.replay import replayed
from sootsayer.commands.teaching.saving import found_by, save_pack, shop_at
from sootsayer.commands.teaching.talk import Back, Talk, one_of
from sootsayer.commands.teaching.telling import tell_beside, tell_replayed
from sootsayer.commands.teaching.trying import Tried, tried
from sootsayer.console import rules_new_texts as t
from sootsayer.console.article import book_of
from sootsayer.console.article_rules import finding_article
from sootsayer.console.handbook import article_lines
from sootsayer.console.names import names_of
from sootsayer.console.output import write
from sootsayer.console.paper import BLANK, Line, page
from sootsayer.console.rules_check_page import remark_lines
from sootsayer.console.rules_check_texts import ERRORS, WARNINGS
from sootsayer.console.screen import show
from sootsayer.documents.escaping import visible
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.review.remark import Weight
from sootsayer.rulebook.shipped import shipped_rules
from sootsayer.rulebook.shop import Shop
from sootsayer.rulebook.uses import uses_of

Step = Callable[[], None]


@dataclass(slots=True)
class Lesson:
    """One rule in the making. `shop` is None until there is one."""

    talk: Talk
    shop: Shop | None
    rulebook: Rulebook
    known: Known
    draft: Draft = field(default_factory=Draft)
    began: float = field(default_factory=time.monotonic)

    @classmethod
    def begun(cls, shop: str | None, named: str | None, talk: Talk) -> Lesson:
        """With the rules in force read. Raises Stop and Refused."""
        settings = open_shop(shop)
        rulebook, fitted = open_rulebook(settings, language_of(named, settings))
        model = rulebook.model
        names = names_of(model, _no_case(), None)
        known = Known(model, names, uses_of(model))
        return cls(talk, fitted, rulebook, known, Draft(taken=frozenset(ids_of(model))))

    def run(self) -> None:
        """Ask all, try, write, replay. Raises Left and Stop."""
        show(page([Line(say(t.HELLO))]), sys.stdout)
        steps: list[Step] = [
            lambda: ask_sees(self.talk, self.draft),
            lambda: ask_fact(self.talk, self.draft, self.known),
            lambda: ask_value(self.talk, self.draft),
            lambda: ask_links(self.talk, self.draft, self.known),
            lambda: ask_otherwise(self.talk, self.draft),
            lambda: ask_know(self.talk, self.draft),
            self._cases,
            lambda: ask_apart(self.talk, self.draft, self.known),
            lambda: ask_name(self.talk, self.draft, self.known, self._files()),
            self._write,
        ]
        asked: list[tuple[int, int]] = []  # the steps that asked, with the number before each
        at = 0
        while at < len(steps):
            before, count = self.talk.number, self.talk.asked
            try:
                steps[at]()
            except Back:
                if self.talk.asked > count + 1 and at < len(steps) - 1:
                    self.talk.number = before  # within a step of several: to its beginning
                elif asked:
                    at, self.talk.number = asked.pop()
                else:
                    self.talk.number = before
                continue
            if self.talk.asked > count:
                asked.append((at, before))
            at += 1

    def _files(self) -> set[str]:
        if self.shop is None:
            return set()
        return {file.stem for file in self.shop.packs.glob("*.yaml")}

    def _cases(self) -> None:
        fact = self.draft.fact
        assert fact is not None
        self.draft.shown = ()
        if fact.new is not None or fact.code:
            ask_source(self.talk, self.draft)  # no case has read it yet
            return
        readings = _readings(self.rulebook, self.shop, fact.slot)
        folder = "cases" if self.shop is None else str(self.shop.cases)
        ask_cases(self.talk, self.draft, readings, folder)

    def _write(self) -> None:
        """Try it, ask, write it, replay closed cases. Raises Back where it does not fit."""
        text = pack_text(self.draft, self.rulebook.model)
        own = [] if self.shop is None else list(self.shop.pack_folders())
        try_ = tried(text, self.draft.name, [shipped_rules(), *own])
        if try_.checked.rulebook is None or try_.errors:
            self._does_not_fit(try_, text)
        self._show(try_)
        self.talk.tell(say(t.TRIED, count=text.count("- {given: ")))
        tell_beside(self.talk, try_.checked.decisions, self.draft.name)
        shop = self.shop or shop_at(self.talk)
        file = shop.packs / f"{self.draft.name}.yaml"
        self._shall(file, text)
        save_pack(shop, file, text, self.rulebook.model)
        self._written(file, try_, shop)

    def _show(self, try_: Tried) -> None:
        """The page of the new rule, as `rules show` has it."""
        assert try_.checked.rulebook is not None
        model = in_words_of(try_.checked.rulebook.model, self.shop, language())
        article = finding_article(book_of(model), self.draft.name)
        lines = [line for line in article_lines(article) if line != BLANK]
        show(page([BLANK, *lines, BLANK]), sys.stdout)

    def _shall(self, file: Path, text: str) -> None:
        """Raises Back where it shall not be written."""
        wanted = one_of(("yes", "no", "show"), t.SHALL_NEXT)
        question, help_ = say(t.SHALL, file=str(file)), say(t.SHALL_HELP)
        answer = self.talk.ask(question, help_, wanted, "yes", first=True)
        while answer == "show":
            write(visible(text, keep_newlines=True), sys.stdout)
            answer = self.talk.ask(question, help_, wanted, "yes")
        if answer == "no":
            raise Back

    def _does_not_fit(self, try_: Tried, text: str) -> None:
        write("\n" + visible(text, keep_newlines=True) + "\n", sys.stdout)
        self.talk.tell(say(t.TRIED_NOT))
        write("".join(f"{line}\n" for line in remark_lines(try_.errors)), sys.stdout)
        if not self.talk.interactive:
            raise Stop(say(t.TRIED_NOT), say(t.TRIED_NEXT))
        self.talk.tell(say(t.TRIED_NEXT))
        raise Back

    def _written(self, file: Path, try_: Tried, shop: Shop) -> None:
        warnings = sum(each.weight is Weight.WARNING for each in try_.remarks)
        self.talk.tell(
            say(t.WRITTEN, file=str(file)),
            say(
                t.CHECKED, errors=say_count(*ERRORS, count=len(try_.errors)),
                warnings=say_count(*WARNINGS, count=warnings),
            ),
        )  # fmt: skip
        for line in remark_lines(try_.remarks):
            self.talk.tell(say("{line}", line=line))
        after = try_.checked.rulebook
        assert after is not None
        option = found_by(shop)
        found = replayed(self.rulebook, after, shop.cases, self.shop)
        tell_replayed(self.talk, found, shop)
        if found.count:
            self.talk.tell(say(t.NEXT_BACKTEST, file=str(file), shop=option))
        if self.talk.interactive:
            minutes = round((time.monotonic() - self.began) / 60)
            took = say_count(*t.MINUTES, count=minutes) if minutes else say(t.UNDER_ONE)
            self.talk.tell(say(t.TOOK, minutes=took))
        self.talk.tell(
            say(t.NEXT, name=self.draft.name, shop=option), say(t.NEXT_CHECK, shop=option)
        )


def _readings(rulebook: Rulebook, shop: Shop | None, slot: str) -> dict[str, float | str | None]:
    """What each case that can be read shows of a slot, as it ended; None for nothing."""
    from sootsayer.commands.moment import moment_of
    from sootsayer.judgement.workings import work_out

    found: dict[str, float | str | None] = {}
    for _, case in cases_read(rulebook, folders_of(shop)):
        if case is None:
            continue
        now = moment_of(case, at=None, as_of=None, demonstration=True)
        value = work_out(case, rulebook, now, None, shop).full.values.get(slot)
        if isinstance(value, bool):
            found[case.id] = "yes" if value else "no"
        elif isinstance(value, int | float):
            found[case.id] = float(value)
        else:
            found[case.id] = value if isinstance(value, str) else None
    return found


def _no_case() -> Case:
    from sootsayer.casework.model import Vehicle

    return Case("", "", Vehicle(""), {}, ())
