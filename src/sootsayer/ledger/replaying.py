"""Giving a verdict again: with the rulebook of that day, byte for byte, and with today's."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sootsayer import __version__
from sootsayer.casework.model import Case
from sootsayer.casework.moments import MomentRefused, read_moment
from sootsayer.catalogue import OWN, has_words, say, speaking
from sootsayer.documents.problems import Refused
from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict_json import as_json
from sootsayer.ledger.canonical import NotCanonicalError, canonical
from sootsayer.ledger.folder import Ledger
from sootsayer.ledger.kept import Lost
from sootsayer.ledger.model import Record
from sootsayer.ledger.parts import part, text
from sootsayer.ledger.reading import sources_of
from sootsayer.ledger.rebuilding import Rebuilt, case_again, rebuild
from sootsayer.ledger.replay_model import Again, Replayed, Why
from sootsayer.rulebook.words_files import LANGUAGE


class CannotReplay(Exception):  # noqa: N818 (says what the record is)
    """The case or the rulebook of a record cannot be read again."""

    def __init__(self, why: Why, detail: str) -> None:
        self.why = why
        self.detail = detail
        super().__init__(detail)


def replay(ledger: Ledger, record: Record) -> Replayed:
    """Give the verdict of a record again with everything that was kept with it."""
    try:
        rebuilt = rebuilt_of(ledger, record)
        told = told_again(record, rebuilt)
    except CannotReplay as cannot:
        return Replayed(Again.NOT_REPLAYABLE, cannot.why, cannot.detail)
    if _same(told, part(record.body, "verdict")):
        return Replayed(Again.SAME, told=told)
    spoken = language_of(record)
    if not has_words(spoken):  # what the program itself said cannot be said again
        return Replayed(Again.NOT_REPLAYABLE, Why.LANGUAGE, spoken, told)
    then = text(record.body, "program")
    if then != __version__:  # another program may reckon otherwise; that is no flaw of the record
        return Replayed(Again.NOT_REPLAYABLE, Why.PROGRAM, then, told)
    return Replayed(Again.DIFFERS, told=told)


def rebuilt_of(ledger: Ledger, record: Record) -> Rebuilt:
    """The rulebook and settings of that day. Raises CannotReplay."""
    if record.line.body is None:
        raise CannotReplay(Why.CLOSED, "")
    try:
        return rebuild(sources_of(ledger, record.body))
    except Lost as lost:
        raise CannotReplay(Why.TEXT_LOST, lost.digest) from None
    except Refused as refused:
        raise CannotReplay(Why.RULEBOOK_REFUSED, _first(refused)) from None
    except OSError as error:
        raise CannotReplay(Why.FAILED, str(error)) from None


def case_of_record(record: Record, rebuilt: Rebuilt) -> Case:
    """The case as it was kept, as a rulebook reads it. Raises CannotReplay."""
    data = text(record.body, "case", "text").encode("utf-8", "surrogatepass")
    try:
        return case_again(data, rebuilt, say("record {number}", number=record.number))
    except Refused as refused:
        raise CannotReplay(Why.CASE_REFUSED, _first(refused)) from None


def language_of(record: Record) -> str:
    """The language that a verdict was given in; English where what stands there is no language."""
    named = text(record.body, "language")
    return named if LANGUAGE.fullmatch(named) else OWN


def told_again(record: Record, rebuilt: Rebuilt) -> dict[str, Any]:
    """The verdict on the kept case at the moment of that day, in its language; the program's
    version, which is no part of what it says, is the record's. Raises CannotReplay."""
    case = case_of_record(record, rebuilt)
    try:
        now = read_moment(text(record.body, "judged_at"))
        with speaking(language_of(record)):
            verdict = judge(case, rebuilt.rulebook, now=now, shop=rebuilt.shop, planning=True)
            told = as_json(verdict)
        return {**told, "program": text(record.body, "verdict", "program")}
    except (MomentRefused, LookupError, ArithmeticError, AssertionError) as error:
        raise CannotReplay(Why.FAILED, f"{type(error).__name__}: {error}") from None


def _same(told: Mapping[str, Any], kept: Mapping[str, Any]) -> bool:
    try:
        return canonical(told) == canonical(kept)
    except NotCanonicalError:
        return False


def _first(refused: Refused) -> str:
    first = refused.problems[0]
    file = first.place.file.rpartition("/")[2]
    return say("{file}:{line}: {what}", file=file, line=first.place.line, what=first.what)
