"""A case and the rulebook in force, read for a command."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime

from sootsayer.casework.case_file import read_case
from sootsayer.casework.model import Case
from sootsayer.commands.find_case import find_case
from sootsayer.commands.moment import as_of_entry, moment_of
from sootsayer.rulebook.compiled import Rulebook, load_rulebook
from sootsayer.rulebook.shipped import shipped_cases, shipped_rules


@dataclass(frozen=True, slots=True)
class Opened:
    """What a verdict needs: the case, the rulebook, the moment, and the entry to judge as of."""

    case: Case
    rulebook: Rulebook
    now: datetime
    as_of: int | None


def open_case(case: str, *, at: str | None, as_of: str | None) -> Opened:
    """Read all that a command on one case needs. Raises Stop, Refused and OSError."""
    found = find_case(case, shipped_cases())
    rulebook = load_rulebook([shipped_rules()])
    read = read_case(found.path, rulebook.model, shown_as=found.shown_as)
    entry = as_of_entry(read, as_of)
    now = moment_of(read, at=at, as_of=entry, demonstration=found.demonstration)
    return Opened(read, rulebook, now, entry)


def as_text(plain: dict[str, object]) -> str:
    """JSON in plain ASCII, so that no terminal and no encoding can stumble over it."""
    text = json.dumps(plain, indent=2, ensure_ascii=True, allow_nan=False)
    return text.replace("\x7f", "\\u007f") + "\n"
