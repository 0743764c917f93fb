"""What the loader refuses, where it points, and what it says would be right."""

from __future__ import annotations

import pytest

from tests.documents.reading_aloud import PARSERS, refusal

both_parsers = pytest.mark.parametrize("fast", PARSERS)

# Text, then for each problem its line:column and a piece of what and of instead.
REFUSED: list[tuple[str, list[tuple[str, str, str]]]] = [
    ("", [("1:1", "empty", "key: value")]),
    ("# only\n", [("1:1", "empty", "key: value")]),
    ("---\n", [("1:1", "empty", "key: value")]),
    ("- a\n", [("1:1", "holds a list", "key: value")]),
    ("word\n", [("1:1", "holds a text", "key: value")]),
    # no value
    ("a: 1\nb:\nc: 2\n", [("2:1", '"b" has no value', "quote the text")]),
    ("a: {x: }\n", [("1:5", '"x" has no value', "quote the text")]),
    ("a: {x}\n", [("1:5", '"x" has no value', "quote the text")]),
    ("a: {does: Key on, engine off}\n",
     [("1:19", '"engine off" has no value', 'does: "Key on, engine off"')]),
    ("a: {x: on, off, maybe, y: 1}\n", [("1:12", '"off"', 'x: "on, off, maybe"')]),
    ("a: {dp: 0,9}\n", [("1:11", '"9" has no value', "write dp: 0.9")]),
    ("a: {dp: 0,9 hPa}\n", [("1:11", '"9 hPa" has no value', "write dp: 0.9 hPa")]),
    ("a:\n-\n- 1\n", [("2:2", "item has no value", "remove it")]),
    (": 1\n- \n", [("1:1", "begins neither", "level")]),
    ("a: {: 1}\n", [("1:5", "key is missing before", "write the key")]),
    ("a: {x: 1, : }\n", [("1:11", "key is missing before", "write the key")]),
    ("?\n: 1\n", [("1:2", "key is empty", "before the colon")]),
    ("a: {b: [1,\n", [("1:8", '"[" opened here is never closed', 'closing "]"')]),
    # numbers
    ("a: 0,05\n", [("1:4", '"0,05" has a decimal comma', "write 0.05")]),
    ("a:\n- -3,5\n", [("2:3", "decimal comma", "write -3.5")]),
    ("a: " + "1" * 41 + "\n", [("1:4", "41 characters", "quote it")]),
    ("a: " + "1" * 9000 + ".0\n", [("1:4", "9002 characters", "quote it")]),
    # what YAML has and we have not
    ("a: &x 1\n", [("1:4", '"&x" is a YAML anchor', "quote")]),
    ("a: &x {b: 1}\n", [("1:4", '"&x" is a YAML anchor', "quote")]),
    ("a: *x\n", [("1:4", '"*x" is a YAML alias', "quote")]),
    ("a: !!str 2\n", [("1:4", "YAML tag", "quote")]),
    ("a: !x [1]\n", [("1:4", "YAML tag", "quote")]),
    ("a: !\n", [("1:4", "YAML tag", "quote")]),
    ("a: {b: 1}\n<<: {c: 1}\n", [("2:1", "merge key", "write the keys out")]),
    ("a: 1\n---\nb: 1\n", [("2:1", "second document", "one document")]),
    ("%YAML 1.1\n---\na: 1\n", [("1:1", '"%"', "remove")]),
    ("a: 1\nb: 2\na: 3\n", [("3:1", '"a" is already given in line 1', "keep one")]),
    ("2: 1\n'2': 2\n", [("2:1", '"2" is already given in line 1', "keep one")]),
    ("[a]: 1\n", [("1:1", "where a key should", "text before the colon")]),
    ("{a: 1}: 1\n", [("1:1", "where a key should", "text before the colon")]),
    # characters
    ("a:\n\tb: 1\n", [("2:1", "a tab", "spaces")]),
    ("a:\t1\n", [("1:3", "a tab", "spaces")]),
    ("a: 'x\ty'\n", [("1:6", "a tab", "spaces")]),
    ("a: 1 #\tx\n", [("1:7", "a tab", "spaces")]),
    ("a: \x1b[31m\nb: 1\nc: \x07\n", [("1:4", "U+001B", "delete"), ("3:4", "U+0007", "delete")]),
    ("a: x\x7f\n", [("1:5", "U+007F", "delete")]),
    ("a: x\x85y: 1\n", [("1:5", "U+0085", "delete")]),
    ("a: x\u2028b: 1\n", [("1:5", "U+2028", "delete")]),
    ("a: x\rb: 1\n", [("1:5", "U+000D", "delete")]),
    ("a: \ufeffx\n", [("1:4", "byte order mark", "delete")]),
    ("a: \uffff\n", [("1:4", "no character", "delete")]),
    ('a: 1\nb: "\\e[31m"\n', [("2:4", "U+001B", "remove")]),
    ('b: "\\t"\n', [("1:4", "a tab", "remove")]),
    ('b: "\\0"\n', [("1:4", "U+0000", "remove")]),
    ('b: "\\ud800"\n', [("1:4", "U+D800", "remove")]),
    ('b: "\\UFFFFFFFF"\n', [("1:7", "no code of a character", "backslash")]),
    # broken YAML
    ("a: b: c\n", [("1:5", "a colon followed by a space", "quote")]),
    ("a: [1, 2\n", [("1:4", '"[" opened here is never closed', 'closing "]"')]),
    ("a: {b: [1, 2}\n", [("1:13", 'comma or the closing "]"', "quote")]),
    ("a: [{b: 1]\n", [("1:10", 'comma or the closing "}"', "quote")]),
    ("a: {b: 1\n", [("1:4", '"{" opened here is never closed', 'closing "}"')]),
    ("a: {b:[1]}\n", [("1:6", "a colon stands directly before", "space after the colon")]),
    ("a: {b: \"x\" y}\n", [("1:12", 'comma or the closing "}"', "quote")]),
    ("a: 1\nb: \"xyz\n", [("2:4", "quote opened here is never closed", "closing quote")]),
    ("a: 'it's'\n", [("1:8", "more follows after the end", "quote the whole text")]),
    ("a: @x\n", [("1:4", 'cannot begin with "@"', "quote")]),
    ("a: `x`\n", [("1:4", 'cannot begin with "`"', "quote")]),
    ("a: %x\n", [("1:4", 'cannot begin with "%"', "quote")]),
    ("a: *\n", [("1:4", 'cannot begin with "*"', "quote")]),
    ('a: "\\q"\n', [("1:6", "escape means nothing", "backslash")]),
    ('a: "\\xZZ"\n', [("1:7", "no code of a character", "backslash")]),
    ("a:\n  b: 1\n c: 2\n", [("3:2", "begins neither level", "level")]),
    ("a: 1\nfoo\nbar: 2\n", [("2:1", 'neither "key: value"', "indent")]),
    ("a: - b\n", [("1:4", '"- " stands where', "line of its own")]),
    ("a: ? b\n", [("1:4", '"? " stands where', "quote")]),
    ("a: [,]\n", [("1:5", '"," stands where a value', "quote")]),
    ("a: }\n", [("1:4", '"}" stands where a value', "quote")]),
    ("a: |x\n  foo\n", [("1:5", "more text stands on the line", "next line")]),
    ("a: |0\n  foo\n", [("1:5", "cannot be 0", "digit")]),
    ("a: >#\n  foo\n", [("1:5", "more text stands on the line", "next line")]),
    ("{a: 1} b\n", [("1:8", "", "")]),
    # a fault of meaning before a fault of form: both are told
    ("a: 0,5\nb: [\n", [("1:4", "decimal comma", "0.5"), ("2:4", "never closed", "]")]),
]  # fmt: skip


