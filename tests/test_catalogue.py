"""The one place that makes sentences."""

from __future__ import annotations

import ast

import pytest

from sootsayer.catalogue import CALLED_BY_NUMBER, listed, say, say_count, shown, speaking
from tests.words.program import SOURCE, called, modules


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


def test_counts_are_written_as_the_language_writes_numbers() -> None:
    """Thousands of a count are apart where the language parts them; a number that a thing is
    called by is typed back, and stays as it is."""
    with speaking("fr"):
        assert say("{proofs}", proofs=1700) == "1\u00a0700"
        assert say_count("{count}", "{count} x", count=1700).startswith("1\u00a0700")
        assert say("{line}:{entry}", line=1700, entry=1234) == "1700:1234"
        assert say("{x}", x=True) == "True"
    assert say("{proofs}", proofs=1700) == "1700"


def test_what_is_called_by_a_number_is_known_by_its_slot() -> None:
    """No line, column, entry or record goes into a slot whose numbers are counts."""
    wrong = []
    for module in modules(SOURCE).values():
        for node in ast.walk(module.tree):
            if not isinstance(node, ast.Call) or called(node) not in {"say", "say_count"}:
                continue
            for each in node.keywords:
                value = each.value
                of = value.attr if isinstance(value, ast.Attribute) else ""
                named = of in {"line", "column", "number", "entry", "record"}
                if named and each.arg not in CALLED_BY_NUMBER:
                    wrong.append(f"{module.name}:{node.lineno}: {each.arg}")
    assert wrong == []
