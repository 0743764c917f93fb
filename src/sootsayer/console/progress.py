"""A bar while something takes long, on a terminal that can draw it again, and nowhere else."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import TextIO

from rich.console import Console
from rich.progress import (
    BarColumn,
    MofNCompleteColumn,
    Progress,
    ProgressColumn,
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
    columns = (
        TextColumn(say(label)), BarColumn(), TextColumn("{task.percentage:>3.0f} %"),
        TimeRemainingColumn(),
    )  # fmt: skip
    with _bar(columns, stream, max(size, 1)) as advance:
        yield advance


@contextmanager
def counting_bar(doing: Said, total: int, stream: TextIO | None) -> Iterator[Callable[[int], None]]:
    """Gives the function to tell of how many more are done; nothing is drawn but on a terminal."""
    if stream is None or not stream.isatty():
        yield lambda _: None
        return
    columns = (TextColumn(doing), BarColumn(), MofNCompleteColumn(), TimeRemainingColumn())
    with _bar(columns, stream, max(total, 1)) as advance:
        yield advance


@contextmanager
def _bar(
    columns: Sequence[ProgressColumn], stream: TextIO, total: int
) -> Iterator[Callable[[int], None]]:
    console = Console(file=stream, no_color=not has_colour(stream), legacy_windows=False)
    if console.is_dumb_terminal:  # some versions of rich leave an empty line there
        yield lambda _: None
        return
    with Progress(*columns, console=console, transient=True) as progress:
        task = progress.add_task("", total=total)
        yield lambda count: progress.advance(task, count)
