"""Whether the ledger is whole: each line fits its digest, and each names the one before it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from sootsayer.catalogue import say
from sootsayer.ledger.folder import Ledger, lines
from sootsayer.ledger.kept import Lost, kept_text
from sootsayer.ledger.model import Checked, Flaw, Line, Wrong
from sootsayer.ledger.parts import texts_named
from sootsayer.ledger.seal import NOTHING_BEFORE, OtherFormat, Unfit, read_line
from sootsayer.ledger.tail import is_torn


def check(
    ledger: Ledger, *, head: str | None = None, tell: Callable[[int], None] | None = None
) -> Checked:
    """Read the whole ledger. `head`: a digest to look for (at least its first 8 digits); `tell` is
    called with the length of each line. Raises Refused."""
    found, previous, texts = Checked(), NOTHING_BEFORE, set[str]()
    at = ""
    for count, (_, raw) in enumerate(lines(ledger), start=1):
        try:
            line = read_line(raw.removesuffix(b"\n"))
            if not raw.endswith(b"\n"):
                raise Unfit(say("its end is missing"))
        except Unfit as unfit:
            return replace(found, flaw=_unfit(unfit, raw, count))
        if (line.number, line.previous) != (count, previous):
            return replace(found, flaw=_misplaced(ledger, line, count, previous))
        flaw = _texts(ledger, line, count, texts)
        if flaw is not None:
            return replace(found, flaw=flaw)
        previous = line.digest
        body = line.opened()
        now = str(body.get("at", at))
        found = replace(
            found,
            count=count,
            head=line.digest,
            closed=found.closed + (line.body is None),
            asked_for=count if head and line.digest.startswith(head) else found.asked_for,
            back=(*found.back, count) if _is_before(now, at) else found.back,
        )
        at = now
        if tell is not None:
            tell(len(raw))
    return found


def _is_before(now: str, then: str) -> bool:
    from sootsayer.casework.moments import MomentRefused, read_moment

    try:
        return bool(then) and read_moment(now) < read_moment(then)
    except MomentRefused:
        return False


def _unfit(unfit: Unfit, raw: bytes, line: int) -> Flaw:
    if is_torn(raw):
        return Flaw(Wrong.TORN, line, line, str(len(raw)))
    if isinstance(unfit, OtherFormat):
        return Flaw(Wrong.OTHER_FORMAT, line, line, unfit.format)
    return Flaw(Wrong.CHANGED, line, line, str(unfit))


def _misplaced(ledger: Ledger, line: Line, expected: int, previous: str) -> Flaw:
    """Which of the ways a whole line can stand in the wrong place."""
    if line.number < expected:
        return Flaw(Wrong.INSERTED, expected, line.number)
    if line.number == expected:
        return Flaw(Wrong.FOREIGN, expected, expected)
    last = line.number - 1
    if _stands_later(ledger, expected, previous):
        return Flaw(Wrong.MOVED, expected, expected)
    return Flaw(Wrong.REMOVED, expected, expected, str(last))


def _stands_later(ledger: Ledger, number: int, previous: str) -> bool:
    for count, (_, raw) in enumerate(lines(ledger), start=1):
        if count > number:
            try:
                line = read_line(raw.removesuffix(b"\n"))
            except Unfit:
                continue
            if (line.number, line.previous) == (number, previous):
                return True
    return False


def _texts(ledger: Ledger, line: Line, count: int, seen: set[str]) -> Flaw | None:
    for digest in texts_named(line.opened()):
        if digest in seen:
            continue
        try:
            kept_text(ledger, digest)
        except Lost as lost:
            return Flaw(Wrong.TEXT_LOST, count, line.number, f"{lost.digest} {lost.why}")
        seen.add(digest)
    return None
