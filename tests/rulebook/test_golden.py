"""The pack with one of everything reads to the model that is stored beside it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from sootsayer.engine.conditions import NOT_FITTED, Value
from sootsayer.rulebook.compiled import Rulebook, load_rulebook
from sootsayer.rulebook.model import FindingDef, Proof
from tests.rulebook.bad_packs import GOLDEN, SHOP
from tests.rulebook.dumps import dump

STORED = GOLDEN / "one-of-everything.json"


@pytest.fixture(scope="module")
def rulebook() -> Rulebook:
    return load_rulebook([GOLDEN])


def test_model_is_as_stored(rulebook: Rulebook) -> None:
    """Every section of the pack reads to the stored model, places and digests included."""
    assert dump(rulebook.model) == json.loads(STORED.read_text(encoding="utf-8"))


def test_every_section_is_there(rulebook: Rulebook) -> None:
    """The golden packs leave no part of the model empty."""
    whole = load_rulebook([GOLDEN, SHOP / "packs"])
    assert {*dump(rulebook.model)} == {*dump(whole.model)}
    for name, part in dump(whole.model).items():
        assert part, name


def test_ids_are_sorted(rulebook: Rulebook) -> None:
    """Every mapping of the model has its ids in sorted order."""
    model = rulebook.model
    for part in (
        *(model.signals, model.points, model.findings, model.faults, model.evidence),
        *(model.quantities, model.remedies, model.retired),
    ):
        assert list(part) == sorted(part)


def test_program_has_its_named_slots(rulebook: Rulebook) -> None:
    """The program derives findings, interlocks, what applies, and shifts, under their names."""
    assert set(rulebook.program.order) == {
        *rulebook.model.findings,
        "interlock:oil-good",
        "interlock:pressure-bearable",
        "applies:interlock:pressure-bearable",
        "applies:check:read-dp-running",
        "applies:fault:short-trips",
        "applies:remedy:drive-hot",
        "shift:short-trips:0",
        "shift:short-trips:1",
    }


def test_tests_are_the_cone_of_the_channel_tests(rulebook: Rulebook) -> None:
    """The program of tests derives the finding that tests a channel and nothing else."""
    assert rulebook.tests.order == ("dp-not-zero",)


def test_limits_in_other_units_are_brought_over(rulebook: Rulebook) -> None:
    """A limit of 1.1 kPa cuts a reading in mbar at 11 mbar."""
    limits = {limit.id: limit.default for limit in rulebook.model.limits.values()}
    for reading, level in ((10.9, "normal"), (11.0, "raised")):
        derived = rulebook.program.run({"dp@idle": reading}, limits)
        assert derived["restriction-at-idle"] == level


def test_not_fitted_is_false_in_applies(rulebook: Rulebook) -> None:
    """In `applies when` a comparison with what is not fitted is false, not unknown."""
    limits = {limit.id: limit.default for limit in rulebook.model.limits.values()}
    derived = rulebook.program.run({"oil-smells": NOT_FITTED}, limits)
    assert derived["applies:fault:short-trips"] is False


def _facts(rulebook: Rulebook, proof: Proof) -> dict[str, Value]:
    facts = dict(proof.given)
    if proof.codes is not None:
        facts.update({f"code:{code}": code in proof.codes for code in rulebook.model.codes})
    return facts


def test_proofs_hold(rulebook: Rulebook) -> None:
    """Every proof of the golden pack comes out as it says."""
    limits = {limit.id: limit.default for limit in rulebook.model.limits.values()}
    run = 0
    for finding in rulebook.model.findings.values():
        for proof in finding.proofs:
            derived = rulebook.program.run(_facts(rulebook, proof), limits)
            assert derived[finding.id] == proof.then, f"{finding.id} at {proof.place}"
            run += 1
    assert run == 17


def test_given_units_are_converted(rulebook: Rulebook) -> None:
    """A proof's 18 hPa are 18 mbar."""
    finding: FindingDef = rulebook.model.findings["dp-not-zero"]
    assert finding.proofs[0].given == {"dp@rest": 18.0}


def test_files_are_shown_as_named() -> None:
    """Places name the pack file as it was found."""
    model = load_rulebook([GOLDEN]).model
    assert Path(model.limits["air-min"].place.file) == GOLDEN / "one-of-everything.yaml"
