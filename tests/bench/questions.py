"""How long the next question takes, at every step of visits asked to their end."""

from __future__ import annotations

import time
from collections.abc import Iterator
from random import Random
from statistics import quantiles

from sootsayer.casework.model import Entry
from sootsayer.judgement.judge import judge
from sootsayer.judgement.looking import Looked, look
from sootsayer.judgement.questions import questions
from sootsayer.learning.case_of_facts import MADE_AT
from sootsayer.learning.visit import Visits
from sootsayer.rulebook.compiled import Rulebook, load_rulebook, shipped_rules
from tests.bench.asking import answered, case_asked

VISITS = 4


def rows(_: int) -> list[str]:
    book = load_rulebook([shipped_rules()])
    steps = [step for number in range(VISITS) for step in _steps(book, number)]
    for entries in steps[:3]:
        questions(_look(book, entries))  # what is built once is built now
    ahead: list[float] = []
    whole: list[float] = []
    verdicts: list[float] = []
    for entries in steps:
        start = time.process_time()
        seen = _look(book, entries)
        middle = time.process_time()
        questions(seen)
        end = time.process_time()
        ahead.append(1000 * (end - middle))
        whole.append(1000 * (end - start))
        judge(case_asked(entries), book, now=MADE_AT)
        verdicts.append(1000 * (time.process_time() - end))
    size = f"{len(book.model.checks)} checks, {len(book.model.faults)} faults"
    return [
        f"next question, {size}, {len(steps)} steps, ms: median, p95",
        _row("  choosing it, the case being looked at", ahead),
        _row("  from an answer to the next question", whole, "25"),
        _row("  a whole verdict with its next checks", verdicts),
    ]


def _steps(book: Rulebook, number: int) -> Iterator[list[Entry]]:
    """A visit's entries after each check of the customary order."""
    drawn = Visits(book).draw(Random(f"asked {number}"))
    entries: list[Entry] = []
    yield []
    for check in book.model.customary_order:
        entries = [*entries, answered(book, drawn.facts, check, len(entries) + 1)]
        yield entries


def _look(book: Rulebook, entries: list[Entry]) -> Looked:
    return look(case_asked(entries), book, now=MADE_AT)


def _row(what: str, times: list[float], aim: str = "-") -> str:
    cuts = quantiles(times, n=20)
    return f"{what:<62} {cuts[9]:>9.2f} {cuts[18]:>10.2f} {'':>9}   {aim}"
