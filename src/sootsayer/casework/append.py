"""An entry as one line of the case file, and appending it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from pathlib import Path

from sootsayer.casework.model import Absence, CodeList, Entry, Outcome, Source
from sootsayer.casework.moments import write_moment
from sootsayer.catalogue import say
from sootsayer.documents.characters import FORBIDDEN
from sootsayer.documents.problems import Refused
from sootsayer.documents.reading import read_bytes
from sootsayer.documents.torn import split_torn
from sootsayer.documents.writing import CannotWrite, append_lines

# What YAML, the loader and a reader can only take as this very text. Everything else is
# quoted: braces, commas, colons, quotes, marks of any script, leading and trailing blanks.
_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9_./%@+-]*( [A-Za-z0-9_./%@+-]+)*")
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?")
_NOT_TEXT = frozenset({"true", "false", "null", "yes", "no", "on", "off", "y", "n", "none"})
_LONGEST_NUMBER = 40


def entry_line(
    *,
    at: datetime,
    by: str,
    round: str | None = None,  # noqa: A002 (the word of the format)
    source: Source | None = None,
    facts: Mapping[str, str] | None = None,
    none: Mapping[str, Absence] | None = None,
    codes: CodeList | None = None,
    corrects: int | None = None,
    work: str | None = None,
    note: str | None = None,
    outcome: Outcome | None = None,
) -> str:
    """One flow mapping, `- {...}`, without newline, that reads back to the same entry.

    `facts` are typed texts by slot ("18 hPa", "24", "gradual", "yes"). Characters that no
    case file may hold (control characters, tabs) become spaces. Raises ValueError for a
    moment without offset.
    """
    parts = [("at", write_moment(at)), ("by", plain_or_quoted(by))]
    if corrects is not None:
        parts.append(("corrects", str(corrects)))
    if round is not None:
        parts.append(("round", plain_or_quoted(round)))
    if source is not None:
        parts.append(("source", source.value))
    if facts:
        parts.append(
            ("facts", _flow((plain_or_quoted(slot), _typed(facts[slot])) for slot in facts))
        )
    if none:
        parts.append(("none", _flow((plain_or_quoted(slot), none[slot].value) for slot in none)))
    if codes is not None:
        parts.append(("codes", _codes(codes)))
    if work is not None:
        parts.append(("work", plain_or_quoted(work)))
    if note is not None:
        parts.append(("note", plain_or_quoted(note)))
    if outcome is not None:
        parts.append(("outcome", _outcome(outcome)))
    return f"- {_flow(parts)}"


def line_of(entry: Entry) -> str:
    """The line of an entry as read; a correction names neither round nor source."""
    own = entry.corrects is None
    return entry_line(
        at=entry.at,
        by=entry.by,
        round=entry.round if own else None,
        source=entry.source if own and entry.source is not Source.TECHNICIAN else None,
        facts={said.slot: said.typed for said in entry.said if said.absence is None},
        none={said.slot: said.absence for said in entry.said if said.absence is not None},
        codes=entry.codes,
        corrects=entry.corrects,
        work=entry.work,
        note=entry.note,
        outcome=entry.outcome,
    )


def append_entry(path: Path, line: str) -> None:
    """Append one entry's line and flush it to the disk; a torn last line is moved away first.

    A link is followed: the file that it names grows, and the link stays a link. Raises
    ValueError for anything but one line that begins with `- {`, and documents.CannotWrite
    where the file is missing, cannot be written, or holds something behind which an entry
    would be no entry (`entries: []`, indented entries, another key).
    """
    append_entries(path, (line,))


def append_entries(path: Path, lines: Sequence[str], *, was: bytes | None = None) -> None:
    """As `append_entry`, for several entries in one write: all of them or none.

    With `was`, the content that the caller had read, raises documents.Changed where the file
    holds anything else by now.
    """
    for line in lines:
        if not line.startswith("- {") or not line.endswith("}") or "\n" in line or "\r" in line:
            raise ValueError("an entry is one line that begins with `- {` and ends with `}`")
    _refuse_no_room(path)
    append_lines(path, lines, create=False, was=was)


def _refuse_no_room(path: Path) -> None:
    """An entry appended where no entry can stand would be acknowledged and never read."""
    try:
        data = read_bytes(path, path.name)
    except Refused:
        return  # the writer says what is wrong with the file itself
    lines = split_torn(data)[0].decode("utf-8", errors="replace").split("\n")
    keys = [i for i, line in enumerate(lines) if line.startswith("entries:")]
    if not keys:
        raise CannotWrite(path, say("it has no line `entries:`; write that as its last line"))
    beside = lines[keys[-1]].removeprefix("entries:").strip()
    if beside and not beside.startswith("#"):
        why = say(
            "no entry can follow `{line}`; write `entries:` alone on its line",
            line=lines[keys[-1]].strip()[:40],
        )
        raise CannotWrite(path, why)
    for number, text in enumerate(lines[keys[-1] + 1 :], start=keys[-1] + 2):
        if text.strip() and not text.startswith(("- {", "#")):
            why = say(
                "no entry can follow line {number}, which is none; begin entries with `- {{`",
                number=number,
            )
            raise CannotWrite(path, why)


def quoted(text: str) -> str:
    """`text` as a YAML double-quoted scalar on one line.

    Everything outside printable characters is escaped; what the loader refuses even so
    becomes a space.
    """
    cleaned = FORBIDDEN.sub(" ", text)
    return '"' + "".join(_escaped(sign) for sign in cleaned) + '"'


def _escaped(sign: str) -> str:
    if sign in '"\\':
        return f"\\{sign}"
    if sign == "\n":
        return "\\n"
    if sign.isprintable():
        return sign
    code = ord(sign)
    if code < 0x100:
        return f"\\x{code:02x}"
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"


def plain_or_quoted(text: str) -> str:
    """A scalar that is read back as text."""
    plain = _PLAIN.fullmatch(text) and text.lower() not in _NOT_TEXT
    return text if plain and not _NUMBER.fullmatch(text) else quoted(text)


def _typed(text: str) -> str:
    """A fact's value: numbers, yes and no, true and false are read by what was typed."""
    if text in ("yes", "no", "true", "false"):
        return text
    if _NUMBER.fullmatch(text) and len(text) < _LONGEST_NUMBER:
        return text
    return plain_or_quoted(text)


