"""Proofs are run: of findings, interlocks, shifts, and of what applies."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.documents.problems import Refused
from sootsayer.judgement.proofs import failed_proofs, proofs_by_slot
from sootsayer.rulebook.compiled import Rulebook, load_rulebook
from tests.rulebook.bad_packs import GOLDEN

PACK = (GOLDEN / "one-of-everything.yaml").read_text(encoding="utf-8")


def loaded(folder: Path, text: str) -> Rulebook:
    (folder / "one-of-everything.yaml").write_text(text, encoding="utf-8")
    return load_rulebook([folder])


def test_every_proof_of_the_golden_pack_comes_out() -> None:
    """All of them are run, and none fails."""
    rulebook = load_rulebook([GOLDEN])
    assert sum(len(proofs) for _, proofs in proofs_by_slot(rulebook.model)) == 29
    assert failed_proofs(rulebook) == ()


@pytest.mark.parametrize(
    ("old", "new", "slot"),
    [
        ("holds when: {dp@idle: {below: 2 kPa", "holds when: {dp@idle: {at most: 2 kPa",
         "interlock:pressure-bearable"),
        ("applies when: {known: dp@idle}", "applies when: {known: air@idle}",
         "applies:interlock:pressure-bearable"),
        ("{attempts: {at least: 3}}, times: 3", "{attempts: {above: 3}}, times: 3",
         "shift:short-trips:0"),
        ("applies when: {oil-smells: no}", "applies when: {oil-smells: yes}",
         "applies:fault:short-trips"),
        ("applies when: {known: dp@rest}", "applies when: {known: dp@idle}",
         "applies:check:read-dp-running"),
        ("applies when: {not: {additive: low}}\n    applies proofs",
         "applies when: {additive: low}\n    applies proofs", "applies:remedy:drive-hot"),
        ("outside: [-5, dp-rest-max]", "outside: [-5, 20]", "dp-not-zero"),
    ],
)  # fmt: skip
def test_a_changed_condition_is_noticed(tmp_path: Path, old: str, new: str, slot: str) -> None:
    """A condition that says something else fails a proof of its own, and of no other."""
    assert PACK.count(old) == 1
    failed = failed_proofs(loaded(tmp_path, PACK.replace(old, new)))
    assert {each.slot for each in failed} == {slot}


def test_applies_proofs_need_what_they_prove(tmp_path: Path) -> None:
    """Examples of a condition that is not there are refused, at their line."""
    text = PACK.replace("    applies when: {oil-smells: no}\n", "")
    with pytest.raises(Refused) as refused:
        loaded(tmp_path, text)
    (problem,) = refused.value.problems
    assert "stands without `applies when`" in str(problem)
    assert text.splitlines()[problem.place.line - 1].strip().startswith("applies proofs")
