"""No case file brings anything but a case or a refusal."""

from __future__ import annotations

import re
import time
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.casework.case_file import case_of
from sootsayer.casework.contradictions import contradictions
from sootsayer.casework.corrections import outcome, works
from sootsayer.casework.facts import fact_sheet
from sootsayer.casework.no_entries import parse_case
from sootsayer.documents.problems import Refused
from tests.casework.small_model import ARRIVAL, HEADER, START, case_text
from tests.casework.support import MODEL, case_from, case_with

GOLDEN = (Path(__file__).parent / "golden" / "case.yaml").read_text(encoding="utf-8")
TOKENS = re.findall(r"\s+|[\w.+@]+|[^\w\s]", GOLDEN)
PIECES = st.sampled_from(sorted(set(TOKENS))) | st.sampled_from(
    [
        "null",
        "~",
        "[]",
        "{}",
        "- ",
        "\n",
        "\t",
        "'",
        '"',
        "1e999",
        "9" * 60,
        "\x00",
        "é",
        "&a",
        "*a",
    ]
)


def _reads_or_refuses(text: str) -> None:
    """Read, judge every part, or be refused with places inside the file."""
    try:
        case = case_of(parse_case(text.encode(), "a.yaml"), MODEL)
    except Refused as refused:
        problems = refused.problems
    else:
        for as_of in range(len(case.entries) + 1):
            contradictions(fact_sheet(case, MODEL, as_of), MODEL)
        works(case)
        outcome(case)
        return
    assert problems
    assert all(problem.what and problem.instead for problem in problems)


@given(st.lists(st.tuples(st.integers(0, len(TOKENS) - 1), PIECES), min_size=1, max_size=4))
@settings(deadline=None, max_examples=60)
def test_golden_case_with_parts_exchanged(changes: list[tuple[int, str]]) -> None:
    """The golden case with some of its words exchanged is read or refused."""
    tokens = list(TOKENS)
    for index, piece in changes:
        tokens[index] = piece
    _reads_or_refuses("".join(tokens))


@given(st.lists(PIECES, max_size=25))
@settings(deadline=None, max_examples=40)
def test_an_entry_of_rubbish(pieces: list[str]) -> None:
    """Whatever stands in an entry, the case is read or refused."""
    _reads_or_refuses(HEADER + "- {" + "".join(pieces) + "}\n")


def test_a_long_chain_of_corrections() -> None:
    """Each correction of a correction costs the same, however long the chain is."""
    chain = [START + f"corrects: {number}, facts: {{dp@idle: 7}}}}" for number in range(1, 1500)]
    case = case_with(ARRIVAL + "facts: {dp@idle: 24}}", *chain)
    started = time.process_time()
    sheet = fact_sheet(case, MODEL)
    assert time.process_time() - started < 1.0  # a hundredth of this, walked once
    assert sheet.by_source["dp@idle"][0].entry == 1500


def test_tokens_make_the_golden_case_again() -> None:
    """The fuzz starts from a case that is right."""
    assert len(case_from("".join(TOKENS)).entries) == 10
    assert case_text() == HEADER
