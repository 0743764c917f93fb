"""Where the shipped packs and demonstration cases are."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent
_CHECKOUT = _PACKAGE.parent.parent


def shipped_rules() -> Path:
    """The folder of the shipped packs: in the installed package, else in the checkout."""
    return _shipped("rules")


def shipped_cases() -> Path:
    """The folder of the demonstration cases: in the installed package, else in the checkout."""
    return _shipped("cases")


def _shipped(name: str) -> Path:
    inside = _PACKAGE / "shipped" / name
    return inside if inside.is_dir() else _CHECKOUT / name
