"""`sootsayer rules show [ID]`: the handbook page of anything that has an id."""

from __future__ import annotations

import argparse
import sys
from typing import TYPE_CHECKING

from sootsayer.catalogue import Said, say
from sootsayer.commands.leaving import DONE, Stop
from sootsayer.commands.usage import add_language, short
from sootsayer.console.output import write

if TYPE_CHECKING:
    from sootsayer.console.article import Article, Book
    from sootsayer.console.paper import Line
    from sootsayer.rulebook.compiled import Rulebook
    from sootsayer.rulebook.shop import Shop

SUMMARY = "show what the rules say of one thing: its handbook page"
DESCRIPTION = """\
The handbook page of a fault, finding, signal, check, remedy or anything else with an
id: what it says as a sentence, how we know, its proofs, who uses it, in which cases
it was so and how often that was right."""
EXAMPLE = """\
example:
  sootsayer rules show soot-overload
      a fault: how frequent, what shows it, what leads to it, what mends it
  sootsayer rules show dp-rest-max
      a limit: its number, how we know, and the rules that name it
  sootsayer rules show
      every id there is

ID may also be a signal at a point (dp@idle) or a trouble code (P2463)."""


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument(
        "thing", metavar="ID", nargs="?", help=say("any id; without one, all of them")
    )
    parser.add_argument("--json", action="store_true", help=say("print it as JSON, for a program"))
    parser.add_argument(
        "--no-cases", action="store_true", help=say("leave out in which cases it was so")
    )
    parser.add_argument(
        "--shop", metavar="DIR",
        help=say("the shop's own folder (else SOOTSAYER_SHOP, else the nearest shop.yaml upward)"),
    )  # fmt: skip
    add_language(parser)


def run(arguments: argparse.Namespace) -> int:
    """Show. Raises Stop, Refused and OSError."""
    from sootsayer.commands.opened import language_of, open_rulebook, open_shop
    from sootsayer.console.article import book_of
    from sootsayer.console.handbook import article_of, list_lines

    settings = open_shop(arguments.shop)
    language = language_of(arguments.language, settings)
    rulebook, shop = open_rulebook(settings, language)
    book = book_of(rulebook.model)
    if arguments.thing is None:
        if arguments.json:
            return _json_list(rulebook)
        packs = len({finding.pack for finding in rulebook.model.findings.values()})
        _draw(list_lines(book, packs))
        return DONE
    article = article_of(book, arguments.thing)
    if article is None:
        raise _no_thing(rulebook, arguments.thing)
    if not arguments.no_cases:
        article = _with_cases(article, book, rulebook, shop)
    if arguments.json:
        return _json(article)
    from sootsayer.console.handbook import article_lines

    _draw(article_lines(article))
    return DONE


def _with_cases(article: Article, book: Book, rulebook: Rulebook, shop: Shop | None) -> Article:
    from dataclasses import replace

    from sootsayer.commands.rules_cases import lived
    from sootsayer.console.article_cases import cases_part

    part = cases_part(article, book, lived(rulebook, shop, article.kind, article.id))
    return replace(article, parts=(*article.parts, part)) if part.lines else article


def _json(article: Article) -> int:
    from sootsayer.commands.opened import as_text

    parts = {part.heading: list(part.lines) for part in article.parts}
    told = {
        "format": 1, "id": article.id, "kind": article.kind, "pack": article.pack,
        "title": article.title, "parts": parts,
    }  # fmt: skip
    write(as_text(dict(told)), sys.stdout)
    return DONE


def _json_list(rulebook: Rulebook) -> int:
    from sootsayer.commands.opened import as_text
    from sootsayer.console.handbook import everything

    write(as_text({"format": 1, "ids": list(everything(rulebook.model))}), sys.stdout)
    return DONE


def _draw(lines: list[Line]) -> None:
    from sootsayer.console.paper import page
    from sootsayer.console.screen import show

    show(page(lines), sys.stdout)


def _no_thing(rulebook: Rulebook, thing: str) -> Stop:
    from sootsayer.console import rules_show_texts as t
    from sootsayer.console.handbook import everything
    from sootsayer.documents.problems import did_you_mean

    near = did_you_mean(thing, everything(rulebook.model))
    instead = say(t.NEAR, near=Said(near)) if near else say(t.ALL_IDS)
    return Stop(say(t.NO_THING, thing=short(thing)), instead)