@both_parsers
@pytest.mark.parametrize(("text", "expected"), REFUSED, ids=[repr(t)[:40] for t, _ in REFUSED])
def test_refused(text: str, expected: list[tuple[str, str, str]], fast: bool) -> None:
    """Each fault is told at its line and column, with what would be right, line quoted."""
    problems = refusal(text, fast=fast)
    assert [f"{p.place.line}:{p.place.column}" for p in problems] == [e[0] for e in expected]
    lines = text.split("\n")
    for problem, (_, what, instead) in zip(problems, expected, strict=True):
        assert what in problem.what
        assert instead in problem.instead
        assert problem.instead
        assert problem.line == lines[problem.place.line - 1] or problem.what == "the file is empty"


@both_parsers
def test_all_faults_in_one_run(fast: bool) -> None:
    """Every fault of meaning is told in one run, in the order of the file."""
    text = "a: &x 1\nb: *x\nc: !t 2\n<<: {}\na: 2\nd:\n- \ne: {f: g, h}\ni: 0,5\nj:\n"
    assert [(p.place.line, p.place.column) for p in refusal(text, fast=fast)] == [
        (1, 4), (2, 4), (3, 4), (4, 1), (5, 1), (7, 2), (8, 11), (9, 4), (10, 1)]  # fmt: skip


@both_parsers
def test_a_hundred_faults_are_enough(fast: bool) -> None:
    """A file with countless faults is refused with a hundred, the last saying so."""
    problems = refusal("a:\n" + "-\n" * 100_000, fast=fast)
    assert len(problems) == 100
    assert "only the first 100" in problems[-1].what
    lines = refusal("a: \t\n" * 1000)
    assert len(lines) == 20
    assert "980 more lines" in lines[-1].what


@pytest.mark.parametrize(
    ("data", "place", "what"),
    [
        ("a: 1\n".encode("utf-16"), "1:1", "UTF-16"),
        ("a: 1\n".encode("utf-16-le"), "1:1", "UTF-16"),
        ("a: 1\n".encode("utf-16-be"), "1:1", "UTF-16"),
        (b"\xfe\xff\x00a", "1:1", "UTF-16"),
        ("a: 1\n".encode("utf-32"), "1:1", "UTF-32"),
        (b"\x00\x00\xfe\xff\x00\x00\x00a", "1:1", "UTF-32"),
        ("a: 1\nb: für\n".encode("latin-1"), "2:5", "0xFC is not UTF-8 (in Windows-1252"),
        ("ä: ".encode() + b"\xff\n", "1:4", "0xFF is not UTF-8"),
        (b"a: \xed\xa0\x80\n", "1:4", "0xED is not UTF-8"),
        (b"a: 1\nb\x00c\n", "2:2", "NUL"),
        (b"\x7fELF\x02\x01\x01" + bytes(50), "1:1", "U+007F"),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "1:1", "0x89"),
    ],
)
def test_no_utf8_text(data: bytes, place: str, what: str) -> None:
    """Another encoding or a binary file is refused where it shows first."""
    problems = refusal(data)
    assert f"{problems[0].place.line}:{problems[0].place.column}" == place
    assert what in problems[0].what
    assert problems[0].instead


def test_every_latin1_line_is_named() -> None:
    """Each line with bytes that are no UTF-8 is named, with the bytes written out."""
    problems = refusal("a: ü\nb: 1\nc: ß\n".encode("latin-1"))
    assert [p.place.line for p in problems] == [1, 3]
    assert problems[0].line == "a: \\xfc"
