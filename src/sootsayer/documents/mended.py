"""The line as it would be right, where a problem says so exactly."""

from __future__ import annotations

import re

from sootsayer.catalogue import say
from sootsayer.documents.problems import DID_YOU_MEAN, WRITE_NAME, Problem

# What says that the word that stands there is to be another one; `_word` finds it again in
# whatever language it was said.
_OF_WORDS = (DID_YOU_MEAN, WRITE_NAME)
_MARK = "§"
# ... write `was: 5 mbar`: the value of this key is to be another one.
_KEY = re.compile(r"`([a-z ]+): ([^`\n]+)`$")
# What is quoted, as English and as French quote.
_THERE = re.compile(r'["«]\u00a0?([^"«»\n]+?)\u00a0?["»]')


def mended(problem: Problem) -> str | None:
    """The mended line; None where what is to be done is no change of a few characters there."""
    word = _word(problem.instead)
    if word is not None:
        return _with_word(problem, word)
    key = _KEY.search(problem.instead)
    return None if key is None else _with_value(problem.line, key[1], key[2])


def _word(instead: str) -> str | None:
    """The word offered at the end of `instead`, None where there is none."""
    for template in _OF_WORDS:
        said = re.escape(say(template, name=_MARK)).replace(_MARK, r'([^"\n]+)')
        found = re.search(f"{said}$", instead)
        if found is not None:
            return found[1]
    return None


def _with_word(problem: Problem, word: str) -> str | None:
    """The first thing quoted in the problem that stands at its place, replaced."""
    start = problem.place.column - 1
    for wrong in _THERE.findall(problem.what):
        for text in (wrong, f'"{wrong}"'):
            if problem.line.startswith(text, start):
                return problem.line[:start] + word + problem.line[start + len(text) :]
    return None


def _with_value(line: str, key: str, value: str) -> str | None:
    found = list(re.finditer(rf"(?<![\w-]){re.escape(key)}: *", line))
    if len(found) != 1:
        return None
    start = found[0].end()
    return line[:start] + value + line[_end_of_value(line, start) :]


def _end_of_value(line: str, start: int) -> int:
    """Where the value that begins at `start` ends: at a comma or bracket of its own level."""
    depth = 0
    for index in range(start, len(line)):
        if line[index] in "{[":
            depth += 1
        elif line[index] in "}]":
            if depth == 0:
                return index
            depth -= 1
        elif depth == 0 and (line[index] == "," or line.startswith(" #", index)):
            return index
    return len(line)
