"""Confidences and whole verdicts of the demonstration cases: how long, and how many in a second."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from statistics import quantiles

from sootsayer.belief.inference import posteriors
from sootsayer.belief.network import Evidence, Network
from sootsayer.casework.case_file import read_case
from sootsayer.casework.model import Case
from sootsayer.commands.moment import moment_of
from sootsayer.judgement.beliefs import network_of
from sootsayer.judgement.brief import brief
from sootsayer.judgement.families import families
from sootsayer.judgement.findings import findings
from sootsayer.judgement.judge import judge
from sootsayer.judgement.workings import work_out
from sootsayer.rulebook.compiled import Rulebook, load_rulebook, shipped_rules
from sootsayer.rulebook.network import whole_network
from sootsayer.rulebook.shipped import shipped_cases
from tests.bench.clock import of_calls, told

Calls = list[Callable[[], object]]


def rows(turns: int) -> list[str]:
    book = load_rulebook([shipped_rules()])
    cases = [read_case(path, book.model) for path in sorted(shipped_cases().glob("*.yaml"))]
    networks = [_network(book, case) for case in cases]
    hidden = [_with_all_that_hides(book, seen) for _, seen in networks]
    every: Calls = [partial(posteriors, network, seen) for network, seen in networks]
    lying: Calls = [partial(posteriors, network, seen) for network, seen in hidden]
    whole, short, asking = (list(_calls(book, cases, what)) for what in ("judge", "brief", "next"))
    turns = min(turns, 3)
    return [
        f"{len(cases)} demonstration cases, ms and cases a second",
        _p95("  every posterior, p95", of_calls(every, turns), "10 ms"),
        _p95("  the same, all that can be hidden seen, p95", of_calls(lying, turns), "40 ms"),
        _rate("  whole verdicts, without plan", of_calls(whole, turns), "100 a second"),
        _rate("  as a backtest judges, with the next check", of_calls(asking, turns), "-"),
        _rate("  as a backtest judges, without", of_calls(short, turns), "250 a second"),
    ]


def _calls(book: Rulebook, cases: list[Case], what: str) -> Iterator[Callable[[], object]]:
    for case in cases:
        now = moment_of(case, at=None, as_of=None, demonstration=True)
        if what == "judge":
            yield partial(judge, case, book, now=now)
        else:
            yield partial(brief, case, book, now=now, proposing=what == "next")


def _network(book: Rulebook, case: Case) -> tuple[Network, Evidence]:
    now = moment_of(case, at=None, as_of=None, demonstration=True)
    work = work_out(case, book, now, None)
    return network_of(work, families(book.model, findings(work)))


def _with_all_that_hides(book: Rulebook, seen: Evidence) -> tuple[Network, Evidence]:
    """The whole network with what was seen, and whatever can be hidden seen at its lowest level."""
    network = whole_network(book.model)
    evidence = {}
    for each in network.observables:
        levels = len(each.otherwise)
        if len(seen.get(each.id, ())) == levels:
            evidence[each.id] = seen[each.id]
        elif each.hidden_by:
            evidence[each.id] = (1.0, *[0.0] * (levels - 1))
    return network, evidence


def _p95(what: str, seconds: list[float], aim: str) -> str:
    return told(what, f"{1000 * quantiles(seconds, n=20)[18]:.1f} ms", aim)


def _rate(what: str, seconds: list[float], aim: str) -> str:
    return told(what, f"{len(seconds) / sum(seconds):.1f} a second", aim)
