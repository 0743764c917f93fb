"""How long the next question takes, at every step of visits asked to their end."""

from __future__ import annotations

import gc
import time
from random import Random
from statistics import quantiles

from sootsayer.casework.model import Entry
from sootsayer.judgement.judge import judge
from sootsayer.judgement.looking import Looked, look
from sootsayer.judgement.questions import questions
from sootsayer.learning.case_of_facts import MADE_AT
from sootsayer.rulebook.compiled import Rulebook, load_rulebook, shipped_rules
from tests.bench.asking import (
    NEVER,
    State,
    answered,
    by_usefulness,
    case_asked,
    drawn_vehicle,
    walked,
)

VISITS = 4


def rows(_: int) -> list[str]:
    gc.collect()
    gc.freeze()  # what other measurements left in this process is no asker's to look through
    book = load_rulebook([shipped_rules()])
    visits = {
        f"as it is asked, until {NEVER:.0f} minutes are over": _as_asked,
        "every check, in the customary order": _to_the_end,
    }
    size = f"{len(book.model.checks)} checks, {len(book.model.faults)} faults"
    lines = [f"next question, {size}, {VISITS} visits, ms: median, p95"]
    for name, steps_of in visits.items():
        steps = [step for number in range(VISITS) for step in steps_of(book, number)]
        lines += [f"  {name}, {len(steps)} steps", *_measured(book, steps)]
    return lines


def _measured(book: Rulebook, steps: list[list[Entry]]) -> list[str]:
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
    return [
        _row("    choosing it, the case being looked at", ahead),
        _row("    from an answer to the next question", whole, "25"),
        _row("    a whole verdict with its next checks", verdicts),
    ]


def _as_asked(book: Rulebook, number: int) -> list[list[Entry]]:
    """A visit's entries before each check that the asker proposed."""
    steps: list[list[Entry]] = []

    def noting(state: State, chance: Random) -> str | None:
        steps.append(list(state.entries))
        return by_usefulness(state, chance)

    walked(book, drawn_vehicle(book, number), noting, Random(0))
    return steps


def _to_the_end(book: Rulebook, number: int) -> list[list[Entry]]:
    """A visit's entries after each check of the customary order."""
    facts = drawn_vehicle(book, number).facts
    checks = book.model.customary_order
    entries = [answered(book, facts, check, i) for i, check in enumerate(checks, start=1)]
    return [entries[:number] for number in range(len(entries) + 1)]


def _look(book: Rulebook, entries: list[Entry]) -> Looked:
    return look(case_asked(entries), book, now=MADE_AT)


def _row(what: str, times: list[float], aim: str = "-") -> str:
    cuts = quantiles(times, n=20)
    return f"{what:<62} {cuts[9]:>9.2f} {cuts[18]:>10.2f} {'':>9}   {aim}"
