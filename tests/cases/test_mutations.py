"""Small damages to the rulebook, for the packs' proofs and the cases' expectations to notice."""

from __future__ import annotations

from tests.cases.mutating import every, noticed_by

KINDS = {
    "threshold moved",
    "level swapped",
    "link dropped",
    "hides dropped",
    "negation flipped",
    "interlock removed",
}


def test_there_are_mutations_of_every_kind() -> None:
    """Thresholds, levels, links, hiders, negations and interlocks."""
    assert {each.kind for each in every()} == KINDS


def test_a_proof_and_a_case_notice_what_they_state() -> None:
    """A swapped level breaks its own proof; a link that a case names is missed there."""
    by_name = {each.name: each for each in every()}
    proof = noticed_by(by_name["level swapped: soot-load / low / due"])
    assert proof is not None
    assert "soot.yaml" in proof
    case = noticed_by(by_name["link dropped: short-trip-duty / trips-short"])
    assert case is not None
    assert case.startswith("case ")
