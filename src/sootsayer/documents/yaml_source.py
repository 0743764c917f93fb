"""One way in for every YAML file: bytes to a `Document`, or every reason why not."""

from __future__ import annotations

import re
from pathlib import Path

from yaml import YAMLError

from sootsayer.catalogue import say
from sootsayer.documents.building import Builder
from sootsayer.documents.characters import text_of
from sootsayer.documents.faults import Faults, TooManyFaultsError
from sootsayer.documents.nodes import Document, Listing, Mapping, Node, Place
from sootsayer.documents.parsers import EventSource, fast_events, have_libyaml, pure_events
from sootsayer.documents.problems import Problem, Refused
from sootsayer.documents.reading import check_size, read_bytes
from sootsayer.documents.resting import collector_at_rest
from sootsayer.documents.syntax_words import syntax_problem, unreadable
from sootsayer.documents.torn import shown, split_torn

# The Python parser reads about 100 kB in a second; beyond this an error is placed by
# libyaml alone, without its reason.
_LONGEST_REREAD = 1_000_000
_DIRECTIVE = re.compile(r"^%", re.MULTILINE)
_HOLDS_A_LIST = "the file holds a list, not keys with values"
_HOLDS_A_TEXT = "the file holds a text, not keys with values"
_START_ANEW = 'write "key: value" lines'


def read_document(
    path: Path, *, shown_as: str | None = None, may_be_torn: bool = False
) -> Document:
    """Reads one file. `shown_as` is the name in places (default: the path as given).

    With `may_be_torn` a torn last line is left out and returned in `Document.torn`; its line
    number is `len(lines) + 1`. Raises `Refused` with every problem found, and nothing else.
    """
    file = str(path) if shown_as is None else shown_as
    return parse_document(read_bytes(path, file), file, may_be_torn=may_be_torn)


def parse_document(data: bytes, file: str, *, may_be_torn: bool = False) -> Document:
    """As `read_document`, from bytes already read."""
    return parse_with(data, file, have_libyaml(), may_be_torn=may_be_torn)


def parse_with(data: bytes, file: str, fast: bool, *, may_be_torn: bool = False) -> Document:
    """As `parse_document`, with libyaml (`fast`) or the Python parser; verdicts are the same."""
    check_size(data, file)
    data, tail = split_torn(data) if may_be_torn else (data, b"")
    text = text_of(data, file)
    lines = text.removesuffix("\n").split("\n") if text else []
    directive = _DIRECTIVE.search(text)
    if directive:
        faults = Faults(file, lines)
        faults.directive(Place(file, text.count("\n", 0, directive.start()) + 1, 1))
        raise Refused(faults.found)
    root = _parse(text, file, lines, fast)
    return Document(file, root, tuple(lines), shown(tail) if tail else None)


def _parse(text: str, file: str, lines: list[str], fast: bool) -> Mapping:
    faults, builder, error = _attempt(fast_events if fast else pure_events, text, file, lines)
    if error and fast:
        fast_error = error
        if len(text) <= _LONGEST_REREAD:
            faults, builder, error = _attempt(pure_events, text, file, lines)
        if error is fast_error or (error is None and not faults.found):
            # Only libyaml objects, or the file is too long to ask the other.
            faults.found.append(unreadable(fast_error, file, lines))
            error = None
    if error:
        faults.found.append(syntax_problem(error, file, lines, builder.open_bracket))
    if faults.found:
        raise Refused(faults.found)
    root = builder.root
    if isinstance(root, Mapping):
        return root
    raise Refused([_no_mapping(root, file, lines)])


def _attempt(
    source: EventSource, text: str, file: str, lines: list[str]
) -> tuple[Faults, Builder, YAMLError | None]:
    faults = Faults(file, lines)
    builder = Builder(faults)
    try:
        with collector_at_rest():
            builder.take(source(text))
    except TooManyFaultsError:
        return faults, builder, None
    except YAMLError as error:
        return faults, builder, error
    return faults, builder, None


def _no_mapping(root: Node | None, file: str, lines: list[str]) -> Problem:
    if root is None:
        return Problem(Place(file, 1, 1), say("the file is empty"), say(_START_ANEW))
    what = _HOLDS_A_LIST if isinstance(root, Listing) else _HOLDS_A_TEXT
    quoted = lines[root.place.line - 1] if root.place.line <= len(lines) else ""
    return Problem(root.place, say(what), say(_START_ANEW), quoted)
