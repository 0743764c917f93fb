"""`sootsayer records verify`."""

from __future__ import annotations

import argparse

SUMMARY = "verify"
DESCRIPTION = "verify"
EXAMPLE = "example:\n  sootsayer records verify x"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""


def run(arguments: argparse.Namespace) -> int:
    return 0
