"""The demonstration cases and the quiet corpus, each with what is expected of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from sootsayer.casework.case_file import read_case
from sootsayer.casework.model import Case
from sootsayer.judgement.judge import tell
from sootsayer.judgement.verdict import Verdict
from sootsayer.judgement.workings import Workings, work_out
from sootsayer.learning.expected import Expected
from sootsayer.learning.expected_file import expected_path, read_expected
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.shipped import shipped_cases
from tests.laws.demonstrations import closing_moment
from tests.laws.making_cases import rulebook

CASES = Path(shipped_cases())
QUIET = CASES / "quiet"


@dataclass(frozen=True, slots=True)
class Demonstrated:
    """A case, where its expectations stand, and whether it belongs to the quiet corpus."""

    case: Case
    expected: tuple[Expected, ...]
    quiet: bool


def files(folder: Path) -> list[Path]:
    return sorted(folder.glob("*.yaml"))


@cache
def demonstrated(path: Path) -> Demonstrated:
    model = rulebook().model
    expected = read_expected(expected_path(path), model)
    return Demonstrated(read_case(path, model), expected, path.parent == QUIET)


def all_demonstrated() -> Iterator[Demonstrated]:
    for path in (*files(CASES), *files(QUIET)):
        yield demonstrated(path)


def verdict_of(case: Case, expected: Expected, book: Rulebook) -> Verdict:
    """The verdict as of the stage that an expectation speaks of."""
    return told(worked_out(case, expected, book), expected)


def told(work: Workings, expected: Expected) -> Verdict:
    """The verdict, with a plan only where one is stated: it takes longer than all the rest."""
    return tell(work, proposing=False, planning=expected.of_the_plan)


def worked_out(case: Case, expected: Expected, book: Rulebook) -> Workings:
    """What that verdict is told from."""
    entry = expected.as_of
    at = closing_moment(case) if entry is None else case.entries[entry - 1].at
    return work_out(case, book, at, entry)
