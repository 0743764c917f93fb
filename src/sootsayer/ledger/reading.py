"""Records out of the ledger: by number, by digest, by case."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from sootsayer.catalogue import say
from sootsayer.ledger.folder import FIRST_RECORD, Ledger, lines, refused
from sootsayer.ledger.gathering import Sources, Texts
from sootsayer.ledger.kept import kept_text
from sootsayer.ledger.model import Record
from sootsayer.ledger.parts import OUTCOME, VERDICT, part, text
from sootsayer.ledger.seal import OtherFormat, Unfit, read_line
from sootsayer.ledger.tail import is_torn

LEAST_DIGITS = 8
NAME_IT = "name a record by its number, 1 to {count}, by its digest, or by its case"


def records(ledger: Ledger) -> Iterator[Record]:
    """Every record in order; a torn last line is left out.

    Raises Refused at the first that does not fit its digest: what is wrong is for `verify` to say.
    """
    for count, (_, raw) in enumerate(lines(ledger), start=1):
        try:
            line = read_line(raw.removesuffix(b"\n"))
        except OtherFormat as other:
            what = say(
                "this record has format {format}, which is not known here", format=other.format
            )
            instead = say("use a version of this program that knows it")
            raise refused(ledger, what, instead, count) from None
        except Unfit as unfit:
            if is_torn(raw):
                return
            what = say("this record does not hold: {why}", why=unfit)
            instead = say("see: sootsayer records verify")
            raise refused(ledger, what, instead, count) from None
        yield Record(line, line.opened())


def find(ledger: Ledger, wanted: str) -> Record:
    """The record of this number, of a digest that begins so, or the newest verdict of the case.

    Raises Refused with what there is.
    """
    found: Record | None = None
    count = 0
    for record in records(ledger):
        count = record.number
        if str(count) == wanted:
            return record
        is_digest = len(wanted) >= LEAST_DIGITS and record.line.digest.startswith(wanted)
        if is_digest or (record.case == wanted and record.kind == VERDICT):
            found = record
    if found is None:
        what = say('there is no record "{wanted}"', wanted=wanted[:80])
        raise refused(ledger, what, say(NAME_IT, count=count) if count else say(FIRST_RECORD))
    return found


def outcomes_of(ledger: Ledger, record: Record) -> list[Record]:
    """The records that point back to this one, in order."""
    digest = record.line.digest
    return [
        each
        for each in records(ledger)
        if each.kind == OUTCOME and text(each.body, "of", "digest") == digest
    ]


def sources_of(ledger: Ledger, body: dict[str, Any]) -> Sources:
    """The texts that a record rests on, out of the ledger's folder. Raises kept.Lost."""
    settings = text(body, "shop", "settings")
    return Sources(
        packs=_texts(ledger, part(body, "rulebook", "packs")),
        language=text(body, "language") or "en",
        words=_texts(ledger, part(body, "rulebook", "translations")),
        settings=kept_text(ledger, settings) if settings else None,
        shop_packs=_texts(ledger, part(body, "shop", "packs")),
        shop_words=_texts(ledger, part(body, "shop", "translations")),
    )


def _texts(ledger: Ledger, named: dict[str, Any]) -> Texts:
    return {name: kept_text(ledger, str(digest)) for name, digest in named.items()}
