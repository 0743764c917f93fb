"""The program as a process of its own: what `sootsayer` and `python -m sootsayer` start."""

from __future__ import annotations

import gc
import os
import sys

from sootsayer.commands.main import OVER_SOON, main


def run() -> None:
    """Run the program and end the process with its exit code."""
    if not OVER_SOON.intersection(sys.argv[1:2]):
        sys.exit(main())
    gc.disable()
    code = main()
    if not _watched():
        _leave(code)
    sys.exit(code)


def _watched() -> bool:
    """Whether a debugger, profiler or coverage looks on, which has to be told the end."""
    monitoring = getattr(sys, "monitoring", None)  # since Python 3.12, with six places for tools
    tools = () if monitoring is None else map(monitoring.get_tool, range(6))
    return sys.gettrace() is not None or sys.getprofile() is not None or any(tools)


def _leave(code: int) -> None:
    """End at once. Python would take apart all that was made, thing by thing, a tenth of the whole
    time; the system takes the memory back anyway. Everything is written by now."""
    try:
        for stream in (sys.stdout, sys.stderr):
            if stream is not None:
                stream.flush()
    except (OSError, ValueError):
        return  # Python says itself what there is to say
    os._exit(code)


if __name__ == "__main__":
    run()
