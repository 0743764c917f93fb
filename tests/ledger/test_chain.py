"""The chain: whatever is done to a ledger is found, and the first place named."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.documents.problems import Refused
from sootsayer.ledger.adding import add, head_of
from sootsayer.ledger.canonical import canonical
from sootsayer.ledger.chain import check
from sootsayer.ledger.folder import Ledger, ledger_in
from sootsayer.ledger.model import Checked, Wrong
from sootsayer.ledger.seal import Unfit, closed, line_of, read_line
from tests.ledger.making import PACK, body, ledger_of


def wrong(ledger: Ledger) -> tuple[Wrong, int] | None:
    """What is wrong first, and with which record."""
    flaw = check(ledger).flaw
    return None if flaw is None else (flaw.wrong, flaw.number)


def rewritten(ledger: Ledger, *lines: bytes) -> Ledger:
    ledger.file.write_bytes(b"".join(lines))
    return ledger


def test_a_whole_ledger_is_found_whole(tmp_path: Path) -> None:
    """Ten records added one by one hold, and the last digest is the head."""
    ledger = ledger_in(tmp_path)
    ledger_of(tmp_path, 0)
    told = [add(ledger, body(n)) for n in range(1, 11)]
    found = check(ledger, head=told[3].digest)
    assert found == Checked(10, told[-1].digest, asked_for=4)
    assert [each.number for each in told] == list(range(1, 11))
    head = head_of(ledger)
    assert head is not None
    assert head.digest == told[-1].digest


@pytest.mark.parametrize(
    ("turned", "found"),
    [
        (lambda a: [*a[:4], *a[5:]], (Wrong.REMOVED, 5)),
        (lambda a: [*a[:4], *a[7:]], (Wrong.REMOVED, 5)),
        (lambda a: a[1:], (Wrong.REMOVED, 1)),
        (lambda a: [*a[:4], a[5], a[4], *a[6:]], (Wrong.MOVED, 5)),
        (lambda a: [*a[:4], *a[5:], a[4]], (Wrong.MOVED, 5)),
        (lambda a: [*a[:4], a[2], *a[4:]], (Wrong.INSERTED, 3)),
        (lambda a: [*a, a[9]], (Wrong.INSERTED, 10)),
        (lambda a: [*a[:4], b"\n", *a[4:]], (Wrong.CHANGED, 5)),
        (lambda a: [*a[:4], a[4].replace(b"tech-1", b"tech-2"), *a[5:]], (Wrong.CHANGED, 5)),
        (lambda a: [*a[:9], a[9][:-1]], (Wrong.TORN, 10)),
        (lambda a: [*a[:9], a[9][:50]], (Wrong.TORN, 10)),
        (lambda a: [*a, b"{"], (Wrong.TORN, 11)),
        (lambda a: [b" " + a[0], *a[1:]], (Wrong.CHANGED, 1)),
        (lambda a: [a[0][:-1] + b"\r\n", *a[1:]], (Wrong.CHANGED, 1)),
    ],
)
def test_what_was_done_is_named(turned: object, found: tuple[Wrong, int], tmp_path: Path) -> None:
    """Changed, removed, inserted, reordered and cut: what, and the first record."""
    ledger = ledger_of(tmp_path, 10)
    kept = ledger.file.read_bytes().splitlines(keepends=True)
    assert wrong(rewritten(ledger, *turned(kept))) == found  # type: ignore[operator]


def test_a_rewritten_ledger_is_found_out_by_its_old_head(tmp_path: Path) -> None:
    """One who writes everything anew makes a whole chain, without the digest that is on paper."""
    ledger = ledger_of(tmp_path, 10)
    paper = check(ledger).head
    assert check(ledger, head=paper).asked_for == 10
    ledger_of(tmp_path, 10, by="tech-2")
    found = check(ledger, head=paper)
    assert (found.flaw, found.asked_for) == (None, None)


def test_a_changed_record_sealed_again_breaks_the_next(tmp_path: Path) -> None:
    """Who changes one record and gives it a fitting digest is found at the next one."""
    ledger = ledger_of(tmp_path, 10)
    kept = ledger.file.read_bytes().splitlines(keepends=True)
    before = read_line(kept[3][:-1])
    other, _ = line_of(canonical(body(5, by="tech-2")), 5, before.digest)
    rewritten(ledger, *kept[:4], other + b"\n", *kept[5:])
    assert wrong(ledger) == (Wrong.FOREIGN, 6)


def test_another_ledgers_record_is_found(tmp_path: Path) -> None:
    """A whole record of another shop's ledger fits nowhere."""
    ledger = ledger_of(tmp_path / "a", 10)
    other = ledger_of(tmp_path / "b", 10, by="tech-9")
    kept, theirs = (each.file.read_bytes().splitlines(keepends=True) for each in (ledger, other))
    rewritten(ledger, *kept[:4], theirs[4], *kept[5:])
    assert wrong(ledger) == (Wrong.FOREIGN, 5)


def test_a_kept_text_that_is_lost_or_changed_is_found(tmp_path: Path) -> None:
    """The texts that records rest on are part of what is verified."""
    ledger = ledger_of(tmp_path, 3)
    (file,) = ledger.kept.iterdir()
    file.write_bytes(PACK + b" ")
    assert wrong(ledger) == (Wrong.TEXT_LOST, 1)
    file.unlink()
    assert wrong(ledger) == (Wrong.TEXT_LOST, 1)


def test_bodies_kept_back_leave_the_chain_whole(tmp_path: Path) -> None:
    """Lines without their bodies prove the same head, and are counted."""
    ledger = ledger_of(tmp_path, 10)
    head = check(ledger).head
    kept = ledger.file.read_bytes().splitlines()
    shut = [closed(read_line(each)) if n % 2 else each for n, each in enumerate(kept)]
    rewritten(ledger, *(each + b"\n" for each in shut))
    assert check(ledger) == Checked(10, head, closed=5)
    assert b"case-2" not in ledger.file.read_bytes()


def test_a_clock_that_goes_backwards_is_told_and_harms_nothing(tmp_path: Path) -> None:
    """The order is the chain's: a record dated before the last is kept, and said to be."""
    ledger = ledger_of(tmp_path, 3)
    told = add(ledger, body(1))
    assert (told.number, told.later) == (4, str(body(3)["at"]))
    assert check(ledger).back == (4,)


@pytest.mark.parametrize("flipped", [1, 0x20, 0x80])
def test_every_byte_of_a_line_counts(flipped: int, tmp_path: Path) -> None:
    """Any byte of a line changed, newline included, and it is not the record that it was."""
    ledger = ledger_of(tmp_path, 2)
    first = ledger.file.read_bytes().splitlines(keepends=True)[0]
    for at in range(len(first)):
        turned = bytearray(first)
        turned[at] ^= flipped
        with pytest.raises(Unfit):
            read_line(bytes(turned).removesuffix(b"\n"))


def test_nothing_is_added_behind_a_record_that_does_not_hold(tmp_path: Path) -> None:
    """A changed last record is not set aside as if it were torn, and nothing hides behind it."""
    ledger = ledger_of(tmp_path, 3)
    before = ledger.file.read_bytes().replace(b"case-3", b"case-4")
    ledger.file.write_bytes(before)
    with pytest.raises(Refused) as caught:
        add(ledger, body(4))
    assert "does not hold" in caught.value.problems[0].what
    assert caught.value.problems[0].place.line == 3
    assert ledger.file.read_bytes() == before
