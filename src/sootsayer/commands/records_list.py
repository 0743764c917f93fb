"""`sootsayer records list`."""

from __future__ import annotations

import argparse

SUMMARY = "list"
DESCRIPTION = "list"
EXAMPLE = "example:\n  sootsayer records list x"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""


def run(arguments: argparse.Namespace) -> int:
    return 0
