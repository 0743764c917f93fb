"""Small bad packs beside the pack with one of everything, and what is said of them."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from sootsayer.documents.problems import Problem, Refused
from sootsayer.rulebook.compiled import load_rulebook

GOLDEN = Path(__file__).parent / "golden"
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


def said(problem: Problem) -> str:
    """A problem in one line, its file without the folder and the folders of others cut out."""
    place = f"{Path(problem.place.file).name}:{problem.place.line}:{problem.place.column}"
    folders = (f"{GOLDEN}/", f"{Path(problem.place.file).parent}/")
    text = f"{problem.what} | {problem.instead}"
    for folder in folders:
        text = text.replace(folder, "")
    return f"{place}: {text}"
