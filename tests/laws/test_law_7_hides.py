"""Law 7. A lie can hide a fault: what is hidden keeps its prior weight."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sootsayer.belief.inference import infer
from sootsayer.belief.network import Kind, Network
from sootsayer.casework.model import Source
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.network import whole_network
from tests.laws.demonstrations import closing_moment, demonstration, forgetting
from tests.laws.making_cases import Reading, rulebook, some_case
from tests.laws.outline import beliefs, outline

CERTAIN = 1 - 1e-12
LEAK = "front-hose-leaks"


def hiders() -> list[tuple[str, str]]:
    """Every hider with a family that it hides, of the shipped rulebook."""
    found = [
        (hider.fault, seen.id)
        for seen in whole_network(rulebook().model).observables
        for hider in seen.hidden_by
    ]
    assert found
    return found


def with_certain(network: Network, fault: str) -> Network:
    """The network in which `fault` is as good as known to be present."""
    faults = tuple(replace(f, prior=CERTAIN) if f.id == fault else f for f in network.faults)
    return replace(network, faults=faults)


def hiding_keeps_the_prior(hider: str, family: str) -> None:
    """With the hider present, no level of the hidden family moves any fault but nearer hiders."""
    whole = with_certain(whole_network(rulebook().model), hider)
    seen = next(o for o in whole.observables if o.id == family)
    nearer = {h.fault for h in seen.hidden_by[: [h.fault for h in seen.hidden_by].index(hider)]}
    network = replace(whole, observables=(seen,))
    before = infer(network, {}).posteriors
    for level in range(len(seen.otherwise)):
        evidence = {family: tuple(float(n == level) for n in range(len(seen.otherwise)))}
        after = infer(network, evidence).posteriors
        moved = {f for f in before if abs(before[f] - after[f]) > 1e-6}
        assert moved <= _related(network, nearer), (family, level)


def _related(network: Network, faults: set[str]) -> set[str]:
    """The faults themselves, what brings them, and all that these lead to."""
    found = set(faults)
    for _ in network.faults:
        found |= {lead.cause for lead in network.leads if lead.condition in found}
    for _ in network.faults:
        found |= {lead.condition for lead in network.leads if lead.cause in found}
    return found


def sure_of(book: Rulebook, fault: str, prior: float) -> Rulebook:
    """The rulebook in which a fault has this prior, and nothing shifts it."""
    known = replace(book.model.faults[fault], prior=prior, shifts=())
    faults = {**book.model.faults, fault: known}
    return replace(book, model=replace(book.model, faults=faults))


WARM = (
    Reading("coolant@idle", 88.0, Source.SCAN),
    Reading("regeneration-status", "not running", Source.SCAN),
)


def conditions_after(reading: float | None, prior: float) -> dict[str, float]:
    """Of a verdict: how sure each condition is at this pressure, the hose leaking with `prior`."""
    said = [] if reading is None else [Reading("dp@2500", reading, Source.SCAN)]
    told = outline(some_case([*WARM, *said]), book=sure_of(rulebook(), LEAK, prior))
    speaker = next(f.speaker for f in told.families if f.id == "restriction")
    assert (speaker is None) == (reading is None)
    posteriors, faults = beliefs(told).posteriors, rulebook().model.faults
    return {f: p for f, p in posteriors.items() if faults[f].kind is Kind.CONDITION}


def a_leaking_hose_acquits_nothing() -> None:
    """Where the hose leaks for sure, a reading of any size leaves every condition at its prior.

    But for a nearer hider, which would stand before the hose: its own links may move.
    """
    before = conditions_after(None, CERTAIN)
    for reading in (2.0, 20.0, 70.0, 150.0):
        after = conditions_after(reading, CERTAIN)
        assert after["soot-overload"] == pytest.approx(before["soot-overload"], rel=0.02), reading
        assert after["ash-full"] == pytest.approx(before["ash-full"], rel=0.02), reading


def what_is_hidden_is_as_if_never_read() -> None:
    """Where the hose was found leaking, the verdict is that of the case without its readings."""
    case = demonstration("leaking-front-hose")
    at = closing_moment(case)
    told = outline(case, at)
    assert [f.id for f in told.findings if f.set_aside and f.would_be in ("low", "normal")]
    hidden = forgetting(case, {"dp@2500", "dp@idle", "dp@rest", "soot-measured"})
    with_lie, without = beliefs(told).posteriors, beliefs(outline(hidden, at)).posteriors
    assert with_lie["soot-overload"] > 0.9
    for fault, share in without.items():
        if rulebook().model.faults[fault].kind is not Kind.MEASUREMENT:
            assert with_lie[fault] == pytest.approx(share, abs=0.02), fault


@pytest.mark.parametrize("pair", hiders(), ids="/".join)
def test_what_a_lie_hides_keeps_its_prior(pair: tuple[str, str]) -> None:
    """With the hider present, no level of the hidden family moves any fault but other hiders."""
    hiding_keeps_the_prior(*pair)


def test_a_leaking_hose_leaves_a_full_filter_possible() -> None:
    """In a whole verdict too: behind a hose that leaks, no reading moves soot or ash."""
    a_leaking_hose_acquits_nothing()


def test_the_same_reading_counts_without_the_lie() -> None:
    """The test above is about something: behind a sound hose the same readings move both."""
    before = conditions_after(None, 1e-9)
    for fault in ("soot-overload", "ash-full"):
        assert conditions_after(20.0, 1e-9)[fault] < before[fault] / 3
        assert conditions_after(150.0, 1e-9)[fault] > before[fault] * 2


def test_hidden_filter_is_judged_by_what_is_left() -> None:
    """With the hose found leaking, low pressure figures say nothing for the filter."""
    what_is_hidden_is_as_if_never_read()
