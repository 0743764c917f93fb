"""The golden ledger: a verdict and its outcome, kept when format 1 was made.

Run as a program (`python -m tests.ledger.golden_ledger`) it is written anew. Only a change that is
meant to change verdicts, or an error in the format, is a reason to do so.
"""

from __future__ import annotations

import shutil
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from sootsayer.casework.append import entry_line
from sootsayer.casework.model import Outcome
from sootsayer.ledger.adding import add
from sootsayer.ledger.folder import Ledger, ledger_in
from sootsayer.ledger.gathering import Sources
from sootsayer.ledger.keeping import Decided, Given, give, verdict_body
from sootsayer.ledger.kept import keep_texts
from sootsayer.ledger.outcome import Confirmed, outcome_body
from sootsayer.ledger.reading import find
from sootsayer.ledger.rebuilding import case_again, rebuild

GOLDEN = Path(__file__).parent / "golden"
FROZEN = Path(__file__).parents[1] / "laws" / "golden"
AT = datetime(2031, 3, 14, 8, 20, tzinfo=UTC)
SHOP = b'format: 1\nname: "(name)"\nlanguage: en\n'


def sources(*, shop: bytes | None = SHOP) -> Sources:
    """The frozen rulebook."""
    packs = {path.name: path.read_bytes() for path in sorted((FROZEN / "rules").glob("*.yaml"))}
    return Sources(packs=packs, settings=shop)


def case_text() -> bytes:
    return (FROZEN / "case.yaml").read_bytes()


def use_frozen(patch: pytest.MonkeyPatch, folder: Path, name: str = "sensor-offset") -> None:
    """Commands find the frozen rulebook and, under this name, the frozen case as if these had come
    with the program: what is tested of commands needs no big rulebook."""
    cases = folder / "shipped"
    cases.mkdir()
    text = case_text().replace(b"case: frozen-case", f"case: {name}".encode())
    (cases / f"{name}.yaml").write_bytes(text)
    for where in ("ledger.gathering", "commands.opened"):
        patch.setattr(f"sootsayer.{where}.shipped_rules", lambda: FROZEN / "rules")
    for where in ("commands.records_given", "commands.opened", "rulebook.shipped"):
        patch.setattr(f"sootsayer.{where}.shipped_cases", lambda: cases)


def given(**more: object) -> Given:
    """The verdict on the frozen case."""
    told = {"now": AT, "as_of": None, "patterns": (), **more}
    return give(case_text(), "case.yaml", rebuild(sources()), sources(), **told)  # type: ignore[arg-type]


def make(folder: Path) -> Ledger:
    """A ledger of two records in an empty folder."""
    ledger = ledger_in(folder)
    kept = given()
    keep_texts(ledger, kept.sources.all())
    decided = [Decided("filter cleaned off the vehicle first", "a loan vehicle stood ready")]
    add(ledger, verdict_body(kept, at=AT, by="tech-1", decided=decided))
    outcome = Outcome(("sensor-offset",), ("zero-sensor",), "recheck")
    later = AT + timedelta(days=2)
    text = case_text() + (
        entry_line(at=later, by="tech-1", work="zero-sensor") + "\n"
        + entry_line(at=later, by="tech-1", outcome=outcome) + "\n"
    ).encode()  # fmt: skip
    case = case_again(text, rebuild(sources()), "case.yaml")
    found = Confirmed(outcome, len(case.entries))
    add(ledger, outcome_body(find(ledger, "1"), case, found, at=later, by="tech-1"))
    return ledger


if __name__ == "__main__":
    shutil.rmtree(GOLDEN / "kept", ignore_errors=True)
    (GOLDEN / "ledger.jsonl").unlink(missing_ok=True)
    make(GOLDEN)
