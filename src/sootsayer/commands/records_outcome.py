"""`sootsayer records outcome`."""

from __future__ import annotations

import argparse

SUMMARY = "outcome"
DESCRIPTION = "outcome"
EXAMPLE = "example:\n  sootsayer records outcome x"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""


def run(arguments: argparse.Namespace) -> int:
    return 0
