"""Sessions on a little rulebook, driven line by line without a terminal."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime, timedelta
from functools import cache
from pathlib import Path

from sootsayer.casework.moments import read_moment
from sootsayer.commands.asking.beginning import begun
from sootsayer.commands.asking.state import Reply, Session, Setting
from sootsayer.commands.asking.step import opened, prompt, step
from sootsayer.console.paper import page
from sootsayer.console.screen import drawn
from sootsayer.rulebook.compiled import Rulebook, load_rulebook

RULES = Path(__file__).parent / "rules"
BEGUN = read_moment("2031-03-14T09:00+01:00")
HEADER = """\
case: van
format: 1
vehicle: {label: 2.0 L panel van, engine litres: 2.0, cylinders: 4, filter litres: 2.8}
entries:
"""


@cache
def rulebook() -> Rulebook:
    return load_rulebook([RULES])


def session(entries: str = "", now: datetime = BEGUN, *, fixed: bool = False) -> Session:
    """A session on a case with these entries."""
    setting = Setting(rulebook(), None, "van.yaml", "van", fixed=fixed)
    return begun(setting, (HEADER + entries).encode(), now)


@dataclass
class Talk:
    """A session with its clock: a minute passes with every line typed."""

    now: datetime = BEGUN
    entries: str = ""
    fixed: bool = False
    written: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.reply: Reply = opened(session(self.entries, self.now, fixed=self.fixed))

    @property
    def session(self) -> Session:
        return self.reply.session

    @property
    def prompt(self) -> str:
        return prompt(self.session)

    @property
    def said(self) -> str:
        """What was shown last, unfolded."""
        return " ".join(drawn(page(self.reply.says), width=1000).split())

    def type(self, *lines: str) -> Talk:
        """Type lines, one after another."""
        for line in lines:
            self.now += timedelta(minutes=1)
            self.reply = step(self.session, line, self.now)
            self.written += self.reply.writes
        return self

    def value(self, slot: str) -> object:
        """What stands for a slot now: a value, or the reason for none."""
        from sootsayer.casework.facts import fact_in_force, fact_sheet

        sheet = fact_sheet(self.session.case, self.session.model, in_round=self.session.round)
        fact = fact_in_force(sheet, slot)
        if fact is None:
            return None
        return fact.value if fact.absence is None else fact.absence.value
