"""Sentences in files that the program writes for people to go on with."""

from __future__ import annotations

from sootsayer.catalogue import Said


def comment(said: Said, indent: int = 0) -> str:
    """A sentence as a comment of YAML, without its last newline."""
    return "\n".join(f"{' ' * indent}# {line}".rstrip() for line in said.split("\n"))
