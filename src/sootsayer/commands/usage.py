"""Plain words for wrong usage, and the options that commands share."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterable, Mapping
from types import ModuleType
from typing import TYPE_CHECKING, Any, NoReturn

from sootsayer.catalogue import Said, say, shown, spoken
from sootsayer.commands.filling import filled
from sootsayer.commands.leaving import Stop
from sootsayer.commands.tongue import Known, known_as
from sootsayer.commands.usage_said import usage_said
from sootsayer.console.output import write

if TYPE_CHECKING:
    from _typeshed import SupportsWrite

WIDTH = 80  # of every help text, so that the docs hold the same bytes

USAGE = "usage: "
POSITIONALS = "positional arguments"
OPTIONS = "options"
SAY_HELP = "show this help message and exit"  # in the words of argparse
SEE_HELP = "see how it is used: {command} --help"
NO_LANGUAGE = 'there are no words in the language "{language}" yet'
LANGUAGE_NEXT = "leave --language out, or write one of: {known}"
NO_ENTRY_NUMBER = '"{text}" is no number of an entry'
ENTRY_NEXT = "count the case's entries from 1; 0 is the case before its first"
NO_ACTION = "no action is named"
ACTIONS_ARE = "name one of: {known}; each has its own help"


class HelpShape(argparse.RawDescriptionHelpFormatter):
    """Help of one width everywhere, in the language in force."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=WIDTH, max_help_position=26)

    def add_usage(
        self,
        usage: str | None,
        actions: Iterable[argparse.Action],
        groups: Iterable[argparse._MutuallyExclusiveGroup],
        prefix: str | None = None,
    ) -> None:
        super().add_usage(usage, actions, groups, spoken(USAGE) if prefix is None else prefix)

    def _metavar_formatter(
        self, action: argparse.Action, default_metavar: str
    ) -> Callable[[int], tuple[str, ...]]:
        named = super()._metavar_formatter(action, default_metavar)
        return lambda size: tuple(map(spoken, named(size)))

    def _get_help_string(self, action: argparse.Action) -> str | None:
        return None if action.help is None else spoken(action.help)

    def _fill_text(self, text: str, width: int, indent: str) -> str:
        return filled(text, width - len(indent))


class Parser(argparse.ArgumentParser):
    """Speaks the language in force, complains by raising `Stop`, and prints to any encoding.

    Texts are given in English: what is in `help` is translated as it is drawn.
    """

    def __init__(self, prog: str | None = None, **settings: Any) -> None:
        for name in ("description", "epilog"):
            if settings.get(name):
                settings[name] = spoken(settings[name])
        super().__init__(prog, **settings)
        self._positionals.title = spoken(POSITIONALS)
        self._optionals.title = spoken(OPTIONS)

    def add_subparsers(self, **settings: Any) -> Any:
        return super().add_subparsers(**{**settings, "title": spoken(settings["title"])})

    def error(self, message: str) -> NoReturn:
        raise Stop(usage_said(message), say(SEE_HELP, command=self.prog))

    def print_help(self, file: SupportsWrite[str] | None = None) -> None:
        if file is None:
            write(self.format_help(), sys.stdout)
        else:
            file.write(self.format_help())


def add_each(
    parsers: argparse._SubParsersAction[Parser], modules: Mapping[str, ModuleType]
) -> dict[str, Parser]:
    """A parser for each module, filled by it, by name: of a command, or of one of its actions."""
    made = {}
    for name, module in modules.items():
        made[name] = parsers.add_parser(
            name,
            help=module.SUMMARY,
            description=module.DESCRIPTION,
            epilog=module.EXAMPLE,
            formatter_class=HelpShape,
            allow_abbrev=False,
        )
        module.fill(made[name])
    return made


def add_actions(
    parser: argparse.ArgumentParser, modules: Mapping[str, ModuleType]
) -> dict[str, Parser]:
    """The actions of a command, each with a parser of its own."""
    return add_each(
        parser.add_subparsers(
            dest="action", metavar="ACTION", title="actions", parser_class=Parser
        ),
        modules,
    )


def run_action(arguments: argparse.Namespace, modules: Mapping[str, ModuleType]) -> int:
    """The exit code of the action that was named. Raises Stop where none was."""
    if arguments.action is None:
        raise Stop(say(NO_ACTION), say(ACTIONS_ARE, known=", ".join(modules)))
    code: int = modules[arguments.action].run(arguments)
    return code


def add_shared(parser: argparse.ArgumentParser) -> None:
    """The options that every command on one case has."""
    parser.add_argument("--json", action="store_true", help=say("print it as JSON, for a program"))
    add_moment(parser)


def add_moment(parser: argparse.ArgumentParser) -> None:
    """The options that say which state of a case, by which shop, in which words."""
    parser.add_argument(
        "--at",
        metavar="TIME",
        help=say(
            "judge as if it were TIME, written like 2031-03-14T09:02+01:00 "
            "(else now, or, of a closed or demonstration case, its last entry)"
        ),
    )
    parser.add_argument(
        "--as-of",
        metavar="ENTRY",
        help=say("judge as the case stood after entry ENTRY, counted from 1"),
    )
    parser.add_argument(
        "--shop",
        metavar="DIR",
        help=say("the shop's own folder (else SOOTSAYER_SHOP, else the nearest shop.yaml upward)"),
    )
    add_language(parser)


def add_language(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--language",
        metavar="LANGUAGE",
        help=say(
            "words to use, like en or fr (else SOOTSAYER_LANGUAGE, else the shop's, else as the "
            "system is set)"
        ),
    )


def check_language(language: str, known: Known) -> None:
    """Raises Stop for a language that there are no words in."""
    if known_as(language, known) is None:
        there_are = ", ".join(sorted(known()))
        raise Stop(say(NO_LANGUAGE, language=short(language)), say(LANGUAGE_NEXT, known=there_are))


def entry_number(text: str) -> int:
    """The number in `--as-of`. Raises Stop."""
    if text.isascii() and text.isdigit() and len(text) < 10:
        return int(text)
    raise Stop(say(NO_ENTRY_NUMBER, text=short(text)), say(ENTRY_NEXT))


def short(text: str, most: int = 60) -> Said:
    """What was typed, for a message: visible, and not longer than a line."""
    whole = shown(text)
    return whole if len(whole) <= most else Said(whole[: most - 1] + "…")
