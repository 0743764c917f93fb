"""The golden ledger and the schema of a record."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator, FormatChecker

from sootsayer.ledger.canonical import canonical, digest_of
from sootsayer.ledger.chain import check
from sootsayer.ledger.folder import ledger_in
from sootsayer.ledger.reading import records
from sootsayer.ledger.replay_model import Again
from sootsayer.ledger.replaying import replay
from sootsayer.rulebook.shipped import shipped_rules
from tests.ledger.golden_ledger import GOLDEN, make
from tests.ledger.making import ledger_of

HEAD = json.loads((GOLDEN / "ledger.jsonl").read_text("utf-8").splitlines()[-1])["digest"]
ROOT = Path(__file__).parents[2]
SCHEMAS = shipped_rules() / "schema"


def complaints(told: object, name: str = "record") -> list[str]:
    schema = json.loads((SCHEMAS / f"{name}.schema.json").read_text("utf-8"))
    checker = Draft202012Validator(schema, format_checker=FormatChecker())
    return [f"{list(e.absolute_path)}: {e.message}" for e in checker.iter_errors(told)]


def test_the_program_on_the_page_checks_it() -> None:
    """The few lines of docs/reference, with the package rfc8785, find the golden ledger's head."""
    page = (ROOT / "docs" / "reference" / "record-format.md").read_text("utf-8")
    (program,) = re.findall(r"```python\n(.*?)```", page, re.DOTALL)
    done = subprocess.run(
        [sys.executable, "-c", program, str(GOLDEN / "ledger.jsonl")],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert done.stdout.strip() == HEAD


def golden_lines() -> list[dict[str, Any]]:
    text = (GOLDEN / "ledger.jsonl").read_text("utf-8")
    return [json.loads(line) for line in text.splitlines()]


def test_the_golden_ledger_is_whole() -> None:
    """Format 1 is verified today as it was when the golden ledger was made."""
    found = check(ledger_in(GOLDEN), head=HEAD)
    assert (found.count, found.head, found.flaw, found.asked_for) == (2, HEAD, None, 2)


def test_the_golden_verdict_comes_out_again() -> None:
    """The verdict of the golden ledger, byte for byte, from what was kept with it."""
    first = next(iter(records(ledger_in(GOLDEN))))
    assert replay(ledger_in(GOLDEN), first).again is Again.SAME


def test_made_anew_it_is_the_same(tmp_path: Path) -> None:
    """The same verdict kept at the same moment by the same person is the same line."""
    made = make(tmp_path)
    assert made.file.read_bytes() == (GOLDEN / "ledger.jsonl").read_bytes()
    kept = {path.name for path in (GOLDEN / "kept").iterdir()}
    assert {path.name for path in made.kept.iterdir()} == kept


def test_the_golden_ledger_fits_its_schema() -> None:
    """Both lines are what the schema says, and the verdict in one is a verdict."""
    lines = golden_lines()
    assert [complaints(line) for line in lines] == [[], []]
    assert complaints(lines[0]["body"]["verdict"], "verdict") == []


def test_the_schema_can_refuse() -> None:
    """A name in place of an id, a short digest, a key too many are refused."""
    line = golden_lines()[0]
    for broken in (
        {**line, "digest": "12"},
        {**line, "body": {**line["body"], "by": "Jo Sample"}},
        {**line, "body": {**line["body"], "owner": "x"}},
        {key: value for key, value in line.items() if key != "body"},
        {**line, "format": 2},
    ):
        assert complaints(broken)


def test_the_digest_is_reckoned_as_the_page_says() -> None:
    """Anybody can reckon a digest with a few lines of their own: as docs/reference has them."""
    for line in golden_lines():
        body = digest_of(canonical(line["body"]))
        told = {**{key: line[key] for key in ("format", "number", "previous")}, "body": body}
        assert digest_of(canonical(told)) == line["digest"]


@pytest.mark.parametrize("cut", range(1, 60, 7))
def test_a_sample_that_is_no_record_is_seen(cut: int, tmp_path: Path) -> None:
    """The check of the golden ledger can fail: cut anywhere it is not whole."""
    ledger = ledger_of(tmp_path, 2)
    data = (GOLDEN / "ledger.jsonl").read_bytes()
    ledger.file.write_bytes(data[: len(data) * cut // 60])
    assert check(ledger).flaw is not None
