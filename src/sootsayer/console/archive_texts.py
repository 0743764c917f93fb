"""The sentences of pages over an archive, each a whole template."""

from __future__ import annotations

FILES = (
    "{count} closed case of {folder}",
    "{count} closed cases of {folder}",
)
DRAWN = (
    "SYNTHETIC: {count} was drawn from the rulebook, not met: it proves nothing.",
    "SYNTHETIC: {count} were drawn from the rulebook, not met: they prove nothing.",
)
LEFT_HEADING = "Not replayed: {count}"
LEFT = {
    "open": ("{count} is open", "{count} are open"),
    "synthetic": (
        "{count} is synthetic (--synthetic takes it in)",
        "{count} are synthetic (--synthetic takes them in)",
    ),
    "twice": (
        "{count} has the id of another file, which counts",
        "{count} have the id of another file, which counts",
    ),
    "broken": ("{count} cannot be read", "{count} cannot be read"),
    "half-written": (
        "{count} ends in a half-written line and is not closed before it",
        "{count} end in a half-written line and are not closed before it",
    ),
    "unknown fault": (
        "{count} has an outcome with a fault that this rulebook does not have",
        "{count} have an outcome with a fault that this rulebook does not have",
    ),
    "other rulebook": (
        "{count} names what this rulebook does not have: written under another revision",
        "{count} name what this rulebook does not have: written under another revision",
    ),
    "not judged": ("{count} could not be judged", "{count} could not be judged"),
    "folder": (
        "{count} folder could not be looked into",
        "{count} folders could not be looked into",
    ),
}
NAMED = "{file}: {detail}"
NAMED_ALONE = "{file}"
TWICE = "{file}: {case} is also {detail}"
AND_MORE = "and {count} more; --json names up to a thousand"
TORN = (
    "{count} more was replayed without its half-written last line",
    "{count} more were replayed without their half-written last line",
)
NOTHING = "There is nothing to count: no closed case was found in {folder}."
NOTHING_NEXT = (
    "A case is closed by an outcome: what was wrong in the end. `sootsayer ask CASE` takes one."
)
CASES_NAMED = "{cases}"
CASES_MORE = "{cases} and {count} more"
