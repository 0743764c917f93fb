"""Cases of two or three rounds, written in lines for the shipped rulebook, and compared."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from sootsayer.casework.case_file import case_of
from sootsayer.casework.no_entries import parse_case
from sootsayer.judgement.compare import Comparison, compare, rounds_of
from sootsayer.judgement.workings import Workings, work_out
from sootsayer.rulebook.compiled import Rulebook, load_rulebook
from sootsayer.rulebook.shipped import shipped_rules

HEAD = """case: made
format: 1
vehicle: {label: 2.0 L panel van, engine litres: 2.0, filter litres: 2.8}
entries:
"""
HOT = "coolant@idle: 88 C, regeneration-status: not running"
PROVEN = "hose-holds-vacuum: yes, hose-blows-through: yes"


@cache
def rulebook() -> Rulebook:
    """The shipped rulebook, with two pieces of work of the tests' own."""
    return load_rulebook([shipped_rules(), Path(__file__).parent / "compare_pack"])


def read(round_: str, facts: str, at: str, source: str = "scan") -> str:
    return (
        f"- {{at: 2031-06-02T{at}+02:00, by: tech-1, round: {round_}, source: {source}, "
        f"facts: {{{facts}}}}}"
    )


def before(facts: str, at: str = "09:00") -> str:
    return read("arrival", facts, at)


def after(facts: str, at: str = "12:00") -> str:
    return read("after-work", facts, at)


def done(work: str, at: str = "10:00") -> str:
    return f"- {{at: 2031-06-02T{at}+02:00, by: tech-1, work: {work}}}"


def worked_out(*lines: str) -> Workings:
    text = HEAD + "".join(line + "\n" for line in lines)
    made = case_of(parse_case(text.encode(), "made.yaml"), rulebook().model)
    return work_out(made, rulebook(), made.entries[-1].at, None)


def compared(*lines: str) -> Comparison:
    """The first round and the newest."""
    work = worked_out(*lines)
    names = rounds_of(work)
    return compare(work, names[0], names[-1])


def why_refused(found: Comparison) -> set[str]:
    return {reason.value for refusal in found.refusals for reason in refusal.why}
