"""Run by another Python, in which the program is installed: its own records, and ours again.

`python keep_and_replay.py NEW GIVEN`: keeps every demonstration case in the new ledger NEW, gives
the records of the ledger GIVEN again if there is one, and runs the proofs of the shipped packs.
Prints one line of JSON. It takes nothing from a checkout.
"""

from __future__ import annotations

import json
import sys
from datetime import UTC, datetime
from importlib.metadata import version
from pathlib import Path

import sootsayer
from sootsayer.casework.case_file import read_case
from sootsayer.learning.checked import check_rulebook
from sootsayer.ledger.adding import add
from sootsayer.ledger.chain import check
from sootsayer.ledger.folder import ledger_in
from sootsayer.ledger.gathering import gather
from sootsayer.ledger.keeping import give, verdict_body
from sootsayer.ledger.kept import keep_texts
from sootsayer.ledger.reading import records
from sootsayer.ledger.rebuilding import rebuild
from sootsayer.ledger.replaying import replay
from sootsayer.rulebook.shipped import shipped_cases, shipped_rules

AT = datetime(2031, 3, 14, 9, 0, tzinfo=UTC)


def keep_all(folder: Path) -> str:
    """Keep every demonstration case as it stood before its outcome; the head of the ledger."""
    ledger, sources = ledger_in(folder), gather(None, "en")
    book = rebuild(sources)
    keep_texts(ledger, sources.all())
    for path in sorted(shipped_cases().glob("*.yaml")):
        case = read_case(path, book.rulebook.model)
        now = [entry.at for entry in case.entries if entry.outcome is None][-1]
        given = give(path.read_bytes(), path.stem, book, sources, now=now, as_of=None, patterns=())
        add(ledger, verdict_body(given, at=AT, by="tech-1", decided=None))
    return check(ledger).head


def given_again(folder: Path) -> list[str]:
    """How each record of a ledger comes out."""
    there = ledger_in(folder)
    return [replay(there, each).again.value for each in records(there) if each.kind == "verdict"]


def main() -> None:
    new, given = map(Path, sys.argv[1:3])
    told = {
        "python": ".".join(map(str, sys.version_info[:2])),
        "from": str(Path(sootsayer.__file__).parent),
        "with": {name: version(name) for name in ("PyYAML", "jsonschema", "rich")},
        "head": keep_all(new),
        "again": given_again(given) if given.exists() else [],
        "proofs": check_rulebook([shipped_rules()]).errors,  # how many do not come out, and more
    }
    print(json.dumps(told))


if __name__ == "__main__":
    main()
