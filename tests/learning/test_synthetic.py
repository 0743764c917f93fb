"""Synthetic cases: the same from the same seed, readable, closed, and marked everywhere."""

from __future__ import annotations

from functools import cache

from sootsayer.casework.case_file import case_of
from sootsayer.casework.model import Case
from sootsayer.casework.no_entries import parse_case
from sootsayer.learning.archive.closed import Closed, closed_of, parsed
from sootsayer.learning.archive.running import rows_of
from sootsayer.learning.synthetic import DrawTask, NoShelf, drawn_text, name_of, numbers
from sootsayer.learning.synthetic_mark import is_synthetic
from sootsayer.learning.visit import Visits
from sootsayer.rulebook.compiled import rulebook_from
from tests.laws.making_cases import rulebook
from tests.learning.archive.support import small, small_texts

SHIPPED = 12


@cache
def texts(n: int) -> tuple[str, ...]:
    visits = Visits(small())
    return tuple(drawn_text(visits, 7, number) for number in range(n))


def read(text: str) -> Case:
    return case_of(parse_case(text.encode(), "drawn.yaml"), small().model)


def test_they_can_be_read_and_are_closed() -> None:
    """Each is a case of the format with an outcome of known faults, different ones."""
    outcomes = set()
    for text in texts(30):
        document = parsed(text.encode(), "drawn.yaml")
        assert not hasattr(document, "why")
        found = closed_of(parse_case(text.encode(), "d"), small().model, synthetic=True)
        if isinstance(found, Closed):
            outcomes.add(found.outcome.faults)
    assert len(outcomes) > 3


def test_marked_everywhere() -> None:
    """In the comment, the id, the story, the label, who says so, and the outcome."""
    for text in texts(10):
        case = read(text)
        assert text.startswith("# SYNTHETIC")
        assert is_synthetic(case.id)
        assert "SYNTHETIC" in case.story
        assert "SYNTHETIC" in case.vehicle.label
        assert {entry.by for entry in case.entries} == {"synthetic"}
        last = case.entries[-1].outcome
        assert last is not None
        assert "SYNTHETIC" in last.proved_by


def test_the_same_however_they_are_drawn() -> None:
    """Case number five is the same in a run of ten and of two thousand, by one process or two."""
    task = DrawTask(small_texts(), 7)
    one, two = (
        [(row.name, row.found) for row in rows_of(task, NoShelf(), numbers(7, 40), n)]
        for n in (1, 2)
    )
    assert one == two
    assert [text for _, text in one[:30]] == list(texts(30))
    assert name_of(7, 5, 10) == "synthetic-7-0000005.yaml"
    assert name_of(7, 1005, 2000) == "0001/synthetic-7-0001005.yaml"


def test_another_seed_other_cases() -> None:
    """A seed stands for its own cases."""
    visits = Visits(small())
    assert drawn_text(visits, 8, 0).split("entries:")[1] != texts(1)[0].split("entries:")[1]


def test_by_the_shipped_rulebook() -> None:
    """Whatever can be drawn from the shipped rulebook can be read by it."""
    visits = Visits(rulebook())
    for number in range(SHIPPED):
        text = drawn_text(visits, 1, number)
        document = parse_case(text.encode(), "drawn.yaml")
        assert isinstance(closed_of(document, rulebook().model, synthetic=True), Closed)
    assert rulebook_from(small_texts()).model.digests == small().model.digests
