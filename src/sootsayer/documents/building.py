"""YAML events to nodes in one pass, without recursion, collecting every fault on the way."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from sootsayer.documents.characters import FORBIDDEN
from sootsayer.documents.faults import DEEPEST, Faults
from sootsayer.documents.nodes import Listing, Mapping, Node, Place, Scalar
from sootsayer.documents.scalars import DECIMAL_COMMA, NUMBER_OR_WORD, plain_value

_BLOCK_HEADER_WITH_COMMENT = re.compile(r"[|>][-+0-9]*#")


class _Open:
    """A mapping or list whose end has not come yet. `key` is the mapping key that waits."""

    __slots__ = (
        "before",
        "flow",
        "is_map",
        "items",
        "key",
        "key_event",
        "key_place",
        "key_places",
        "listed",
        "place",
        "stray",
        "stray_place",
    )

    def __init__(self, place: Place, *, is_map: bool, flow: bool) -> None:
        self.place = place
        self.is_map = is_map
        self.flow = flow
        self.items: dict[str, Node] = {}
        self.key_places: dict[str, Place] = {}
        self.listed: list[Node] = []
        self.key: str | None = None
        self.key_place = place
        self.key_event: Any = None
        # Keys without colon in braces, in a row, and the key before them.
        self.stray: list[str] = []
        self.stray_place = place
        self.before: str | None = None


class Builder:
    """Takes events; afterwards `root` is the finished node (None: nothing there)."""

    def __init__(self, faults: Faults) -> None:
        self.root: Node | None = None
        self._faults = faults
        self._file = faults.file
        self._open: list[_Open] = []
        self._documents = 0

    def take(self, events: Iterator[Any]) -> None:
        """Takes `yaml.events` until the end, or until what follows would make no sense.

        Raises what the events raise (`yaml.YAMLError`) and `TooManyFaultsError`.
        """
        for event in events:
            kind = type(event)
            if kind is ScalarEvent:
                self._scalar(event)
            elif kind is MappingStartEvent or kind is SequenceStartEvent:
                if not self._start(event, is_map=kind is MappingStartEvent):
                    return
            elif kind is MappingEndEvent or kind is SequenceEndEvent:
                self._end()
            elif kind is AliasEvent:
                place = self._place(event)
                self._faults.alias(place, event.anchor)
                self._add(Scalar("", "", place, True), place)
            elif kind is DocumentStartEvent and not self._document(event):
                return

    @property
    def open_bracket(self) -> Place | None:
        """Where the innermost bracket stands that is still open."""
        return self._open[-1].place if self._open and self._open[-1].flow else None

    def _place(self, event: Any) -> Place:
        mark = event.start_mark
        return Place(self._file, mark.line + 1, mark.column + 1)

    def _document(self, event: Any) -> bool:
        self._documents += 1
        if event.version or event.tags:
            self._faults.directive(self._place(event))
        if self._documents > 1:
            self._faults.second_document(self._place(event))
        return self._documents == 1

    def _properties(self, event: Any, place: Place) -> None:
        if event.anchor is not None:
            self._faults.anchor(place, event.anchor)
        if event.tag is not None:
            self._faults.tag(place)

    def _start(self, event: Any, *, is_map: bool) -> bool:
        place = self._place(event)
        if event.anchor is not None or event.tag is not None:
            self._properties(event, place)
        if len(self._open) >= DEEPEST:
            self._faults.too_deep(place)
            return False
        self._open.append(_Open(place, is_map=is_map, flow=bool(event.flow_style)))
        return True

    def _end(self) -> None:
        done = self._open.pop()
        if not done.is_map:
            self._add(Listing(tuple(done.listed), done.place), done.place)
            return
        if done.stray:
            self._report_stray(done)
        self._add(Mapping(done.items, done.key_places, done.place), done.place)

    def _add(self, node: Node, place: Place) -> None:
        """Puts a finished node where it belongs."""
        if not self._open:
            self.root = node
            return
        top = self._open[-1]
        if not top.is_map:
            top.listed.append(node)
        elif top.key is None:
            if not isinstance(node, Scalar):
                self._faults.key_is_no_text(place)
            top.key = ""
            top.key_place = place
            top.key_event = None
        else:
            if top.stray:
                self._report_stray(top)
            top.items[top.key] = node
            top.key_places[top.key] = top.key_place
            top.key = None

    def _scalar(self, event: Any) -> None:
        # The busiest function of all: every call and look-up spared here counts.
        mark = event.start_mark
        place = Place(self._file, mark.line + 1, mark.column + 1)
        text: str = event.value
        style = event.style
        marked = event.anchor is not None or event.tag is not None
        if marked:
            self._properties(event, place)
        if style:
            self._check_styled(text, style, place)
        top = self._open[-1] if self._open else None
        if top is not None and top.is_map and top.key is None:
            if not style or text in top.items:
                self._check_key(top, text, style, place)
            top.key = text
            top.key_place = place
            top.key_event = event
        elif style:
            self._add(Scalar(text, text, place, True), place)
        elif text or marked:
            value = text if text[:1] not in NUMBER_OR_WORD else self._converted(text, place)
            self._add(Scalar(value, text, place), place)
        else:
            self._missing(top, place)

    def _check_styled(self, text: str, style: str, place: Place) -> None:
        if style == '"':
            found = FORBIDDEN.search(text)
            if found:
                self._faults.forbidden_character(place, found.group())
        elif style in ("|", ">"):
            self._check_block_header(place)

    def _check_block_header(self, place: Place) -> None:
        # libyaml lets `>#` pass, the Python parser does not.
        line = self._faults.quoted(place)
        found = _BLOCK_HEADER_WITH_COMMENT.match(line, place.column - 1)
        if found:
            self._faults.block_header(Place(place.file, place.line, found.end()))

    def _check_key(self, top: _Open, text: str, style: str | None, place: Place) -> None:
        if not style:
            if not text:
                self._faults.empty_key(place)
            elif text == "<<":
                self._faults.merge_key(place)
        if text in top.items:
            self._faults.duplicate_key(place, text, top.key_places[text])

    def _converted(self, text: str, place: Place) -> str | int | float | bool:
        try:
            value = plain_value(text)
        except ValueError:
            self._faults.long_number(place, text)
            return text
        if value == text and DECIMAL_COMMA.fullmatch(text):
            self._faults.decimal_comma(place, text)
        return value

    def _missing(self, top: _Open | None, place: Place) -> None:
        """An empty plain scalar: YAML's null."""
        if top is None:
            return
        if not top.is_map:
            self._faults.empty_item(place)
            top.listed.append(Scalar(None, "", place))
            return
        key = top.key or ""
        event = top.key_event
        if key and event is not None and top.flow and not self._has_colon(event):
            if not top.stray:
                top.stray_place = top.key_place
                top.before = next(reversed(top.items), None)
            top.stray.append(key)
        elif event is not None and (key or event.style):
            self._faults.no_value(top.key_place, key)
        top.items[key] = Scalar(None, "", place)
        top.key_places[key] = top.key_place
        top.key = None

    def _has_colon(self, key: Any) -> bool:
        mark = key.end_mark
        lines = self._faults.lines
        rest = lines[mark.line][mark.column :] if mark.line < len(lines) else ""
        return rest.lstrip(" ").startswith(":")

    def _report_stray(self, top: _Open) -> None:
        before = top.items[top.before] if top.before is not None else None
        self._faults.split_by_comma(top.stray_place, top.stray, top.before, before)
        top.stray = []
