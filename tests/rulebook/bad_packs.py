"""Small bad packs beside the pack with one of everything, and what is said of them."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from sootsayer.documents.problems import Problem, Refused
from sootsayer.rulebook.compiled import load_rulebook

GOLDEN = Path(__file__).parent / "golden"
SHOP = Path(__file__).parent / "golden_shop"
EXAMPLES = Path(__file__).parent / "bad-packs.txt"
HEAD = """\
pack: bad
format: 1
title: A bad pack
uses: [one-of-everything]
basis: {kind: common practice}
"""
FIRST_LINE = HEAD.count("\n") + 1


def problems_of(folder: Path, packs: Mapping[str, str], *, beside: bool = True) -> list[Problem]:
    """What is wrong with the packs (name to text), beside the golden one unless told."""
    for name, text in packs.items():
        (folder / f"{name}.yaml").write_text(text, encoding="utf-8")
    try:
        load_rulebook([folder, GOLDEN] if beside else [folder])
    except Refused as refused:
        return list(refused.problems)
    return []


def said(problem: Problem, folder: Path) -> str:
    """A problem in one line, the folders of its files left out."""
    text = f"{problem.place}: {problem.what} | {problem.instead}"
    for each in (GOLDEN, folder):
        text = text.replace(f"{each}/", "")
    return text


def examples() -> dict[str, tuple[str, list[str]]]:
    """Every bad pack of bad-packs.txt: its name to its text and what is said of it."""
    found = {}
    for part in EXAMPLES.read_text(encoding="utf-8").split("=== ")[1:]:
        name, _, rest = part.partition("\n")
        body, _, expected = rest.partition("---\n")
        text = body if body.startswith("pack: ") else HEAD + body
        found[name] = (text, expected.splitlines())
    return found
