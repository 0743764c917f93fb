"""What each piece of evidence did: confidence with and without it."""

from __future__ import annotations

from sootsayer.belief.inference import Solved, beliefs_of, posteriors, solve
from sootsayer.belief.leaving_out import LeftOut
from sootsayer.belief.network import Beliefs, Evidence, Network
from sootsayer.belief.settling import TooWide


def without_each(network: Network, evidence: Evidence) -> dict[str, dict[str, float]]:
    """For each piece of evidence, in the order of ids, all posteriors with it left out.

    As exact as running again each time, which is done where nothing quicker is sound; effects
    do not add up. Raises ValueError as `posteriors` does.
    """
    try:
        solved = solve(network, evidence)
    except ValueError:  # with less evidence it may do, or will be refused there
        return {left_out: _again(network, evidence, left_out) for left_out in sorted(evidence)}
    return without_each_of(network, evidence, solved)


def with_and_without(
    network: Network, evidence: Evidence
) -> tuple[Beliefs, dict[str, dict[str, float]]]:
    """What `infer` and `without_each` say, to the bit, in less time than one after the other."""
    solved = solve(network, evidence)
    return beliefs_of(network, solved), without_each_of(network, evidence, solved)


def without_each_of(
    network: Network, evidence: Evidence, solved: Solved
) -> dict[str, dict[str, float]]:
    """What `without_each` says, of a problem solved by `solve`."""
    keys, quick = sorted(evidence), _quick(solved)
    known = {} if quick is None else quick.without(keys)
    return {key: known[key] if key in known else _again(network, evidence, key) for key in keys}


def _quick(solved: Solved) -> LeftOut | None:
    try:
        return None if solved.dropped else LeftOut(solved.problem)
    except TooWide:  # with the conditions on which nothing observed depends
        return None


def _again(network: Network, evidence: Evidence, left_out: str) -> dict[str, float]:
    return posteriors(network, {key: value for key, value in evidence.items() if key != left_out})
