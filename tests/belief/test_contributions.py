"""With and without each piece of evidence."""

from __future__ import annotations

import math
import random

import pytest

from sootsayer.belief.contributions import BARE, weight, without_each, word
from tests.belief.random_networks import (
    enumerate_sets,
    marginal,
    random_evidence,
    random_network,
)


def test_without_each_is_exact() -> None:
    """Leaving evidence out gives what the definition gives without it, for every piece."""
    rng = random.Random(3)
    network = random_network(rng, faults=6)
    evidence = random_evidence(rng, network)
    found = without_each(network, evidence)
    assert list(found) == sorted(evidence)
    for left_out, posteriors in found.items():
        rest = {key: value for key, value in evidence.items() if key != left_out}
        sets = enumerate_sets(network, rest)
        for fault, p in posteriors.items():
            assert p == pytest.approx(marginal(sets, fault), abs=1e-12)


def test_weight_is_the_odds_ratio_either_way() -> None:
    """Evidence for and evidence against of the same strength have the same weight."""
    assert weight(0.8, 0.5) == pytest.approx(4.0)
    assert weight(0.5, 0.8) == pytest.approx(4.0)
    assert weight(0.3, 0.3) == weight(0.0, 0.0) == weight(1.0, 1.0) == 1.0
    assert weight(1.0, 0.3) == weight(0.0, 0.3) == math.inf


def test_no_weight_from_what_is_no_probability() -> None:
    """Numbers outside 0 to 1 are refused, and so is the word for a weight below 1."""
    with pytest.raises(ValueError, match="no weight"):
        weight(1.2, 0.5)
    with pytest.raises(ValueError, match="1 or more"):
        word(0.9)
    assert word(1.0) == BARE
