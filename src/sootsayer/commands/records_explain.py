"""`sootsayer records explain`."""

from __future__ import annotations

import argparse

SUMMARY = "explain"
DESCRIPTION = "explain"
EXAMPLE = "example:\n  sootsayer records explain x"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""


def run(arguments: argparse.Namespace) -> int:
    return 0
