"""How cases that were drawn, not met, are told from others."""

from __future__ import annotations

PREFIX = "synthetic-"
BY = "synthetic"


def is_synthetic(case: str) -> bool:
    """Whether a case of this id was drawn."""
    return case.startswith(PREFIX)
