"""The verdict that `records keep` keeps: read, judged and without people."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from sootsayer.catalogue import OWN
from sootsayer.commands.find_case import find_case
from sootsayer.commands.opened import language_of, open_rulebook, open_shop
from sootsayer.rulebook.shipped import shipped_cases

if TYPE_CHECKING:
    from pathlib import Path

    from sootsayer.ledger.gathering import Sources
    from sootsayer.ledger.keeping import Given
    from sootsayer.ledger.rebuilding import Rebuilt
    from sootsayer.ledger.withholding import Pattern
    from sootsayer.rulebook.shop import Shop


def given_of(
    arguments: argparse.Namespace,
) -> tuple[Given, Shop | None, tuple[Pattern, ...], bool]:
    """The verdict, the shop, what betrays people here, and whether the case has a torn line.

    Raises Stop, Refused and OSError.
    """
    shop = open_shop(arguments.shop)
    language = language_of(arguments.language, shop)
    found = find_case(arguments.case, shipped_cases(), None if shop is None else shop.cases)

    from sootsayer.casework.no_entries import parse_case
    from sootsayer.commands.moment import as_of_entry, moment_of
    from sootsayer.documents.reading import read_bytes
    from sootsayer.ledger.gathering import gather
    from sootsayer.ledger.keeping import give, read_whole

    data = read_bytes(found.path, found.shown_as)
    parse_case(data, found.shown_as)
    sources = gather(shop, language)
    rebuilt = _rebuilt(sources, shop, language)
    case = read_whole(data, found.shown_as, rebuilt)
    entry = as_of_entry(case, arguments.as_of)
    now = moment_of(case, at=arguments.at, as_of=entry, demonstration=found.demonstration)
    patterns = patterns_for(found.path, case.id, shop)
    given = give(
        data, found.shown_as, rebuilt, sources, now=now, as_of=entry, patterns=patterns
    )  # fmt: skip
    return given, shop, patterns, case.torn is not None


def patterns_for(path: Path, case_id: str, shop: Shop | None) -> tuple[Pattern, ...]:
    """What betrays the people beside a case, and those of the shop. Raises Refused for a
    people.yaml that is none."""
    from sootsayer.casework.people import FILE_NAME, people_path, read_people
    from sootsayer.ledger.withholding import patterns_of

    people = {} if shop is None else read_people(shop.cases / FILE_NAME)
    people |= read_people(people_path(path))
    own = people.pop(case_id, None)
    return patterns_of(own, people.values())


def rebuilt_of_today(shop: Shop | None, language: str = OWN) -> Rebuilt:
    """The rulebook and settings in force now, in a language. Raises Refused."""
    from sootsayer.ledger.gathering import gather

    return _rebuilt(gather(shop, language), shop, language)


def _rebuilt(sources: Sources, shop: Shop | None, language: str) -> Rebuilt:
    """As the kept texts say; what is wrong in them is told with the places of the real files."""
    from sootsayer.documents.problems import Refused
    from sootsayer.ledger.rebuilding import rebuild

    try:
        return rebuild(sources)
    except Refused:
        open_rulebook(shop, language)
        raise
