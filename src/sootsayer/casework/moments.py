"""Points in time as a case writes them: RFC 3339, always with the offset from UTC."""

from __future__ import annotations

import re
from datetime import datetime

from sootsayer.catalogue import say

_MOMENT = re.compile(
    r"[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}(?::[0-9]{2}(?:\.[0-9]{1,6})?)?"
    r"(?P<offset>Z|[+-][0-9]{2}:[0-9]{2})?"
)
EXAMPLE = "2031-03-14T09:02+01:00"


class MomentRefused(ValueError):  # noqa: N818 (says the same as the other refusals)
    """No point in time; `instead` is the next action."""

    def __init__(self, what: str, instead: str) -> None:
        self.what = what
        self.instead = instead
        super().__init__(what)


def read_moment(text: str) -> datetime:
    """A point in time with its offset; seconds may be left out. Raises MomentRefused."""
    match = _MOMENT.fullmatch(text)
    if match is None:
        raise MomentRefused(
            say('"{text}" is no date and time', text=text),
            say("write it like {example}", example=EXAMPLE),
        )
    if match["offset"] is None:
        raise MomentRefused(
            say('"{text}" has no offset from UTC', text=text),
            say("add it: {text}+01:00, or {text}Z for UTC", text=text),
        )
    try:
        return datetime.fromisoformat(text)
    except ValueError:
        raise MomentRefused(
            say('"{text}" is no day of the calendar or no time of the day', text=text),
            say("write it like {example}", example=EXAMPLE),
        ) from None


def write_moment(at: datetime) -> str:
    """The shortest exact text of `at`. Raises ValueError without an offset."""
    offset = at.utcoffset()
    if offset is None:
        raise ValueError("a moment needs its offset from UTC")
    if offset.seconds % 60 or offset.microseconds:
        raise ValueError("an offset from UTC is given in whole minutes")
    exact = "minutes" if not (at.second or at.microsecond) else "auto"
    return at.isoformat(timespec=exact)
