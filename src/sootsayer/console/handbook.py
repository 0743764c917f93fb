"""The handbook: the page of any id, and of all of a pack, for the screen and as Markdown."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from sootsayer.catalogue import say, say_count
from sootsayer.console import rules_show_texts as t
from sootsayer.console.article import Article, Book
from sootsayer.console.article_rules import (
    code_article,
    family_article,
    finding_article,
    interlock_article,
    limit_article,
    retired_article,
)
from sootsayer.console.article_things import (
    action_article,
    channel_article,
    check_article,
    fault_article,
    point_article,
    signal_article,
)
from sootsayer.console.article_work import remedy_article
from sootsayer.console.paper import BLANK, HEADING, STRONG, Line
from sootsayer.rulebook.model import Model

Maker = Callable[[Book, str], Article]
# In the order in which a reader wants them; of two things with one id (a point) the first counts.
MAKERS: dict[str, Maker] = {
    "faults": fault_article,
    "findings": finding_article,
    "families": family_article,
    "checks": check_article,
    "signals": signal_article,
    "channels": channel_article,
    "limits": limit_article,
    "interlocks": interlock_article,
    "actions": action_article,
    "remedies": remedy_article,
    "points": point_article,
    "retired": retired_article,
}


def article_of(book: Book, thing: str) -> Article | None:
    """The page of an id, of a signal at a point or of a trouble code; None where there is none."""
    for section, make in MAKERS.items():
        if thing in getattr(book.model, section):
            return make(book, thing)
    name, at, point = thing.partition("@")
    signal = book.model.signals.get(name)
    if at and signal is not None and point in signal.points:
        return signal_article(book, name)
    code = thing.removeprefix("code:").upper()
    return code_article(book, code) if code in book.model.codes else None


def everything(model: Model) -> list[str]:
    """Every id that has a page, for near misses."""
    return sorted({id_ for section in MAKERS for id_ in getattr(model, section)} | {*model.codes})


def articles_in(book: Book, pack: str) -> Iterator[Article]:
    """The pages of all that a pack declares."""
    for section, make in MAKERS.items():
        for id_, thing in getattr(book.model, section).items():
            if thing.pack == pack:
                yield make(book, id_)


def article_lines(article: Article) -> list[Line]:
    """For the screen."""
    lines = [Line(article.title, style=STRONG)]
    for part in article.parts:
        lines += [BLANK, Line(part.heading, style=HEADING)]
        lines += [Line(text, indent=2, mark="- ") for text in part.lines]
    return lines


def list_lines(book: Book, packs: int) -> list[Line]:
    """Every id with its label, by what it is."""
    lines = [Line(say_count(*t.LIST_HEAD, count=packs))]
    for section in MAKERS:
        things = getattr(book.model, section)
        if things:
            lines += [BLANK, Line(say(t.SECTION[section]), style=HEADING)]
        for id_, thing in things.items():
            label = _label(thing)
            lines.append(Line(say(t.LIST_ITEM, id=id_, label=label), indent=2))
    return lines


def _label(thing: object) -> str:
    texts = (getattr(thing, name, "") for name in ("label", "says", "does", "why"))
    return next((str(text) for text in texts if text), "")


def markdown(article: Article) -> str:
    """For the generated handbook: what comes from packs is escaped."""
    lines = [f"### {_escaped(article.title)}", ""]
    for part in article.parts:
        lines += [f"**{_escaped(part.heading)}**", ""]
        lines += [f"- {_escaped(text)}" for text in part.lines]
        lines.append("")
    return "\n".join(lines)


def _escaped(text: str) -> str:
    return re.sub(r"([\\`*_{}\[\]<>#|])", r"\\\1", text)
