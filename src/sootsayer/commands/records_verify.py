"""`sootsayer records verify`: whether the ledger is whole."""

from __future__ import annotations

import argparse
import re
import sys

from sootsayer.catalogue import say
from sootsayer.commands.leaving import DONE, NO, WRONG, Stop
from sootsayer.commands.records_shared import add_json, add_ledger, add_shop, ledger_of
from sootsayer.commands.usage import short
from sootsayer.console.output import write

SUMMARY = "whether any record was changed, removed, inserted or moved"
DESCRIPTION = """\
Read the whole ledger: each record must fit its digest, name the one before, and rest
on texts that are as they were. The first place where that fails is named. With
--head also: whether the digest that was kept on paper is the digest of a record here,
so that even a ledger that was written anew as a whole is found out."""
EXAMPLE = """\
example:
  sootsayer records verify
      whether the ledger is whole, and its head
  sootsayer records verify --head "3d1c7a20 99e0f4b1 ..."
      the digest from a job sheet, with or without spaces

The exit code is 0 for a whole ledger that holds the digest, 1 where not, and 2 where
it cannot be read or has a format that is not known here."""

_HEX = re.compile(r"[0-9a-f]+")
LEAST_DIGITS, ALL_DIGITS = 16, 64
NO_DIGEST = '"{text}" is no digest'
NO_DIGEST_NEXT = "copy the digest from the job sheet: 64 digits 0 to 9 and a to f, at least 16"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""
    parser.add_argument("--head", metavar="DIGEST", help=say("a digest that was kept on paper"))
    add_json(parser)
    add_ledger(parser)
    add_shop(parser)


def run(arguments: argparse.Namespace) -> int:
    """Check and tell. Raises Stop, Refused and OSError."""
    from sootsayer.ledger.chain import check
    from sootsayer.ledger.model import Wrong

    head = None if arguments.head is None else _digest(arguments.head)
    ledger = ledger_of(arguments)
    found = check(ledger, head=head)
    if arguments.json:
        from sootsayer.commands.opened import as_text
        from sootsayer.console.records_verify import as_json

        write(as_text(as_json(found, head)), sys.stdout)
    else:
        from sootsayer.console.records_verify import told
        from sootsayer.console.screen import show

        show(told(found, head), sys.stdout)
    if found.flaw is not None:
        return WRONG if found.flaw.wrong is Wrong.OTHER_FORMAT else NO
    return NO if head is not None and found.asked_for is None else DONE


def _digest(text: str) -> str:
    """As typed from paper: spaces and capitals count for nothing. Raises Stop."""
    bare = "".join(text.split()).lower()
    if not _HEX.fullmatch(bare) or not LEAST_DIGITS <= len(bare) <= ALL_DIGITS:
        raise Stop(say(NO_DIGEST, text=short(text)), say(NO_DIGEST_NEXT))
    return bare
