"""The demonstration cases, read with the shipped rulebook."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from sootsayer.casework.case_file import read_case
from sootsayer.casework.model import Case
from sootsayer.rulebook.compiled import shipped_cases
from tests.laws.making_cases import rulebook

NAMES = tuple(sorted(path.stem for path in Path(shipped_cases()).glob("*.yaml")))


def demonstration(name: str) -> Case:
    return read_case(Path(shipped_cases()) / f"{name}.yaml", rulebook().model)


def closing_moment(case: Case) -> datetime:
    """The time of the last entry before the outcome."""
    return [entry.at for entry in case.entries if entry.outcome is None][-1]
