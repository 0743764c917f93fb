"""The cases that rules are tried on: the demonstration cases and the shop's own."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from sootsayer.commands.case_shelf import PEOPLE, SUFFIX
from sootsayer.documents.problems import Refused
from sootsayer.rulebook.shipped import shipped_cases

if TYPE_CHECKING:
    from sootsayer.casework.model import Case
    from sootsayer.judgement.coverage import Facts
    from sootsayer.judgement.lived import Lived
    from sootsayer.rulebook.compiled import Rulebook
    from sootsayer.rulebook.shop import Shop


def case_files(folder: Path) -> list[Path]:
    """The case files of a folder by name; none where there is no folder."""
    return sorted(file for file in folder.glob("*" + SUFFIX) if file.name != PEOPLE)


def folders_of(shop: Shop | None) -> list[Path]:
    return [shipped_cases(), *(() if shop is None else (shop.cases,))]


def cases_read(rulebook: Rulebook, folders: list[Path]) -> Iterator[tuple[Path, Case | None]]:
    """Every case, None where its file cannot be read as one."""
    from sootsayer.casework.case_file import case_of
    from sootsayer.casework.no_entries import parse_case
    from sootsayer.documents.reading import read_bytes

    for folder in folders:
        for file in case_files(folder):
            try:
                document = parse_case(read_bytes(file, str(file)), str(file))
                yield file, case_of(document, rulebook.model)
            except (Refused, OSError):
                yield file, None


def lived(rulebook: Rulebook, shop: Shop | None, kind: str, id_: str) -> Lived:
    """In which cases a finding was so, or a fault led and was confirmed."""
    from sootsayer.commands.moment import moment_of
    from sootsayer.judgement.lived import Lived, in_case

    found = []
    broken = 0
    for _, case in cases_read(rulebook, folders_of(shop)):
        if case is None:
            broken += 1
        else:
            now = moment_of(case, at=None, as_of=None, demonstration=True)
            found.append(in_case(case, rulebook, now, shop, kind, id_))
    return Lived(tuple(found), broken)


def facts_of_cases(rulebook: Rulebook, shop: Shop | None) -> Iterator[Facts]:
    """What each case that can be read gives the engine, as it ended."""
    from sootsayer.commands.moment import moment_of
    from sootsayer.judgement.coverage import Facts
    from sootsayer.judgement.workings import work_out
    from sootsayer.rulebook.shop_fit import fitted

    settings = None if shop is None else fitted(shop, rulebook.model)
    for _, case in cases_read(rulebook, folders_of(shop)):
        if case is not None:
            now = moment_of(case, at=None, as_of=None, demonstration=True)
            work = work_out(case, rulebook, now, None, settings)
            yield Facts(work.trusted.values, work.limits)
