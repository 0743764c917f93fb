"""`sootsayer records export`."""

from __future__ import annotations

import argparse

SUMMARY = "export"
DESCRIPTION = "export"
EXAMPLE = "example:\n  sootsayer records export x"


def fill(parser: argparse.ArgumentParser) -> None:
    """Its arguments."""


def run(arguments: argparse.Namespace) -> int:
    return 0
