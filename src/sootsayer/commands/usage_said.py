"""What argparse complains of, in the language in force.

argparse has its messages in English only, and puts them together itself. So they are read again
by their shape; one of a shape that is not known here is said as it is.
"""

from __future__ import annotations

import re

from sootsayer.catalogue import Said, say, shown

OF_ARGUMENT = "argument {name}: {message}"
# The shape of the message after `argument NAME: `, its named parts being the slots.
_SHAPES = (
    (r"the following arguments are required: (?P<names>.+)",
     "the following arguments are required: {names}"),
    (r"unrecognized arguments: (?P<names>.+)", "unrecognized arguments: {names}"),
    (r"one of the arguments (?P<names>.+) is required",
     "one of the arguments {names} is required"),
    (r"expected one argument", "expected one argument"),
    (r"expected at least one argument", "expected at least one argument"),
    (r"expected at most one argument", "expected at most one argument"),
    (r"not allowed with argument (?P<other>.+)", "not allowed with argument {other}"),
    (r"ignored explicit argument (?P<value>.+)", "ignored explicit argument {value}"),
    (r"invalid choice: (?P<value>.+?) \(choose from (?P<known>.+)\)",
     "invalid choice: {value} (choose from {known})"),
)  # fmt: skip
_ARGUMENT = re.compile(r"argument (?P<name>[^:]+): (?P<message>.+)", re.S)


def usage_said(message: str) -> Said:
    """The complaint as a sentence."""
    of = _ARGUMENT.fullmatch(message)
    if of is not None:
        return say(OF_ARGUMENT, name=of["name"], message=_said(of["message"]))
    return _said(message)


def _said(message: str) -> Said:
    for shape, template in _SHAPES:
        found = re.fullmatch(shape, message, re.S)
        if found is not None:
            return say(template, **found.groupdict())
    return shown(message)
