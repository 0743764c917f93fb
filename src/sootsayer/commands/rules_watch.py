"""Something done again at each save of a pack, until Ctrl-C."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path

from sootsayer.catalogue import say, say_count
from sootsayer.commands.guard import guarded
from sootsayer.commands.leaving import INTERRUPTED
from sootsayer.console.output import write

PAUSE = 0.4  # seconds between two looks at the files
WATCHING = (
    "Watching {count} pack; Ctrl-C ends it.\n",
    "Watching {count} packs; Ctrl-C ends it.\n",
)
AGAIN = "\n{file} has changed.\n"

State = dict[Path, tuple[int, int]]


def watched(
    do: Callable[[], int], folders: Callable[[], list[Path]], most: int | None = None
) -> int:
    """Do it now, and again whenever a pack in the folders changes, comes or goes.

    What goes wrong is told, and it goes on. `most`: how often at most (for tests).
    """
    code = _once(do)
    done = 1
    state = _state(folders())
    write(say_count(*WATCHING, count=len(state)), sys.stdout)
    while most is None or done < most:
        time.sleep(PAUSE)
        now = _state(folders())
        changed = sorted(path for path in {*now, *state} if now.get(path) != state.get(path))
        if not changed:
            continue
        state = now
        write(say(AGAIN, file=str(changed[0])), sys.stdout)
        code = _once(do)
        done += 1
    return code


def _once(do: Callable[[], int]) -> int:
    """Raises KeyboardInterrupt where Ctrl-C came while it was done."""
    code = guarded(do)
    if code == INTERRUPTED:
        raise KeyboardInterrupt
    return code


def _state(folders: list[Path]) -> State:
    """Every pack with the time and size of its file; what cannot be looked at is left out."""
    found: State = {}
    for folder in folders:
        try:
            files = sorted(folder.glob("*.yaml")) if folder.is_dir() else [folder]
        except OSError:
            continue
        for file in files:
            try:
                status = file.stat()
            except OSError:
                continue
            found[file] = (status.st_mtime_ns, status.st_size)
    return found
