"""Strata and refused cycles against networkx."""

from __future__ import annotations

from random import Random

import networkx
import pytest

from sootsayer.engine.conditions import Any, Not, OneOf, Rule
from sootsayer.engine.program import NegativeCycle, compile_program

Reads = dict[str, dict[str, bool]]


def _graph(r: Random) -> Reads:
    names = [f"r{i:02}" for i in range(r.randrange(2, 14))]
    share = r.choice([0.4, 0.8, 1.5]) / len(names)
    return {
        name: {read: r.random() < 0.85 for read in names if r.random() < share} for name in names
    }


def _rules(reads: Reads) -> list[Rule]:
    def test(read: str, plain: bool) -> OneOf | Not:
        return OneOf(read, (True,)) if plain else Not(OneOf(read, (True,)))

    return [
        Rule(name, Any((OneOf("x", (True,)), *(test(*each) for each in found.items()))))
        for name, found in reads.items()
    ]


def test_strata_and_cycles_are_those_of_networkx() -> None:
    """Refused just when a negated read lies in a component; else strata are its generations."""
    refused = taken = cyclic = 0
    for seed in range(800):
        reads = _graph(Random(seed))
        graph = networkx.DiGraph((name, read) for name in reads for read in reads[name])
        graph.add_nodes_from(reads)
        folded = networkx.condensation(graph)
        home = folded.graph["mapping"]
        bad = {(a, b) for a in reads for b, ok in reads[a].items() if not ok and home[a] == home[b]}
        if bad:
            with pytest.raises(NegativeCycle) as found:
                compile_program(_rules(reads))
            cycle = found.value.cycle
            ring = list(zip(cycle, (*cycle[1:], cycle[0]), strict=True))
            assert all(b in reads[a] for a, b in ring), seed
            assert bad & set(ring), seed
            assert len(set(cycle)) == len(cycle), seed
            refused += 1
            continue
        program = compile_program(_rules(reads))
        generations = networkx.topological_generations(folded.reverse())
        wanted = [
            {name for part in parts for name in folded.nodes[part]["members"]}
            for parts in generations
        ]
        assert [set(stratum) for stratum in program.strata] == wanted, seed
        taken += 1
        cyclic += program.cyclic
    assert min(refused, taken, cyclic) > 40


def test_cones_are_networkx_descendants() -> None:
    """A slot's cone is itself and its descendants; its reads are the input slots among them."""
    for seed in range(200):
        reads = {name: dict.fromkeys(found, True) for name, found in _graph(Random(seed)).items()}
        graph = networkx.DiGraph((name, read) for name in reads for read in (*reads[name], "x"))
        program = compile_program(_rules(reads))
        for name in reads:
            assert program.cone([name]) == {name, *networkx.descendants(graph, name)}
            assert program.reads(name) == {"x"}
