"""What the loader makes of a file that it accepts."""

from __future__ import annotations

import gc
import subprocess
import sys
import time
from pathlib import Path

import pytest

from sootsayer.documents.nodes import Listing, Mapping, Place, Scalar, plain
from sootsayer.documents.parsers import have_libyaml
from sootsayer.documents.yaml_source import parse_document, read_document
from tests.documents.reading_aloud import PARSERS, read, refusal

both_parsers = pytest.mark.parametrize("fast", PARSERS)


@both_parsers
@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("true", True), ("false", False), ("yes", "yes"), ("no", "no"), ("on", "on"),
        ("off", "off"), ("True", "True"), ("null", "null"), ("~", "~"),
        ("0", 0), ("-0", 0), ("24", 24), ("-5", -5), ("0.9", 0.9), ("-12.50", -12.5),
        ("007", "007"), ("1e3", "1e3"), (".5", ".5"), ("5.", "5."), ("+5", "+5"),
        ("0x10", "0x10"), ("0o7", "0o7"), ("1_000", "1_000"), (".nan", ".nan"),
        (".inf", ".inf"), ("-.inf", "-.inf"), ("12:30", "12:30"), ("2031-03-14", "2031-03-14"),
        ("1,000.5", "1,000.5"), ("18 hPa", "18 hPa"), ("0,9 hPa", "0,9 hPa"), ("٣", "٣"),
        ("'24'", "24"), ('"true"', "true"), ('""', ""), ("2031-03-14T09:02+01:00",) * 2,
        ("Is it hot?", "Is it hot?"), ("a\n  b", "a b"), ("|\n  a\n  b\n", "a\nb\n"),
        (">-\n  a\n  b\n", "a b"), ('"a\\nb"', "a\nb"), ("9" * 40, int("9" * 40)),
    ],
)  # fmt: skip
def test_plain_scalar(typed: str, value: object, fast: bool) -> None:
    """A plain scalar is true, false, a number of the one form, or else the text as typed."""
    found = plain(read(f"key: {typed}\n", fast=fast).root["key"])
    assert found == value
    assert type(found) is type(value)


@both_parsers
def test_quoted_decimal_comma_is_text(fast: bool) -> None:
    """A decimal comma is taken as text when it is quoted."""
    assert plain(read('a: "0,05"\n', fast=fast).root) == {"a": "0,05"}


@both_parsers
def test_question_mark_in_braces(fast: bool) -> None:
    """A question mark inside braces ends nothing, with either parser."""
    assert plain(read("a: {b: Is it hot?, c: [x?y]}\n", fast=fast).root) == {
        "a": {"b": "Is it hot?", "c": ["x?y"]}
    }


@both_parsers
def test_keys_are_text(fast: bool) -> None:
    """Keys are text however they look."""
    root = read("2500: a\ntrue: b\n'x': c\n0,05: d\n", fast=fast).root
    assert list(root.items) == ["2500", "true", "x", "0,05"]


@both_parsers
def test_places(fast: bool) -> None:
    """Every node and key knows its line and column, counted from 1 in characters."""
    document = read("ä: 1\nlist:\n- {ö: x, y: [1, 2]}\n", fast=fast)
    root = document.root
    assert root.place == Place("f.yaml", 1, 1)
    assert root.key_places == {"ä": Place("f.yaml", 1, 1), "list": Place("f.yaml", 2, 1)}
    listing = root["list"]
    assert isinstance(listing, Listing)
    assert listing.place == Place("f.yaml", 3, 1)
    item = listing.items[0]
    assert isinstance(item, Mapping)
    assert item.place == Place("f.yaml", 3, 3)
    assert item.key_places["y"] == Place("f.yaml", 3, 10)
    inner = item["y"]
    assert isinstance(inner, Listing)
    assert [node.place for node in inner] == [
        Place("f.yaml", 3, 14), Place("f.yaml", 3, 17)]  # fmt: skip
    assert document.lines == ("ä: 1", "list:", "- {ö: x, y: [1, 2]}")


@both_parsers
def test_scalar_keeps_what_was_typed(fast: bool) -> None:
    """A scalar keeps its text as typed and whether it was quoted."""
    root = read("a: 12.50\nb: '12.50'\nc: |\n  x\n", fast=fast).root
    assert root["a"] == Scalar(12.5, "12.50", Place("f.yaml", 1, 4))
    assert root["b"] == Scalar("12.50", "12.50", Place("f.yaml", 2, 4), quoted=True)
    assert root["c"] == Scalar("x\n", "x\n", Place("f.yaml", 3, 4), quoted=True)


@both_parsers
@pytest.mark.parametrize(
    "data",
    [b"\xef\xbb\xbfa: 1\nb: 2\n", b"a: 1\r\nb: 2\r\n", b"a: 1\nb: 2", b"a: 1\r\nb: 2\r",
     b"---\na: 1\nb: 2\n...\n", b"# x\na: 1 # y\n\nb: 2\n"],
)  # fmt: skip
def test_same_content(data: bytes, fast: bool) -> None:
    """A byte order mark, Windows line ends, a missing last newline and comments change nothing."""
    assert plain(read(data, fast=fast).root) == {"a": 1, "b": 2}


@both_parsers
def test_fifty_levels(fast: bool) -> None:
    """Fifty levels are read, one more is refused where it opens."""
    assert read("a: " + "[" * 49 + "]" * 49 + "\n", fast=fast)
    problems = refusal("a: " + "[" * 50 + "]" * 50 + "\n", fast=fast)
    assert [str(problem.place) for problem in problems] == ["f.yaml:1:53"]


def test_read_document(tmp_path: Path) -> None:
    """A file is read under the name it is shown as, by default its path."""
    path = tmp_path / "x.yaml"
    path.write_text("a: 1\n", encoding="utf-8")
    assert read_document(path).file == str(path)
    shown = read_document(path, shown_as="x")
    assert shown.file == "x"
    assert shown.root.place == Place("x", 1, 1)


def test_collector_runs_again() -> None:
    """The garbage collector is as it was after reading, also after a refusal."""
    assert gc.isenabled()
    parse_document(b"a: 1\n", "f")
    assert refusal("a: [\n")
    assert gc.isenabled()


@pytest.mark.skipif(not have_libyaml(), reason="without libyaml it takes ten times longer")
def test_a_large_rulebook_loads_fast() -> None:
    """6,000 lines of pack load well within a second (measured: about 0.1 s on a free core)."""
    block = "    says: A reading is high {}\n    when: {{dp@2500: {{above: 40}}}}\n    minutes: 2\n"
    lines = [f"  finding-{n}:\n" + block.format(n) for n in range(1500)]
    data = ("findings:\n" + "".join(lines)).encode()
    assert data.count(b"\n") > 6000
    start = time.process_time()
    parse_document(data, "f")
    assert time.process_time() - start < 1.0


def test_without_libyaml() -> None:
    """Where PyYAML has no libyaml everything is read by the Python parser."""
    program = (
        "import sys; sys.modules['yaml._yaml'] = None\n"
        "from sootsayer.documents.nodes import plain\n"
        "from sootsayer.documents.yaml_source import have_libyaml, parse_document\n"
        "print(have_libyaml(), plain(parse_document(b'a: {b: c?}\\n', 'f').root))\n"
    )
    ended = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, timeout=60
    )
    assert ended.stdout == "False {'a': {'b': 'c?'}}\n"
