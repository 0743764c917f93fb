"""What is wrong with a file, where, and what would be right."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sootsayer.catalogue import Said, say, say_count, shown
from sootsayer.documents.nodes import Place

# Nothing longer is a slip of the finger, and comparing long texts takes long.
_LONGEST_NAME = 80

# Both of these offer one word in the place of another (`mended` knows them).
DID_YOU_MEAN = 'did you mean "{name}"?'
WRITE_NAME = 'write "{name}"'
WRITE = "write {right}"
LEAVE_IT_OUT = "leave it out"


@dataclass(frozen=True, slots=True)
class Problem:
    """One fault in a file.

    `what` is wrong, `instead` says what would be right (the next action), `line` is the
    offending line as it stands in the file, "" where there is none. The texts may hold
    anything that stood in the file: whoever shows them escapes them. `first`: others may only
    follow from it (a pack that is not read at all), so it is told before them.
    """

    place: Place
    what: str
    instead: str
    line: str = ""
    first: bool = False


class Refused(Exception):  # noqa: N818 (reads as it is said)
    """A file or several were refused; `problems` has every fault found in one run, in order,
    what others follow from first."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(sorted(problems, key=lambda p: (not p.first, p.place, p.what)))
        super().__init__(say_count("{count} problem", "{count} problems", count=len(self.problems)))

    def __reduce__(self) -> tuple[type[Refused], tuple[tuple[Problem, ...]]]:
        """It goes whole from one process to another, which an exception does not by itself."""
        return Refused, (self.problems,)


def did_you_mean(word: str, known: Sequence[str] | Iterable[str]) -> Said:
    """`did you mean "dp"?`, or "" where nothing known is near.

    Capitals, and spaces, hyphens and underscores for one another, count as no difference.
    """
    if len(word) > _LONGEST_NAME:
        return Said("")
    from difflib import get_close_matches

    names: dict[str, str] = {}
    for name in sorted(known):
        names.setdefault(_loosely(name), name)
    near = get_close_matches(_loosely(word), names, n=1, cutoff=0.6)
    return say(DID_YOU_MEAN, name=names[near[0]]) if near else Said("")


def either(words: Sequence[object]) -> Said:
    """`a, b or c`: a choice, in the order given; "" for none."""
    if len(words) < 2:
        return shown(words[0]) if words else Said("")
    first = ", ".join(shown(word) for word in words[:-1])
    return say("{first} or {last}", first=first, last=words[-1])


def _loosely(name: str) -> str:
    return name.casefold().replace("_", "-").replace(" ", "-")
