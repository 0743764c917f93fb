"""A small rulebook of one fault, in which one thing after another can be changed."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from sootsayer.ledger.adding import add
from sootsayer.ledger.folder import Ledger, ledger_in
from sootsayer.ledger.gathering import Sources
from sootsayer.ledger.keeping import give, verdict_body
from sootsayer.ledger.kept import keep_texts
from sootsayer.ledger.model import Record
from sootsayer.ledger.reading import find
from sootsayer.ledger.rebuilding import rebuild

AT = datetime(2031, 3, 14, 9, 0, tzinfo=UTC)
BOOK = """\
pack: book
format: 1
title: A small rulebook
basis: {kind: common practice}
points:
  rest: {label: at rest, conditions: Key on}
signals:
  dp: {label: Pressure, kind: number, unit: mbar, possible: [-9, 99], step: 1, error: 0, at: [rest]}
  soot: {label: Soot, kind: number, unit: g, possible: [0, 200], step: 1, error: 0}
checks:
  read: {does: Read it, where: scan, minutes: 2, gives: [dp@rest, soot]}
limits:
  dp-max: {label: Highest pressure, default: 5 mbar}
  soot-max: {label: Most soot, default: 22 g}
findings:
  dp-high:
    says: Pressure is high
    when: {dp@rest: {above: dp-max}}
    proofs:
      - {given: {dp@rest: 9}, then: true}
      - {given: {dp@rest: 1}, then: false}
      - {given: {}, then: unknown}
families:
  pressure: [dp-high]
faults:
  offset: {label: Offset, kind: measurement, prior: 10 of 100}
evidence:
  - {finding: pressure, seen with: {offset: often}, otherwise: rarely}
actions:
  drive-on: {does: Drive, hurts if wrong: [filter], needs: [soot-below], caution: Gently}
interlocks:
  soot-below:
    says: Not too much soot
    when not: There is too much soot
    holds when: {soot: {at most: soot-max}}
    within: 60 minutes
    if unknown ask: [read]
    proofs:
      - {given: {soot: 3}, then: true}
      - {given: {soot: 90}, then: false}
      - {given: {}, then: unknown}
"""
CASE = """\
case: made
format: 1
story: A van.
vehicle: {label: 2.0 L panel van}
entries:
- {at: 2031-03-14T08:50Z, by: tech-1, round: arrival, source: scan, facts: {dp@rest: 8 mbar}}
- {at: 2031-03-14T08:55Z, by: tech-1, round: arrival, source: scan, facts: {soot: 20 g}}
"""


def book(*changes: tuple[str, str], settings: bytes | None = None) -> Sources:
    """The rulebook with texts replaced by others."""
    text = BOOK
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    return Sources(packs={"book.yaml": text.encode()}, settings=settings)


def kept(
    folder: Path, sources: Sources | None = None, case: str = CASE, **more: object
) -> tuple[Ledger, Record]:
    """A ledger with one more verdict in it; `more` takes the place of parts of its body."""
    sources = sources or book()
    ledger = ledger_in(folder)
    given = give(
        case.encode(), "made.yaml", rebuild(sources), sources, now=AT, as_of=None, patterns=()
    )  # fmt: skip
    keep_texts(ledger, sources.all())
    made = {**verdict_body(given, at=AT, by="tech-1", decided=[]), **more}
    return ledger, find(ledger, str(add(ledger, made).number))
