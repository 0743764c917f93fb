"""Whatever lies in an archive, a row comes of it, and memory does not grow with its size."""

from __future__ import annotations

import tracemalloc
from collections.abc import Iterator
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.belief.network import Kind
from sootsayer.learning.archive import counted
from sootsayer.learning.archive.closed import Left
from sootsayer.learning.archive.rows import Row, as_line, from_line
from sootsayer.learning.backtest.task import BacktestWorker
from sootsayer.learning.leading import Leading
from sootsayer.learning.rates.found import Observed
from sootsayer.learning.rates.tally import tallied
from sootsayer.learning.rates.task import RatesTask, RatesWorker
from tests.learning.archive.support import BLOCKED, case_text, small, small_texts, tried

TASK = tried(("default: 22 g", "default: 44 g"), every_entry=True, synthetic=True)
RATES = RatesTask(small_texts())
WHOLE = case_text("a", BLOCKED, ["blocked", "short-duty"]).encode()
NAMED = 50
SPLICES = st.lists(st.tuples(st.integers(0, len(WHOLE)), st.integers(0, 9), st.binary(max_size=9)))


@cache
def workers() -> tuple[BacktestWorker, RatesWorker]:
    return TASK.worker(), RATES.worker()


def a_row_comes(data: bytes) -> None:
    backtest, rates = workers()
    row = backtest.row("a.yaml", data)
    assert from_line(TASK, as_line(TASK, row, "")) == (row, "")
    other = rates.row("a.yaml", data)
    assert from_line(RATES, as_line(RATES, other, "")) == (other, "")
    assert (row.left is Left.NOT_JUDGED) == (other.left is Left.NOT_JUDGED)
    if row.left is Left.NOT_JUDGED:
        assert row.detail == "nothing was entered before its outcome"


@settings(deadline=None, max_examples=60)
@given(st.binary(max_size=200))
def test_any_bytes(data: bytes) -> None:
    """Noise is a broken file."""
    a_row_comes(data)


@settings(deadline=None, max_examples=120)
@given(SPLICES)
def test_a_spoilt_case(splices: list[tuple[int, int, bytes]]) -> None:
    """A case with bytes cut out and put in is judged, or left out with a reason."""
    data = WHOLE
    for at, cut, more in splices:
        data = data[:at] + more + data[at + cut :]
    a_row_comes(data)


def many(n: int) -> Iterator[Row[Observed]]:
    """So many rows, one in ten broken."""
    leads = (Leading(Kind.CONDITION, "blocked", 0.7, True),)
    found = Observed(("blocked",), (("restriction", "high"),), (("blocked", 0.7),), leads)
    for i in range(n):
        if i % 10:
            yield Row(f"{i}.yaml", f"case-{i}", found)
        else:
            yield Row(f"{i}.yaml", "", None, Left.BROKEN, "1:1: nothing")


def peak(n: int) -> int:
    tracemalloc.start()
    try:
        tally = tallied(small().model, many(n))
        return tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
        assert tally.archive.files == n
        assert len(tally.archive.named) == min(n // 10, NAMED)


def test_flat_memory(monkeypatch: pytest.MonkeyPatch) -> None:
    """Five times as many cases need no more memory, once the first are named."""
    monkeypatch.setattr(counted, "NAMED", NAMED)
    few, more = peak(NAMED * 20), peak(NAMED * 100)
    assert more < few * 1.1
