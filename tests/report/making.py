"""Reports of the demonstration cases and of made ones, as the command writes them."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from sootsayer.commands.find_case import demonstration_cases
from sootsayer.commands.main import main
from sootsayer.rulebook.shipped import shipped_cases

CASES = demonstration_cases(shipped_cases())
USUAL = "estate-before-and-after"


@cache
def written(case: str, folder: Path, *options: str) -> str:
    """The report as a file holds it."""
    out = folder / f"{len(list(folder.iterdir()))}.out"
    assert main(["report", case, "-o", str(out), *options]) == 0
    return out.read_text(encoding="utf-8")


def made(folder: Path, *lines: str, label: str = "2.0 L van", story: str = "A van.") -> str:
    """The path of a case with these entry lines; texts as YAML."""
    path = folder / "made.yaml"
    head = f"case: made\nformat: 1\nstory: {story}\nvehicle: {{label: {label}}}\nentries:\n"
    path.write_text(head + "".join(f"{line}\n" for line in lines), encoding="utf-8")
    return str(path)
