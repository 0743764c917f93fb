"""The clock of this machine. Nothing else looks at it."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta


def clock() -> datetime:
    """Now, with the offset of this place; in UTC where that cannot be written down.

    RFC 3339 writes offsets in whole minutes, below a day. A machine may be set to others: zones of
    before 1937 have seconds, and TZ may name a whole day and more.
    """
    now = datetime.now(UTC)
    try:
        here = now.astimezone()
    except ValueError:  # an offset of a day or more
        return now
    return now if (here.utcoffset() or timedelta()) % timedelta(minutes=1) else here


def to_the_second() -> datetime:
    """The same without a fraction, as entries and records have it."""
    return clock().replace(microsecond=0)