def _flow(parts: Iterable[tuple[str, str]]) -> str:
    return "{" + ", ".join(f"{key}: {value}" for key, value in parts) + "}"


def _listing(texts: Iterable[str]) -> str:
    return "[" + ", ".join(plain_or_quoted(text) for text in texts) + "]"


def _codes(codes: CodeList) -> str:
    parts = [("read", "complete" if codes.complete else "partial"), ("list", _listing(codes.codes))]
    if codes.monitors_run is not None:
        parts.append(("monitors", "run" if codes.monitors_run else "not run"))
    if codes.distance_km is not None:
        parts.append(("distance since clearing", f"{_plain_number(codes.distance_km)} km"))
    if codes.warm_ups is not None:
        parts.append(("warm-ups", str(codes.warm_ups)))
    return _flow(parts)


def _plain_number(value: float) -> str:
    """The shortest decimal text without exponent that reads back to the same number."""
    text = repr(float(value))
    if "e" in text:
        text = f"{value:.12f}"
    return text.removesuffix(".0")


def _outcome(outcome: Outcome) -> str:
    parts = [("faults", _listing(outcome.faults))]
    if outcome.cured_by:
        parts.append(("cured by", _listing(outcome.cured_by)))
    if outcome.proved_by:
        parts.append(("proved by", plain_or_quoted(outcome.proved_by)))
    return _flow(parts)
