"""Ids that are shown as words: every one that ships has its word, and English is the id itself."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.belief.network import Kind
from sootsayer.casework.case_file import read_case
from sootsayer.casework.model import Absence, Source
from sootsayer.catalogue import speaking
from sootsayer.console import vocabulary as v
from sootsayer.rulebook.compiled import load_rulebook, shipped_rules
from sootsayer.rulebook.frequencies import WORDS
from sootsayer.rulebook.model import BasisKind, Filling, Where
from tests.french import FRENCH

MODEL = load_rulebook([shipped_rules()]).model
CASES = sorted((Path(__file__).parents[2] / "cases").glob("*.yaml"))


def test_every_id_has_its_word() -> None:
    """Of the shipped packs and of the program's own lists, none is left out."""
    assert {tool for check in MODEL.checks.values() for tool in check.tools} <= {*v.TOOL}
    assert {hurt for action in MODEL.actions.values() for hurt in action.hurts} <= {*v.HURT}
    assert {each.value for each in Source} == {*v.SOURCE}
    assert {each.value for each in Absence} == {*v.ABSENCE}
    assert {each.value for each in Where} == {*v.WHERE}
    assert {each.value for each in Kind} == {*v.KIND}
    assert {each.value for each in BasisKind} == {*v.BASIS}
    assert {each.value for each in Filling} == {*v.FILLS}
    assert {*WORDS} == {*v.FREQUENCY}


def test_every_round_of_the_demonstration_has_its_word() -> None:
    """Rounds are named freely; those of the cases that ship are known."""
    rounds = {
        entry.round
        for file in CASES
        if file.name != "people.yaml"
        for entry in read_case(file, MODEL).entries
        if entry.round is not None
    }
    assert "arrival" in rounds
    assert rounds <= {*v.ROUND}


TABLES = [v.SOURCE, v.ABSENCE, v.WHERE, v.KIND, v.HURT, v.BASIS, v.FILLS, v.FREQUENCY, v.ROUND,
          v.TOOL]  # fmt: skip


@pytest.mark.parametrize("table", TABLES)
def test_english_is_the_id(table: dict[str, str]) -> None:
    """So nothing that is shown in English has changed."""
    assert [v.id_said(table, each) for each in table] == [*table]


def test_what_nobody_knows_stays() -> None:
    """A shop's own tool, a round that somebody named: as it is, in any language."""
    with speaking("fr", FRENCH):
        assert v.round_said("after-clean") == "après-nettoyage"
        assert v.round_said("after-the-hail") == "after-the-hail"
        assert v.tool_said("our own \x1b") == "our own \\x1b"
        assert v.absence_said("cannot") == "impossible"
