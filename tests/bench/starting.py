"""A cold `judge`, a whole process, beside importing the three things that it depends on.

With the compiled rulebook kept and without, and each without the judging itself: what is left is
starting, reading and drawing.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from tempfile import TemporaryDirectory

from sootsayer.rulebook.kept_folder import OFF, VARIABLE
from tests.bench.clock import of_calls, of_processes, row

IMPORTS = "import yaml, jsonschema, rich"
CASE = "blocked-by-short-trips"
USED = "import yaml, jsonschema, rich.console, rich.text"


def rows(turns: int) -> list[str]:
    judge = ["-m", "sootsayer", "judge", CASE]
    with TemporaryDirectory() as folder, _cache(folder):
        kept, bare, used, python = of_processes(
            [judge, ["-c", IMPORTS], ["-c", USED], ["-c", "pass"]], turns
        )
    with _cache(OFF):
        read, bare_again = of_processes([judge, ["-c", IMPORTS]], turns)
        judging = _judging(turns)
    return [
        row("cold judge, rulebook kept : importing PyYAML, jsonschema, rich", kept, bare, "1.4"),
        row("the same without the judging itself", kept - judging, bare),
        row("cold judge, rulebook kept : the same with rich's console", kept, used),
        row("cold judge, rulebook kept : an empty Python", kept, python),
        row("cold judge, nothing kept : importing the three", read, bare_again, "3.2"),
        row("the same without the judging itself", read - judging, bare_again),
    ]


def _judging(turns: int) -> float:
    """Seconds that the verdict itself takes, with everything read and imported."""
    from sootsayer.casework.case_file import read_case
    from sootsayer.commands.moment import moment_of
    from sootsayer.judgement.judge import judge
    from sootsayer.rulebook.compiled import load_rulebook, shipped_cases, shipped_rules

    book = load_rulebook([shipped_rules()])
    case = read_case(shipped_cases() / f"{CASE}.yaml", book.model)
    now = moment_of(case, at=None, as_of=None, demonstration=True)
    (seconds,) = of_calls([lambda: judge(case, book, now=now)], turns)
    return seconds


@contextmanager
def _cache(said: str) -> Iterator[None]:
    before = os.environ.get(VARIABLE)
    os.environ[VARIABLE] = said
    try:
        yield
    finally:
        os.environ.pop(VARIABLE)
        if before is not None:
            os.environ[VARIABLE] = before
