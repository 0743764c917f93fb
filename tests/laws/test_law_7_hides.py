"""Law 7. A lie can hide a fault: what is hidden keeps its prior weight."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sootsayer.belief.inference import infer
from sootsayer.belief.network import Network
from sootsayer.rulebook.network import whole_network
from tests.laws.making_cases import rulebook

CERTAIN = 1 - 1e-12


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


@pytest.mark.parametrize("pair", hiders(), ids="/".join)
def test_what_a_lie_hides_keeps_its_prior(pair: tuple[str, str]) -> None:
    """With the hider present, no level of the hidden family moves any fault but other hiders."""
    hider, family = pair
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
    """The faults themselves and what they lead to or come from."""
    found = set(faults)
    for lead in network.leads:
        if lead.cause in faults or lead.condition in faults:
            found |= {lead.cause, lead.condition}
    return found
