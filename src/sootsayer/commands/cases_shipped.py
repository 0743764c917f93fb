"""`sootsayer cases list --demonstration`: the cases that came with the program, to try it on."""

from __future__ import annotations

import textwrap
from pathlib import Path

from sootsayer.casework.no_entries import parse_case
from sootsayer.catalogue import Said, say, shown
from sootsayer.documents.nodes import Scalar
from sootsayer.documents.reading import read_bytes

WIDTH = 80
HEADING = "Demonstration cases, to try any command on; nothing is ever written to them:"
LINE = "{case}: {story}"
TRY_ONE = "Try one: sootsayer judge {case}"


def lines_of(stories: dict[str, str], width: int = WIDTH) -> list[Said]:
    """The list as it is shown: each case with its story."""
    lines = [Said(line) for line in textwrap.wrap(say(HEADING), width)]
    for case, story in stories.items():
        told = textwrap.wrap(say(LINE, case=case, story=story), width, subsequent_indent="  ")
        lines += [Said(line) for line in told]
    return [*lines, *(say(TRY_ONE, case=case) for case in list(stories)[:1])]


def stories_in(folder: Path) -> dict[str, str]:
    """What each demonstration case is about, by its id."""
    found = {}
    for file in sorted(folder.glob("*.yaml")):
        story = parse_case(read_bytes(file, file.name), file.name).root.get("story")
        found[file.stem] = shown(story.text) if isinstance(story, Scalar) else ""
    return found
