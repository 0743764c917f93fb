"""A small rulebook, and cases written in lines for it."""

from __future__ import annotations

from datetime import datetime, timedelta
from functools import cache
from pathlib import Path

from sootsayer.casework.case_file import case_of
from sootsayer.casework.model import Case
from sootsayer.casework.no_entries import parse_case
from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict import ChannelState, FindingSaid, InterlockSaid, Verdict
from sootsayer.judgement.workings import Workings, work_out
from sootsayer.rulebook.compiled import Rulebook, load_rulebook

HERE = Path(__file__).parent
NINE = datetime.fromisoformat("2031-03-14T09:00+01:00")

HEAD = """case: made
format: 1
vehicle: {label: 2.0 L panel van}
"""


@cache
def small() -> Rulebook:
    return load_rulebook([HERE / "small"])


def scan(facts: str, at: str = "09:00", round_: str = "arrival", source: str = "scan") -> str:
    return (
        f"- {{at: 2031-03-14T{at}+01:00, by: tech-1, round: {round_}, source: {source}, "
        f"facts: {{{facts}}}}}"
    )


def gauge(facts: str, at: str = "09:00") -> str:
    return scan(facts, at, source="gauge")


def done(work: str, at: str) -> str:
    return f"- {{at: 2031-03-14T{at}+01:00, by: tech-1, work: {work}}}"


def case(*lines: str, limits: str = "") -> Case:
    """A case of these entry lines; `limits` as in a header, without the braces."""
    header = HEAD + (f"limits: {{{limits}}}\n" if limits else "")
    text = header + "entries:\n" + "".join(line + "\n" for line in lines)
    return case_of(parse_case(text.encode(), "made.yaml"), small().model)


def verdict(*lines: str, minutes: float = 0, as_of: int | None = None, limits: str = "") -> Verdict:
    """The verdict `minutes` after nine o'clock."""
    now = NINE + timedelta(minutes=minutes)
    return judge(case(*lines, limits=limits), small(), now=now, as_of=as_of)


def workings(*lines: str) -> Workings:
    return work_out(case(*lines), small(), NINE, None)


def state(said: Verdict, channel: str = "dp-sensor") -> ChannelState:
    return next(c.state for c in said.channels if c.id == channel)


def finding(said: Verdict, name: str) -> FindingSaid:
    return next(f for f in said.findings if f.id == name)


def confidence(said: Verdict, fault: str) -> float:
    return next(f.confidence for f in said.faults if f.id == fault)


def interlock(said: Verdict, name: str) -> InterlockSaid:
    return next(i for p in said.permissions for i in (*p.interlocks, *p.named) if i.id == name)
