"""The program `sootsayer`: finds the command, runs it, and lets no traceback out."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Collection, Sequence
from importlib import import_module
from types import ModuleType

from sootsayer import __version__
from sootsayer.catalogue import OWN, say, speak, speaking
from sootsayer.commands.guard import guarded
from sootsayer.commands.leaving import DONE, Stop
from sootsayer.commands.tongue import early, option
from sootsayer.commands.usage import (
    HelpShape,
    Parser,
    add_each,
    add_language,
    short,
)
from sootsayer.console.output import write

# In the order of the help. Each has a module of its name, which only describes itself when it is
# imported; what it needs it imports when it is run.
COMMANDS = (
    "ask",
    "judge",
    "why",
    "plan",
    "compare",
    "readings",
    "report",
    "records",
    "cases",
    "rules",
    "completion",
)

# They look at one case and end: what could be freed, meanwhile or at the end, is not worth it.
OVER_SOON = frozenset({"judge", "why", "plan", "compare"})

DESCRIPTION = """\
Sootsayer helps to find the fault around a diesel particulate filter. It reads a case,
says whether the vehicle may be driven, which faults explain what was found and how
sure it is, and shows why. The technician decides."""
EXAMPLE = """\
example:
  sootsayer judge blocked-by-short-trips

Each command has its own help: sootsayer judge --help"""
WELCOME = """\
Sootsayer {version}: fault isolation around the diesel particulate filter.

It asks what is worth knowing, says whether the vehicle may be driven, which
faults explain what was found and how sure it is, and shows why. The technician
decides.

What next:
  sootsayer judge blocked-by-short-trips
                             a verdict on one of {count} demonstration cases
  sootsayer cases list --demonstration
                             all of these, each with its story
  sootsayer ask              the guided questions, for a vehicle of yours
  sootsayer why CASE THING   the reasons of one thing in a case
  sootsayer plan CASE        the work: permitted or not, and at what cost
  sootsayer --help           everything else
"""
NUL_INSIDE = '"{word}" has a NUL in it, and no name or number has one'
NUL_NEXT = "give it again without the NUL"
NO_COMMAND = 'there is no command "{command}"'
COMMANDS_ARE = "the commands are: {known}"
DID_YOU_MEAN = 'did you mean "{near}"? The commands are: {known}'


def parser(only: Collection[str] = COMMANDS) -> Parser:
    """The whole command line, or what of it these commands need."""
    top = Parser(
        prog="sootsayer",
        description=DESCRIPTION,
        epilog=EXAMPLE,
        formatter_class=HelpShape,
        allow_abbrev=False,
    )
    top.add_argument(
        "--version",
        action="version",
        version=f"sootsayer {__version__}",
        help=say("say which version"),
    )
    add_language(top)
    commands = top.add_subparsers(
        dest="command", metavar="COMMAND", title="commands", parser_class=Parser
    )
    add_each(commands, {name: module_of(name) for name in only})
    return top


def main(argv: Sequence[str] | None = None) -> int:
    """Run the program; the exit code. Prints to stdout, complains on stderr."""
    with speaking(OWN):  # whatever language is chosen, it ends with the run
        return guarded(lambda: _run(argv))


def _run(argv: Sequence[str] | None) -> int:
    typed = list(sys.argv[1:] if argv is None else argv)
    speak(early(typed, os.environ))
    _check_words(typed)
    _check_command(typed)
    try:
        arguments = parser(_needed(typed)).parse_args(typed)
    except SystemExit as done:  # argparse leaves so after --help and --version
        return done.code if isinstance(done.code, int) else DONE
    arguments.language = option(typed, "--language")  # it may stand before the command too
    if arguments.command is None:
        from sootsayer.commands.opened import language_of

        language_of(arguments.language, None)
        _welcome()
        return DONE
    return _code(arguments)


def module_of(command: str) -> ModuleType:
    """What a command of `COMMANDS` is: SUMMARY, DESCRIPTION, EXAMPLE, `fill` and `run`."""
    return import_module(f"sootsayer.commands.{command}")


def _needed(typed: list[str]) -> Collection[str]:
    """The commands that can be meant: with an option before it, any."""
    return typed[:1] if typed and typed[0] in COMMANDS else COMMANDS


def _check_words(typed: list[str]) -> None:
    """Raises Stop for a word with a NUL: no system hands one over, but another program may."""
    for word in typed:
        if "\0" in word:
            raise Stop(say(NUL_INSIDE, word=short(word)), say(NUL_NEXT))


def _check_command(typed: list[str]) -> None:
    """Raises Stop for a first word that is no command, in plainer words than argparse has."""
    if not typed or typed[0].startswith("-") or typed[0] in COMMANDS:
        return
    from difflib import get_close_matches

    known = ", ".join(COMMANDS)
    what = say(NO_COMMAND, command=short(typed[0]))
    near = get_close_matches(typed[0][:100], COMMANDS, n=1, cutoff=0.6)
    if near:
        raise Stop(what, say(DID_YOU_MEAN, near=near[0], known=known))
    raise Stop(what, say(COMMANDS_ARE, known=known))


def _code(arguments: argparse.Namespace) -> int:
    code: int = module_of(arguments.command).run(arguments)
    return code


def _welcome() -> None:
    from sootsayer.commands.find_case import demonstration_cases
    from sootsayer.rulebook.shipped import shipped_cases

    count = len(demonstration_cases(shipped_cases()))
    write(say(WELCOME, version=__version__, count=count), sys.stdout)
