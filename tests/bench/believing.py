"""Every posterior of the shipped network, beside pgmpy with one query a fault."""

from __future__ import annotations

import logging
import warnings
from random import Random

from sootsayer.belief.inference import infer, posteriors
from sootsayer.belief.network import Network
from tests.bench.clock import of_calls, row
from tests.outside.test_shipped_rulebook_pgmpy import Reference, random_readings, written_out

SETS = 8


def rows(turns: int) -> list[str]:
    logging.disable(logging.CRITICAL)
    warnings.simplefilter("ignore")
    network = written_out()
    sets = [random_readings(Random(f"shipped {seed}"), network) for seed in range(SETS)]
    references = [Reference(network, each) for each in sets]

    def ours() -> None:
        for each in sets:
            posteriors(network, each)

    def everything() -> None:
        for each in sets:
            infer(network, each)

    def theirs() -> None:
        for reference in references:
            for fault in network.faults:
                reference.probability(fault.id)

    alone, whole, pgmpy = (x / SETS for x in of_calls([ours, everything, theirs], turns))
    few = sum(map(len, sets)) / SETS
    return [
        row(f"posteriors, {few:.1f} readings of {_size(network)} : pgmpy", alone, pgmpy, "1/50"),
        row("the same, with candidates and `none` : pgmpy", whole, pgmpy),
    ]


def _size(network: Network) -> str:
    return f"{len(network.faults)} faults, {len(network.observables)} families"
