"""What several conditions rest on that must all be so, or of which some must."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from sootsayer.engine.joining import Flag
from sootsayer.engine.layout import Cells
from sootsayer.engine.sufficient import ALWAYS, Either, Sets

# The sets that decide each slot, by its cell; of one that is unknown it means nothing.
Seen = list[Sets]

# The sets that make a condition what it was compiled for; None where it is not that.
Support = Callable[[Cells, Seen, Either | None], Sets | None]


def every(parts: Sequence[Support], flags: Sequence[Flag] = ()) -> Support:
    if len(parts) == 1 and not flags:
        return parts[0]
    if len(flags) == 2 and not parts:
        return _two_flags(flags[0], flags[1])

    def all_of_them(cells: Cells, seen: Seen, either: Either | None) -> Sets | None:
        found: Sets = ALWAYS
        for i, value in flags:
            if cells[i] is not value:
                return None
            found &= seen[i]
        for part in parts:
            sets = part(cells, seen, either)
            if sets is None:
                return None
            found &= sets
        return found

    return all_of_them


def _two_flags(one: Flag, other: Flag) -> Support:
    (i, a), (j, b) = one, other

    def two(cells: Cells, seen: Seen, _either: Either | None) -> Sets | None:
        return seen[i] & seen[j] if cells[i] is a and cells[j] is b else None

    return two


def some(parts: Sequence[Support], flags: Sequence[Flag] = ()) -> Support:
    if len(parts) == 1 and not flags:
        return parts[0]

    def any_of_them(cells: Cells, seen: Seen, either: Either | None) -> Sets | None:
        if either is not None:
            found = [seen[i] for i, value in flags if cells[i] is value]
            told = (part(cells, seen, either) for part in parts)
            found.extend(sets for sets in told if sets is not None)
            return either(found) if found else None
        table = 0
        for i, value in flags:
            if cells[i] is value:
                table |= seen[i]  # type: ignore[operator]
        for part in parts:
            sets = part(cells, seen, None)
            if sets is not None:
                table |= sets  # type: ignore[operator]
        return table or None

    return any_of_them


def at_least(count: int, parts: Sequence[Support]) -> Support:
    """At least so many: for each number up to it, the sets that decide so many of the parts yet."""
    if count <= 0:
        return lambda _cells, _seen, _either: ALWAYS
    if count > len(parts):
        return lambda _cells, _seen, _either: None

    def enough(cells: Cells, seen: Seen, either: Either | None) -> Sets | None:
        reached: list[Sets | None] = [ALWAYS, *[None] * count]
        for part in parts:
            sets = part(cells, seen, either)
            if sets is not None:
                for n in range(count, 0, -1):
                    reached[n] = joined(reached[n], both(reached[n - 1], sets), either)
        return reached[count]

    return enough


def both(one: Sets | None, other: Sets | None) -> Sets | None:
    return None if one is None or other is None else one & other


def joined(one: Sets | None, other: Sets | None, either: Either | None) -> Sets | None:
    if one is None or other is None:
        return other if one is None else one
    if either is None:
        return one | other  # type: ignore[operator]
    return either((one, other))
