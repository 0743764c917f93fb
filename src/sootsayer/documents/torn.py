"""The torn last line: what a writer that died half-way leaves behind."""

from __future__ import annotations

from typing import Any

from yaml import YAMLError
from yaml.events import (
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from sootsayer.documents.characters import FORBIDDEN
from sootsayer.documents.faults import DEEPEST
from sootsayer.documents.parsers import pure_events

_LONGEST_ENTRY = 1_000_000
_STEP: dict[type[Any], int] = {
    MappingStartEvent: 1,
    SequenceStartEvent: 1,
    MappingEndEvent: -1,
    SequenceEndEvent: -1,
}


def split_torn(data: bytes) -> tuple[bytes, bytes]:
    """(what to read, the torn tail). The tail is empty when nothing is torn.

    Torn is a last line without newline that is no whole mapping (`key: value`, `{...}` or
    `- {...}`). Nothing is lost with a comment or spaces, so these stay.
    """
    cut = data.rfind(b"\n") + 1
    tail = data[cut:]
    if not tail or _is_whole(tail):
        return data, b""
    return data[:cut], tail


def shown(tail: bytes) -> str:
    """The torn tail as text; bytes that are no UTF-8 appear as `\\xNN`."""
    return tail.decode("utf-8", errors="backslashreplace")


def _is_whole(tail: bytes) -> bool:
    try:
        text = tail.removeprefix(b"\xef\xbb\xbf").decode("utf-8").removesuffix("\r")
    except UnicodeDecodeError:
        return False
    if FORBIDDEN.search(text):
        return False
    bare = text.strip(" ")
    if not bare or bare.startswith("#"):
        return True
    if len(text) > _LONGEST_ENTRY:
        return False
    events: list[Any] = []
    depth = 0
    try:
        for event in pure_events(text):
            events.append(event)
            depth += _STEP.get(type(event), 0)
            if depth > DEEPEST:
                return True  # no slip of a writer; the reader refuses it, and reading on is slow
    except YAMLError:
        return False
    return _is_one_mapping(events)


def _is_one_mapping(events: list[Any]) -> bool:
    # 0 stream start, 1 document start, 2 the root (an item of the list `entries` or a key)
    if len(events) < 6:
        return False
    at = 2
    if isinstance(events[at], SequenceStartEvent):
        if events[at].flow_style:
            return False
        at += 1
    if not isinstance(events[at], MappingStartEvent):
        return False
    # `entries:` or `story:` without its value: the writer stopped behind the colon.
    value = events[at + 2]
    cut_behind_colon = (
        not events[at].flow_style
        and isinstance(value, ScalarEvent)
        and not value.value
        and not value.style
    )
    return not cut_behind_colon
