"""Synthetic cases: drawn from a rulebook's own model, closed with the faults that were drawn.

They show how tools and numbers behave. They prove nothing about vehicles: what comes out of them is
what the rulebook put in. So each is marked in its id, story, label, notes and in who says it, and
nothing that learns from cases takes them in unless it is told to.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from random import Random
from typing import Final

from sootsayer import __version__
from sootsayer.casework.append import entry_line
from sootsayer.casework.model import Case, Entry, Outcome, Vehicle
from sootsayer.engine.conditions import Value
from sootsayer.learning.archive.rows import Row
from sootsayer.learning.archive.walk import Item
from sootsayer.learning.case_of_facts import MADE_AT, case_of
from sootsayer.learning.synthetic_mark import BY, PREFIX
from sootsayer.learning.visit import Visits
from sootsayer.rulebook.compiled import PackText, rulebook_from
from sootsayer.rulebook.digests import digest_of
from sootsayer.rulebook.model import CODES, Model, Where

DONE: Final[Mapping[Where, float]] = {Where.COUNTER: 0.9, Where.SCAN: 0.8, Where.HANDS_ON: 0.5}
"""How often a check is done in a synthetic visit, whatever is wrong with the vehicle."""
EACH_FOLDER = 1000  # cases; no folder is slow to list
_BETWEEN = timedelta(minutes=4)

HEAD = """\
# SYNTHETIC: drawn from the rulebook {logic} (seed {seed}, case {number}), by sootsayer {version}.
# No such vehicle was ever met. It shows how the rulebook behaves, and proves nothing of vehicles.
case: {case}
format: 1
story: SYNTHETIC case, drawn from the rulebook's own model; no such vehicle was ever met.
vehicle: {{label: SYNTHETIC vehicle}}
entries:
"""


def name_of(seed: int, number: int, of: int) -> str:
    """The file of one of `of` cases: in one folder up to a thousand, else in folders of that."""
    file = f"{case_id(seed, number)}.yaml"
    return file if of <= EACH_FOLDER else f"{number // EACH_FOLDER:04}/{file}"


def case_id(seed: int, number: int) -> str:
    return f"{PREFIX}{seed}-{number:07}"


def numbers(seed: int, n: int) -> Iterator[Item]:
    """The files to be made, in order."""
    return (Item(name_of(seed, number, n)) for number in range(n))


@dataclass(frozen=True, slots=True)
class NoShelf:
    """What is drawn is read from nowhere."""

    def listed(self, folder: str) -> tuple[()]:  # noqa: ARG002 (of the shelf's shape)
        return ()

    def mark(self, folder: str) -> str:  # noqa: ARG002
        return ""

    def read(self, name: str) -> bytes:  # noqa: ARG002
        return b""


@dataclass(frozen=True, slots=True)
class DrawTask:
    """Draws the text of a case from its number. Each case depends on the seed and its own number
    alone, so that it is the same however many are drawn, and by however many processes."""

    packs: tuple[PackText, ...]
    seed: int

    @property
    def key(self) -> str:
        logic = rulebook_from(self.packs).digests.logic
        return digest_of(["draw", __version__, logic, self.seed])

    def worker(self) -> DrawWorker:
        return DrawWorker(self)

    def plain(self, found: str) -> str:
        return found

    def from_plain(self, plain: str) -> str:
        return plain


class DrawWorker:
    def __init__(self, task: DrawTask) -> None:
        self._seed = task.seed
        self._visits = Visits(rulebook_from(task.packs))

    def row(self, name: str, data: bytes) -> Row[str]:  # noqa: ARG002 (nothing is read)
        number = int(name.removesuffix(".yaml").rpartition("-")[2])
        return Row(name, case_id(self._seed, number), drawn_text(self._visits, self._seed, number))


def drawn_text(visits: Visits, seed: int, number: int) -> str:
    """One synthetic case as its file."""
    random = Random(f"synthetic case {seed} {number}")
    visit = visits.draw(random)
    model = visits.rulebook.model
    facts = _asked(model, visit.facts, random)
    name = case_id(seed, number)
    began = MADE_AT + timedelta(minutes=(number * 37) % (60 * 24 * 365))
    case = case_of(model, facts, Vehicle("SYNTHETIC vehicle"), began, name)
    head = HEAD.format(
        logic=model.digests.logic[:12], seed=seed, number=number, version=__version__, case=name
    )
    lines = [_line(entry, began + _BETWEEN * i) for i, entry in enumerate(case.entries)]
    lines.append(_outcome(case, visit.faults, began))
    return head + "".join(f"{line}\n" for line in lines)


def _asked(model: Model, facts: Mapping[str, Value], random: Random) -> dict[str, Value]:
    """The facts of the checks that were done, all of them if none was: a visit has a reading."""
    checks = model.checks.values()
    made = {check.id for check in checks if random.random() < DONE[check.where]}
    given: dict[str, set[str]] = {}
    for check in checks:
        for slot in check.gives:
            given.setdefault(slot, set()).add(check.id)
    asked = {
        slot: value
        for slot, value in facts.items()
        if made & given.get(CODES if slot.startswith("code:") else slot, made)
    }
    return asked or dict(facts)


def _line(entry: Entry, at: datetime) -> str:
    return entry_line(
        at=at,
        by=BY,
        round=entry.round,
        source=entry.source,
        facts={said.slot: _typed(said.value) for said in entry.said},
        codes=entry.codes,
    )


def _outcome(case: Case, faults: frozenset[str], began: datetime) -> str:
    outcome = Outcome(tuple(sorted(faults)), (), "SYNTHETIC: drawn, not confirmed")
    at = began + _BETWEEN * (len(case.entries) + 1)
    return entry_line(at=at, by=BY, outcome=outcome)


def _typed(value: Value) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.4f}".rstrip("0").rstrip(".") if value else "0"
    return str(value)
