"""`sootsayer records replay`."""

from __future__ import annotations

import argparse

SUMMARY = "replay"
DESCRIPTION = "replay"
EXAMPLE = "example:\n  sootsayer records replay x"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""


def run(arguments: argparse.Namespace) -> int:
    return 0
