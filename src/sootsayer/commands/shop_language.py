"""A shop's `language:` that there are no words in: nothing stops, but it is told."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sootsayer.catalogue import language, say
from sootsayer.commands.leaving import complain_problems
from sootsayer.commands.tongue import Known, known_as
from sootsayer.commands.usage import short
from sootsayer.documents.problems import Problem

if TYPE_CHECKING:
    from sootsayer.rulebook.shop import Shop

NO_WORDS = 'warning: there are no words in the language "{language}" yet'
NO_WORDS_NEXT = "write one of: {known}; meanwhile the language is {used}"


def warn_of_language(shop: Shop, known: Known) -> None:
    """On stderr, with its place; nothing where there are words in it."""
    node = shop.document.root.get("language")
    if node is None or known_as(shop.language, known) is not None:
        return
    what = say(NO_WORDS, language=short(shop.language))
    instead = say(NO_WORDS_NEXT, known=", ".join(sorted(known())), used=language())
    line = shop.document.lines[node.place.line - 1]
    complain_problems([Problem(node.place, what, instead, line)])
