"""YAML events, from libyaml where it is there and else from the pure Python parser.

The two must agree on every verdict, so `PureParser` mends PyYAML's own where libyaml (0.2.5
and later) differs: a question mark inside a text in brackets, and a colon before a bracket.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from yaml.events import Event
from yaml.parser import Parser
from yaml.reader import Reader
from yaml.scanner import Scanner, ScannerError
from yaml.tokens import ScalarToken

try:
    from yaml.cyaml import CParser
except ImportError:  # PyYAML built without libyaml
    CParser = None  # type: ignore[assignment,misc]

EventSource = Callable[[str], Iterator[Event]]

_BLANK = "\0 \n"
_BEFORE_COLON_ENDS = ",?[]{}"


class PureParser(Reader, Scanner, Parser):
    """PyYAML's Python parser with libyaml's rules; text must have passed `text_of`."""

    def __init__(self, text: str) -> None:
        Reader.__init__(self, text)
        Scanner.__init__(self)
        Parser.__init__(self)

    def scan_plain(self) -> ScalarToken:
        chunks: list[str] = []
        start = end = self.get_mark()
        indent = self.indent + 1
        spaces: list[str] = []
        while self.peek() != "#":
            length = self._plain_length()
            if length == 0:
                break
            self.allow_simple_key = False
            chunks.extend(spaces)
            chunks.append(self.prefix(length))
            self.forward(length)
            end = self.get_mark()
            spaces = self.scan_plain_spaces(indent, start)
            if not spaces or (not self.flow_level and self.column < indent):
                break
        return ScalarToken("".join(chunks), True, start, end)

    def _plain_length(self) -> int:
        length = 0
        while (character := self.peek(length)) not in _BLANK:
            if self.flow_level and character in ",[]{}":
                break
            if character == ":":
                after = self.peek(length + 1)
                if after in _BLANK:
                    break
                if self.flow_level and after in _BEFORE_COLON_ENDS:
                    self.forward(length)
                    raise ScannerError(None, None, "found unexpected ':'", self.get_mark())
            length += 1
        return length


def pure_events(text: str) -> Iterator[Event]:
    """Events from the pure Python parser; raises `yaml.YAMLError`."""
    parser = PureParser(text)
    while True:
        try:
            event = parser.get_event()
        except (ValueError, OverflowError):  # "\UFFFFFFFF" has no character
            problem = "expected escape sequence of a character"
            raise ScannerError(None, None, problem, parser.get_mark()) from None
        if event is None:
            return
        yield event


def fast_events(text: str) -> Iterator[Event]:
    """Events from libyaml; raises `yaml.YAMLError` (whose texts are not for showing)."""
    # `iter` with a sentinel asks libyaml without a Python frame for each event.
    return iter(CParser(text).get_event, None)


def have_libyaml() -> bool:
    """Whether libyaml is there."""
    return CParser is not None
