"""Short ways to ask the loader, shared by the tests of this room."""

from __future__ import annotations

from sootsayer.documents.nodes import Document, plain
from sootsayer.documents.parsers import have_libyaml
from sootsayer.documents.problems import Problem, Refused
from sootsayer.documents.yaml_source import parse_with

# Both parsers where libyaml is there, else the one there is.
PARSERS = [False, True] if have_libyaml() else [False]


def read(text: str | bytes, *, fast: bool = False, may_be_torn: bool = False) -> Document:
    """The document of `text` as file `f.yaml`."""
    data = text.encode("utf-8") if isinstance(text, str) else text
    return parse_with(data, "f.yaml", fast, may_be_torn=may_be_torn)


def refusal(text: str | bytes, *, fast: bool = False, may_be_torn: bool = False) -> list[Problem]:
    """The problems that `text` is refused for, [] where it is accepted."""
    try:
        read(text, fast=fast, may_be_torn=may_be_torn)
    except Refused as refused:
        return list(refused.problems)
    return []


def verdict(data: bytes, *, fast: bool) -> object:
    """The values, or the word "refused"."""
    try:
        return plain(read(data, fast=fast).root)
    except Refused:
        return "refused"
