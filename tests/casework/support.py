"""Reading a case from text, and what was refused in it."""

from __future__ import annotations

import pytest

from sootsayer.casework.case_file import case_of
from sootsayer.casework.model import Case
from sootsayer.casework.no_entries import parse_case
from sootsayer.documents.problems import Problem, Refused
from tests.casework.small_model import case_text, small_model

MODEL = small_model()


def case_from(text: str) -> Case:
    """The case in `text`."""
    return case_of(parse_case(text.encode(), "a.yaml"), MODEL)


def case_with(*entries: str) -> Case:
    """A case with the usual header and these entries."""
    return case_from(case_text(*entries))


def refused(text: str) -> tuple[Problem, ...]:
    """Every problem of a case that must be refused."""
    with pytest.raises(Refused) as caught:
        case_from(text)
    return caught.value.problems


def the_problem(*entries: str) -> Problem:
    """The one problem of a case with these entries."""
    problems = refused(case_text(*entries))
    assert len(problems) == 1, problems
    return problems[0]
