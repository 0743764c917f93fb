"""What argparse complains of, in the language in force.

argparse has its messages in English only, and puts them together itself. So they are read again
by their shape; one of a shape that is not known here is said as it is.
"""

from __future__ import annotations

import re

from sootsayer.catalogue import Said, say, shown, spoken

OF_ARGUMENT = "argument {name}: {message}"
# The shape of what follows `argument NAME: `, its slots being what argparse filled in.
SHAPES = (
    "the following arguments are required: {names}",
    "unrecognized arguments: {names}",
    "one of the arguments {names} is required",
    "expected one argument",
    "expected at least one argument",
    "expected at most one argument",
    "not allowed with argument {names}",
    "ignored explicit argument {value}",
    "invalid choice: {value} (choose from {known})",
)
NAMES = "names"  # of arguments; they have words of their own: CASE
_ARGUMENT = re.compile(r"argument (?P<name>[^:]+): (?P<message>.+)", re.S)


def usage_said(message: str) -> Said:
    """The complaint as a sentence."""
    of = _ARGUMENT.fullmatch(message)
    if of is not None:
        return say(OF_ARGUMENT, name=spoken(of["name"]), message=_said(of["message"]))
    return _said(message)


def _said(message: str) -> Said:
    for template in SHAPES:
        found = re.fullmatch(_pattern(template), message, re.S)
        if found is not None:
            slots = found.groupdict()
            if NAMES in slots:
                slots[NAMES] = ", ".join(map(spoken, slots[NAMES].split(", ")))
            return say(template, **slots)
    return shown(message)


def _pattern(template: str) -> str:
    """What the template matches, each slot by its name."""
    return re.sub(r"\\{([a-z]+)\\}", r"(?P<\1>.+?)", re.escape(template))
