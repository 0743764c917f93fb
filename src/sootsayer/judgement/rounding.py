"""One rounding for all that is said, so that shown, stored and compared are the same."""

from __future__ import annotations


def six(number: float) -> float:
    """To six decimals; never a negative zero."""
    return round(number, 6) + 0.0
