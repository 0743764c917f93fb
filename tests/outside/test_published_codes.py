"""The packs' trouble codes against their published meanings (`published_codes.py`).

A code names a condition, never a part: so each one is tried alone, by what the shipped rulebook
then finds, which faults it makes likelier, and what it forbids.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict import Permitted, Verdict
from sootsayer.learning.case_of_facts import MADE_AT, case_of
from sootsayer.rulebook.compiled import shipped_rules
from tests.laws.making_cases import rulebook
from tests.outside.published_codes import MEANINGS, Meaning

CODE = re.compile(r"\b[PU][0-3][0-9A-F]{3}\b")
HARMLESS = "P1000"  # a maker's own code, which no pack names: the list was read, and this is all
LIKELIER = 1.5  # in odds
EVERY = list(MEANINGS.items())
WITH_A_FINDING = [code for code, meaning in EVERY if meaning.words]


@cache
def listed(code: str) -> Verdict:
    """With a complete list that holds this code alone."""
    case = case_of(rulebook().model, {f"code:{code}": True, f"code:{HARMLESS}": True})
    return judge(case, rulebook(), now=MADE_AT, proposing=False)


@cache
def said_by(code: str) -> dict[str, str]:
    """What the findings say that this code makes true, by finding."""
    own = {one.id for one in listed(HARMLESS).findings if one.level == "true"}
    found = listed(code).findings
    return {one.id: one.says for one in found if one.level == "true" and one.id not in own}


def times(code: str, fault: str) -> float:
    """The fault's odds with this code in the list, over those with none that a pack knows."""

    def odds(verdict: Verdict) -> float:
        confidence = next(one.confidence for one in verdict.faults if one.id == fault)
        return confidence / (1.0 - confidence)

    return odds(listed(code)) / odds(listed(HARMLESS))


def test_every_code_that_a_pack_names_has_its_meaning_here() -> None:
    """No pack names a code that is not in the table, and the table has none that no pack names."""
    packs = sorted(Path(shipped_rules()).glob("*.yaml"))
    named = {code for pack in packs for code in CODE.findall(pack.read_text("utf-8"))}
    assert len(named) > 60
    assert named == set(MEANINGS)


@pytest.mark.parametrize("code", WITH_A_FINDING)
def test_a_finding_says_what_its_code_means(code: str) -> None:
    """SAE J2012 / ISO 15031-6 (from memory): some finding that the code makes true names its
    condition."""
    said = said_by(code).values()
    assert any(word in says for word in MEANINGS[code].words for says in said), said


@pytest.mark.parametrize("code", sorted(set(MEANINGS) - set(WITH_A_FINDING)))
def test_a_code_without_a_finding_makes_none_true(code: str) -> None:
    """What stands in a proof only as the neighbour that is not meant is not meant anywhere."""
    assert said_by(code) == {}


@pytest.mark.parametrize(("code", "meaning"), EVERY)
def test_a_code_accuses_what_its_condition_is_about(code: str, meaning: Meaning) -> None:
    """SAE J2012 / ISO 15031-6 (from memory): too little is not too much, low not high, and a
    circuit says nothing of the filter behind it."""
    for fault in meaning.raises:
        assert times(code, fault) > LIKELIER, fault
    for fault in meaning.spares:
        assert times(code, fault) < LIKELIER, fault


@pytest.mark.parametrize("code", [code for code, meaning in EVERY if meaning.stops_a_burn])
def test_a_code_that_prevents_a_regeneration_forbids_one(code: str) -> None:
    """Common practice: sensors of pressure and temperature, recirculation, boost, air meter,
    flaps, fuel, glow system, thermostat and supply; the meanings as above."""
    locks = [
        lock
        for action in ("parked-regeneration", "road-regeneration")
        for permission in listed(code).permissions
        if permission.action == action
        for lock in (*permission.interlocks, *permission.named)
        if lock.id == "no-code-that-prevents"
    ]
    assert [lock.state for lock in locks] == [Permitted.BLOCKED] * 2


@pytest.mark.parametrize("code", ["P2463", "P20EE", "P24AE", HARMLESS])
def test_another_code_forbids_none(code: str) -> None:
    """Soot is what a regeneration is for; the others stop none by their meaning."""
    for permission in listed(code).permissions:
        for lock in (*permission.interlocks, *permission.named):
            if lock.id == "no-code-that-prevents":
                assert lock.state is Permitted.CLEAR


def test_no_code_proves_a_fault() -> None:
    """A code alone never makes a fault of the filter certain: it names a condition, not a part."""
    for code in MEANINGS:
        for fault in ("soot-overload", "ash-full", "core-breached", "core-removed"):
            found = next(one for one in listed(code).faults if one.id == fault)
            assert found.confidence < 0.8, (code, fault)
