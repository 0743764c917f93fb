"""Bytes to text: UTF-8 only, and no character that could hide something or steer a screen."""

from __future__ import annotations

import re

from sootsayer.catalogue import Said, say, say_count
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem, Refused

# Control characters (all but the newline), the line separators that YAML 1.1 would count as
# lines and editors do not, lone surrogates, and the code points that are no characters.
FORBIDDEN = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff]")

_MOST_LINES = 20
_BOM = b"\xef\xbb\xbf"
_FOREIGN_MARKS = (
    (b"\xff\xfe\x00\x00", "UTF-32"),
    (b"\x00\x00\xfe\xff", "UTF-32"),
    (b"\xff\xfe", "UTF-16"),
    (b"\xfe\xff", "UTF-16"),
)
FOREIGN = "the file is {encoding}, not UTF-8"
NOT_UTF8 = "the byte 0x{byte} is not UTF-8"
NOT_UTF8_BUT = 'the byte 0x{byte} is not UTF-8 (in Windows-1252 it would be "{letter}")'
SAVE_AS_UTF8 = "save the file again as UTF-8"
STANDS_HERE = "{character} stands here"
MORE_LINES = (
    "{what}; {count} more line has characters that cannot be read",
    "{what}; {count} more lines have characters that cannot be read",
)


def text_of(data: bytes, file: str) -> str:
    """The text of `data` with plain newlines; raises `Refused` with every bad place.

    A UTF-8 byte order mark at the start is dropped, CR LF becomes a newline.
    """
    foreign = _foreign_encoding(data)
    if foreign:
        raise Refused(
            [Problem(Place(file, 1, 1), say(FOREIGN, encoding=foreign), say(SAVE_AS_UTF8))]
        )
    data = data.removeprefix(_BOM)
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError:
        raise Refused(_byte_problems(data, file)) from None
    text = text.replace("\r\n", "\n").removesuffix("\r")
    if FORBIDDEN.search(text):
        raise Refused(_character_problems(text, file))
    return text


def name_of(character: str) -> Said:
    """A character that cannot be shown, in words: "a tab", "the control character U+001B"."""
    if character == "\t":
        return say("a tab")
    code = f"U+{ord(character):04X}"
    if character == "\ufeff":
        return say("a byte order mark ({code}) in the middle of the file", code=code)
    if character in "\u2028\u2029":
        return say("the invisible line separator {code}", code=code)
    if "\ud800" <= character <= "\udfff":
        return say("half a character ({code})", code=code)
    if character in "\ufffe\uffff":
        return say("the code {code}, which is no character", code=code)
    return say("the control character {code}", code=code)


def _foreign_encoding(data: bytes) -> str:
    for mark, name in _FOREIGN_MARKS:
        if data.startswith(mark):
            return name
    # Latin text in UTF-16 without a mark: every other byte is zero.
    head = data[: min(len(data), 400) // 2 * 2]  # a torn tail may have taken half a letter
    if len(head) >= 4:
        for zeros, letters in ((head[1::2], head[::2]), (head[::2], head[1::2])):
            if not zeros.strip(b"\x00") and 0 not in letters:
                return "UTF-16"
    return ""


def _byte_problems(data: bytes, file: str) -> list[Problem]:
    """One problem for each line with bytes that are no UTF-8, at the first of them."""
    problems: list[Problem] = []
    bad_lines = 0
    for number, raw in enumerate(data.split(b"\n"), start=1):
        try:
            raw.decode("utf-8")
        except UnicodeDecodeError as error:
            bad_lines += 1
            if len(problems) < _MOST_LINES:
                column = len(raw[: error.start].decode("utf-8")) + 1
                line = raw.removesuffix(b"\r").decode("utf-8", errors="backslashreplace")
                what = _not_utf8(raw, error.start)
                problems.append(Problem(Place(file, number, column), what, say(SAVE_AS_UTF8), line))
    return _with_rest(problems, bad_lines)


def _not_utf8(raw: bytes, start: int) -> Said:
    byte = f"{raw[start]:02X}"
    letter = raw[start : start + 1].decode("cp1252", errors="replace")
    return say(NOT_UTF8_BUT if letter.isalpha() else NOT_UTF8, byte=byte, letter=letter)


def _character_problems(text: str, file: str) -> list[Problem]:
    problems: list[Problem] = []
    bad_lines = 0
    for number, line in enumerate(text.split("\n"), start=1):
        found = FORBIDDEN.search(line)
        if not found:
            continue
        bad_lines += 1
        if len(problems) < _MOST_LINES:
            problems.append(_character_problem(found, Place(file, number, found.start() + 1), line))
    return _with_rest(problems, bad_lines)


def _character_problem(found: re.Match[str], place: Place, line: str) -> Problem:
    character = found.group()
    if character == "\t":
        return Problem(
            place, say("a tab stands here"), say("write spaces instead of the tab"), line
        )
    if character == "\x00":
        return Problem(
            place,
            say("a NUL byte stands here: this is no text file"),
            say("give a text file; if it was one, take an older copy of it"),
            line,
        )
    return Problem(place, say(STANDS_HERE, character=name_of(character)), say("delete it"), line)


def _with_rest(problems: list[Problem], bad_lines: int) -> list[Problem]:
    """Says at the last problem how many more lines are bad, so that none is kept quiet."""
    rest = bad_lines - len(problems)
    if rest:
        last = problems[-1]
        what = say_count(*MORE_LINES, count=rest, what=last.what)
        problems[-1] = Problem(last.place, what, last.instead, last.line)
    return problems
