"""The torn last line of a case file."""

from __future__ import annotations

import pytest

from sootsayer.documents.nodes import Listing, Mapping, plain
from sootsayer.documents.problems import Refused
from sootsayer.documents.torn import split_torn
from tests.documents.reading_aloud import PARSERS, read, refusal

HEADER = "case: 2031-03-14-a\nformat: 1\nentries:\n"
FIRST = "- {at: 2031-03-14T09:02+01:00, by: tech-1, facts: {trip-length: 6 km}}\n"
SECOND = "- {at: 2031-03-14T09:05+01:00, by: tech-1, note: 'Öl, é \U0001f600'}\n"
CASE = (HEADER + FIRST + SECOND).encode()
both_parsers = pytest.mark.parametrize("fast", PARSERS)


def entries(root: Mapping) -> int:
    """How many entries a case has."""
    listing = root["entries"]
    assert isinstance(listing, Listing)
    return len(listing)


def test_deep_nesting_is_for_the_reader_to_refuse_at_once() -> None:
    """An endless row of brackets is no torn entry, and is not read to its end."""
    deep = b"case: x\nentries:\n- " + b"[" * 20_000
    assert split_torn(deep) == (deep, b"")


@both_parsers
@pytest.mark.parametrize("cut", range(len((HEADER + FIRST).encode()) + 1, len(CASE) + 1))
def test_second_entry_torn_at_every_byte(cut: int, fast: bool) -> None:
    """Wherever the last append stopped, the first entry stands and the second is whole or torn."""
    document = read(CASE[:cut], fast=fast, may_be_torn=True)
    whole = cut >= len(CASE) - 1
    assert entries(document.root) == (2 if whole else 1)
    assert (document.torn is None) == whole
    assert len(document.lines) == (5 if whole else 4)
    if document.torn is not None:
        tail = CASE[len((HEADER + FIRST).encode()) : cut]
        assert document.torn == tail.decode("utf-8", errors="backslashreplace")


@pytest.mark.parametrize("cut", range(len(CASE) + 1))
def test_a_file_torn_at_every_byte_is_read_or_refused(cut: int) -> None:
    """A case cut anywhere, its header included, is read or refused; no whole entry is lost."""
    try:
        document = read(CASE[:cut], may_be_torn=True)
    except Refused:
        # Before the first entry is whole there is no case.
        assert cut < len((HEADER + FIRST).encode()) - 1
        return
    if "entries" in document.root:
        assert entries(document.root) == CASE[:cut].count(b"}\n") + (
            document.torn is None and CASE[:cut].endswith(b"}")
        )


@pytest.mark.parametrize(
    "tail",
    [b"-", b"- ", b"- {", b"- {at: x", b"- {}}", b"- text", b"- [a]", b"entries:", b"entr", b"{",
     b"- {a: b} c", bytes(30), b"- {a: \xc3", b"- {a: \x1b}", b"---", b"- {a: b", b"\x80", b'"',
     b"- {a: 'b}", b"- - {a: b}", b"[{a: b}]"],
)  # fmt: skip
def test_torn(tail: bytes) -> None:
    """A tail that is no whole mapping is torn, whatever else it is."""
    assert split_torn(b"a: 1\n" + tail) == (b"a: 1\n", tail)


@pytest.mark.parametrize(
    "tail",
    [b"", b"- {}", b"- {a: b}", b"- {a: b} # note", b"{a: b}", b"a: b", b"  a: b", b"# note",
     b"   ", b"- {a: b}\r", b"- {a: b, a: c}", b"- a: b", b"- {a: &x b}", "- {a: 'ö'}".encode()],
)  # fmt: skip
def test_whole(tail: bytes) -> None:
    """A whole mapping without newline is kept, and so are comments and spaces."""
    assert split_torn(b"a: 1\n" + tail) == (b"a: 1\n" + tail, b"")


@both_parsers
def test_whole_line_without_newline_is_read(fast: bool) -> None:
    """The last entry counts although its newline is missing."""
    document = read(CASE[:-1], fast=fast, may_be_torn=True)
    assert document.torn is None
    assert plain(document.root) == plain(read(CASE, fast=fast).root)


def test_only_where_it_is_asked_for() -> None:
    """Any other file with such an end is refused, not shortened."""
    assert refusal(CASE[:-9])


def test_nothing_but_a_torn_line() -> None:
    """A file that is only a torn line is empty."""
    assert "empty" in refusal(b"- {", may_be_torn=True)[0].what


def test_a_faulty_last_entry_is_told_not_hidden() -> None:
    """A whole last line with a fault of meaning is refused, not left out as torn."""
    assert "already given" in refusal(CASE + b"- {a: 1, a: 2}", may_be_torn=True)[0].what


def test_noise_behind_the_last_newline() -> None:
    """Zeros that a power cut leaves behind the last entry are a torn line."""
    document = read(CASE + bytes(100), may_be_torn=True)
    assert entries(document.root) == 2
    assert document.torn == "\0" * 100
