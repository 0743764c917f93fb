"""Every byte of a ledger of 200 records flipped in turn: found each time, at its record."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import accumulate
from pathlib import Path
from random import Random

import pytest

from sootsayer.ledger import chain, seal
from sootsayer.ledger.folder import Ledger, ledger_in
from sootsayer.ledger.model import Checked, Line, Wrong
from tests.ledger.golden_ledger import make
from tests.ledger.making import ledger_of

RECORDS = 200
SAMPLE = 1500


class InMemory:
    """A ledger whose lines are not written to the disk at each flip; a line that was read once is
    not read again. Everything else is `check` itself."""

    def __init__(self, ledger: Ledger, monkeypatch: pytest.MonkeyPatch) -> None:
        self.ledger = ledger
        self.whole = ledger.file.read_bytes()
        self.lines = self.whole.splitlines(keepends=True)
        self.begins = [0, *accumulate(map(len, self.lines))]
        self.now: Sequence[bytes] = self.lines
        cached = lru_cache(maxsize=2 * RECORDS)(seal.read_line)
        opened = lru_cache(maxsize=2 * RECORDS)(Line.opened)
        monkeypatch.setattr(chain, "read_line", cached)
        monkeypatch.setattr(chain, "lines", self.read)
        monkeypatch.setattr(Line, "opened", lambda line: opened(line))

    def read(self, _: Ledger) -> Iterator[tuple[int, bytes]]:
        yield from ((0, line) for line in self.now)

    def flipped(self, at: int, by: int) -> Checked:
        """What is found when the byte there is another one."""
        line = self._line(at)
        turned = bytearray(self.lines[line])
        turned[at - self.begins[line]] ^= by
        following = self.lines[line + 1 : line + 2]
        joined = (bytes(turned) + b"".join(following)).splitlines(keepends=True)
        # `bytes.splitlines` also ends a line at a carriage return, a file only at a newline.
        joined = _at_newlines(joined)
        self.now = [*self.lines[:line], *joined, *self.lines[line + 2 :]]
        return chain.check(self.ledger)

    def _line(self, at: int) -> int:
        low, high = 0, len(self.lines)
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (middle, high) if self.begins[middle] <= at else (low, middle)
        return low


def _at_newlines(lines: list[bytes]) -> list[bytes]:
    joined = b"".join(lines)
    parts = joined.split(b"\n")
    return [part + b"\n" for part in parts[:-1]] + ([parts[-1]] if parts[-1] else [])


def found_at(memory: InMemory, at: int, by: int) -> bool:
    """Whether the first record that is named is the one with the byte in it."""
    found = memory.flipped(at, by)
    return found.flaw is not None and found.flaw.line == memory._line(at) + 1


def test_in_memory_is_as_on_the_disk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the flips below look at is what verify reads from the disk."""
    ledger = ledger_of(tmp_path, 6)
    random = Random(5)
    told = []
    places = [
        (random.randrange(ledger.file.stat().st_size), random.choice((1, 128))) for _ in range(40)
    ]
    places += [(ledger.file.read_bytes().index(b"\n"), 1), (ledger.file.stat().st_size - 1, 4)]
    whole = ledger.file.read_bytes()
    for at, by in places:
        turned = bytearray(whole)
        turned[at] ^= by
        ledger.file.write_bytes(turned)
        told.append(chain.check(ledger))
    ledger.file.write_bytes(whole)
    memory = InMemory(ledger, monkeypatch)
    assert [memory.flipped(at, by) for at, by in places] == told


def test_a_sample_of_bytes_flipped(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """1,500 bytes of 200 records, each turned into any other byte: found, and the record named."""
    memory = InMemory(ledger_of(tmp_path, RECORDS), monkeypatch)
    random = Random(7)
    size = len(memory.whole)
    for _ in range(SAMPLE):
        at, by = random.randrange(size), random.randrange(1, 256)
        assert found_at(memory, at, by), (at, by)


@pytest.mark.slow
@pytest.mark.parametrize("by", [1, 0xFF])
def test_every_byte_flipped(by: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every byte of 200 records in turn, a bit of it and all of it: found, and the record named."""
    memory = InMemory(ledger_of(tmp_path, RECORDS), monkeypatch)
    missed = [at for at in range(len(memory.whole)) if not found_at(memory, at, by)]
    assert missed == []


def test_real_records_flipped(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Bytes of a real verdict and its outcome, and every byte of the texts kept with them."""
    ledger = make(tmp_path)
    for path in sorted(ledger.kept.iterdir()):
        whole = path.read_bytes()
        for at in range(0, len(whole), 1 if len(whole) < 500 else 97):
            path.write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
            flaw = chain.check(ledger_in(tmp_path)).flaw
            assert flaw is not None
            assert flaw.wrong is Wrong.TEXT_LOST
        path.write_bytes(whole)
    memory = InMemory(ledger, monkeypatch)
    random = Random(9)
    for at in random.sample(range(len(memory.whole)), 400):
        assert found_at(memory, at, random.randrange(1, 256)), at
