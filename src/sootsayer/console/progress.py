"""A bar while something takes long, on a terminal only."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TextIO

from rich.console import Console
from rich.progress import (
    BarColumn,
    MofNCompleteColumn,
    Progress,
    TextColumn,
    TimeRemainingColumn,
)

from sootsayer.catalogue import Said, say
from sootsayer.console.screen import has_colour

READING = "Reading the log"
REPLAYING = "Giving verdicts again"


@contextmanager
def reading_bar(size: int, stream: TextIO, label: str = READING) -> Iterator[Callable[[int], None]]:
    """Gives the function to tell of bytes read, or of what else is done; it goes away when done."""
    console = Console(file=stream, no_color=not has_colour(stream), legacy_windows=False)
    columns = (
        TextColumn(say(label)), BarColumn(), TextColumn("{task.percentage:>3.0f} %"),
        TimeRemainingColumn(),
    )  # fmt: skip
    with Progress(*columns, console=console, transient=True) as progress:
        task = progress.add_task("", total=max(size, 1))
        yield lambda count: progress.advance(task, count)


@contextmanager
def counting_bar(doing: Said, total: int, stream: TextIO | None) -> Iterator[Callable[[int], None]]:
    """Gives the function to tell of how many more are done; nothing is drawn but on a terminal."""
    if stream is None or not stream.isatty():
        yield lambda _: None
        return
    console = Console(file=stream, no_color=not has_colour(stream), legacy_windows=False)
    columns = (TextColumn(doing), BarColumn(), MofNCompleteColumn(), TimeRemainingColumn())
    with Progress(*columns, console=console, transient=True) as progress:
        task = progress.add_task("", total=max(total, 1))
        yield lambda count: progress.advance(task, count)
