"""Law 12 at the door: no bytes bring anything but a document or a refusal, and soon."""

from __future__ import annotations

import subprocess
import sys
import textwrap
import time
import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.documents.nodes import Document
from sootsayer.documents.parsers import have_libyaml
from sootsayer.documents.problems import Problem, Refused
from sootsayer.documents.report_problems import problem_lines
from sootsayer.documents.yaml_source import parse_with
from tests.documents.reading_aloud import PARSERS, verdict
from tests.documents.yaml_made import documents, framed, mutated

both_parsers = pytest.mark.parametrize("fast", PARSERS)
any_bytes = st.one_of(st.binary(max_size=60), mutated(), framed.map(str.encode))


def outcome(data: bytes, *, fast: bool, may_be_torn: bool) -> Document | tuple[Problem, ...]:
    """The document or the problems; anything else is raised."""
    try:
        return parse_with(data, "f", fast, may_be_torn=may_be_torn)
    except Refused as refused:
        return refused.problems


@both_parsers
@given(data=any_bytes, may_be_torn=st.booleans())
@settings(deadline=None, max_examples=250)
def test_only_refused(data: bytes, may_be_torn: bool, fast: bool) -> None:
    """Any bytes are read or refused; each problem lies in the file and can be shown."""
    found = outcome(data, fast=fast, may_be_torn=may_be_torn)
    if isinstance(found, Document):
        return
    assert found
    lines = data.count(b"\n") + 1
    for problem in found:
        assert 1 <= problem.place.line <= lines
        assert problem.place.column >= 1
        assert problem.what
        assert problem.instead
    for line in problem_lines(found):
        assert not any(unicodedata.category(sign) in ("Cc", "Cs", "Zl", "Zp") for sign in line)
        line.encode("utf-8")


@pytest.mark.skipif(not have_libyaml(), reason="there is only one parser here")
@given(data=st.one_of(documents.map(str.encode), framed.map(str.encode), mutated()))
@settings(deadline=None, max_examples=400)
def test_both_parsers_agree(data: bytes) -> None:
    """Libyaml and the Python parser accept and refuse alike, and read the same values."""
    assert verdict(data, fast=True) == verdict(data, fast=False)


@pytest.mark.skipif(not have_libyaml(), reason="there is only one parser here")
@given(data=st.one_of(documents.map(str.encode), framed.map(str.encode), mutated()))
@settings(deadline=None, max_examples=200)
def test_both_parsers_say_the_same(data: bytes) -> None:
    """What is refused is refused in the same words at the same places with either parser."""
    both = [outcome(data, fast=fast, may_be_torn=False) for fast in (True, False)]
    assert isinstance(both[0], Document) == isinstance(both[1], Document)
    if not isinstance(both[0], Document):
        assert both[0] == both[1]


def test_the_made_documents_pass_the_door() -> None:
    """Of the documents made here many are accepted and many refused: agreement means something."""
    accepted: list[bool] = []

    @given(data=documents.map(str.encode))
    @settings(deadline=None, max_examples=120, database=None, derandomize=True)
    def collect(data: bytes) -> None:
        accepted.append(verdict(data, fast=False) != "refused")

    collect()
    assert 10 < sum(accepted) < len(accepted) - 10


DEEP = {
    "brackets": b"a: " + b"[" * 100_000,
    "closed brackets": b"a: " + b"[" * 100_000 + b"]" * 100_000,
    "braces": b"a: " + b"{a: " * 100_000,
    "brackets on lines": b"a: " + b"[\n" * 100_000,
    "dashes": b"a:\n" + b"- " * 100_000,
    "question marks": b"? " * 100_000,
    "stairs": b"".join(b" " * n + b"a:\n" for n in range(1000)),
}


@both_parsers
@pytest.mark.parametrize("kind", DEEP)
def test_deep_nesting(kind: str, fast: bool) -> None:
    """A hundred thousand levels are refused in under two seconds."""
    start = time.process_time()
    assert verdict(DEEP[kind], fast=fast) == "refused"
    assert time.process_time() - start < 2


LONG = {
    "one key of many": b"a" * 500_000,
    "many quotes": b'a: "' + b"x " * 60_000,
    "many colons": b"a: " + b": " * 100_000,
    "many keys": b"".join(b"k%d: 1\n" % n for n in range(8_000)),
    "many strays": b"a: {b: c" + b", x" * 50_000 + b"}\n",
    "many digits": b"a: " + b"7" * 500_000,
    "many commas": b"a: [" + b"," * 100_000,
    "many bad bytes": b"\xff\n" * 200_000,
    "zeros": bytes(500_000),
    "one long key in braces": b"a: {" + b"k" * 200_000 + b"}\n",
}


@both_parsers
@pytest.mark.parametrize("kind", LONG)
def test_long_files_end_soon(kind: str, fast: bool) -> None:
    """No shape of a large file keeps the reader for long."""
    start = time.process_time()
    outcome(LONG[kind], fast=fast, may_be_torn=False)
    outcome(LONG[kind], fast=fast, may_be_torn=True)
    assert time.process_time() - start < 10


@pytest.mark.skipif(sys.platform == "win32", reason="memory limits are POSIX")
def test_deep_nesting_needs_little_memory() -> None:
    """A hundred thousand brackets are refused within 300 MB of address space."""
    program = """
        import resource
        from sootsayer.documents.yaml_source import parse_document
        from sootsayer.documents.problems import Refused
        resource.setrlimit(resource.RLIMIT_AS, (300 * 2**20, 300 * 2**20))
        try:
            parse_document(b"a: " + b"[" * 100_000, "f")
        except Refused as refused:
            print(refused.problems[0].what)
    """
    ended = subprocess.run(
        [sys.executable, "-c", textwrap.dedent(program)],
        capture_output=True, text=True, check=False, timeout=60,
    )  # fmt: skip
    assert "nested deeper" in ended.stdout, ended.stderr
