"""The one place that makes sentences."""

from __future__ import annotations

import pytest

from sootsayer.catalogue import listed, say, say_count, shown


def test_slots_are_made_visible_once() -> None:
    """What comes from outside is escaped; what `say` made is not escaped again."""
    inner = say("{x}", x="\x1b[1m")
    assert inner == "\\x1b[1m"
    assert say("<{inner}>", inner=inner) == "<\\x1b[1m>"
    assert shown("\u202e") == "\\u202e"


def test_braces_from_outside_are_text() -> None:
    """A slot's text is never read as a template, nor are its attributes reached."""
    assert say("{x}", x="{y} {x.__class__}") == "{y} {x.__class__}"


def test_missing_slot_is_an_error() -> None:
    """A sentence with a hole is never said."""
    with pytest.raises(KeyError):
        say("{x} and {y}", x=1)


def test_count_chooses_the_template() -> None:
    """One and many are whole templates."""
    assert say_count("{count} check", "{count} checks", count=1) == "1 check"
    assert say_count("{count} check", "{count} checks", count=0) == "0 checks"
    assert listed([say("a"), say("b")]) == "a; b"
