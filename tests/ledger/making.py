"""Ledgers of small records, made quickly."""

from __future__ import annotations

from pathlib import Path

from sootsayer.ledger.canonical import canonical, digest_of
from sootsayer.ledger.folder import Ledger, ledger_in
from sootsayer.ledger.kept import keep_texts
from sootsayer.ledger.seal import NOTHING_BEFORE, line_of

PACK = b"pack: x\nformat: 1\n"


def body(number: int, **more: object) -> dict[str, object]:
    """A body that looks like a record and says little."""
    return {
        "kind": "verdict",
        "at": f"2031-03-14T09:{number // 60 % 60:02d}:{number % 60:02d}+01:00",
        "by": "tech-1",
        "case": {"id": f"case-{number}", "vehicle": "2.0 L panel van", "text": "x" * 40},
        "rulebook": {"packs": {"x.yaml": digest_of(PACK)}},
        **more,
    }


def ledger_of(folder: Path, count: int, **more: object) -> Ledger:
    """A ledger with so many records, written at once."""
    ledger = ledger_in(folder)
    keep_texts(ledger, [PACK])
    previous, out = NOTHING_BEFORE, []
    for number in range(1, count + 1):
        line, previous = line_of(canonical(body(number, **more)), number, previous)
        out.append(line + b"\n")
    ledger.file.write_bytes(b"".join(out))
    return ledger
