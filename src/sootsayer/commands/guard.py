"""The outermost wall: whatever happens inside, a message and an exit code, no traceback."""

from __future__ import annotations

import sys
from collections.abc import Callable

from sootsayer.catalogue import say
from sootsayer.commands.leaving import (
    DONE,
    INTERRUPTED,
    WRONG,
    Stop,
    complain,
    complain_problems,
    hush,
)
from sootsayer.commands.usage import short
from sootsayer.documents.problems import Refused
from sootsayer.documents.system_words import refusal_said

OS_TROUBLE = "{file}: {reason}"
OS_TROUBLE_BARE = "the system refused: {reason}"
OS_NEXT = "check that the file is there, may be read, and that the disk has room; then try again"
NOT_TEXT = "something here is not text that can be read as UTF-8"
NOT_TEXT_NEXT = "save the file as UTF-8, or type the name again, and try again"
TOO_MUCH = "this is nested too deeply or too big to be handled"
TOO_MUCH_NEXT = "split or shorten the file, and try again"
OUR_FAULT = "this is a fault of sootsayer, not of your case ({kind}: {detail})"
OUR_FAULT_NEXT = (
    "nothing was written; please report it with the command you typed and this line, and judge "
    "by hand meanwhile"
)


def guarded(run: Callable[[], int]) -> int:
    """The exit code of `run`, or of what went wrong in it."""
    try:
        if sys.stdout is None:  # closed by whoever started us: nobody to tell
            return WRONG
        return run()
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        hush(sys.stdout)  # whoever read us has enough; nothing is wrong
        return DONE
    except Exception as trouble:
        _tell(trouble)
        return WRONG


def _tell(trouble: Exception) -> None:
    """On stderr: what is wrong, and the next action."""
    if isinstance(trouble, Stop):
        complain(trouble.what, trouble.instead)
    elif isinstance(trouble, Refused):
        complain_problems(trouble.problems)
    elif isinstance(trouble, OSError):
        hush(sys.stdout)
        _tell_os(trouble)
    elif isinstance(trouble, UnicodeError):
        complain(say(NOT_TEXT), say(NOT_TEXT_NEXT))
    elif isinstance(trouble, (RecursionError, MemoryError)):
        complain(say(TOO_MUCH), say(TOO_MUCH_NEXT))
    else:
        kind, detail = type(trouble).__name__, short(str(trouble), 200)
        complain(say(OUR_FAULT, kind=kind, detail=detail), say(OUR_FAULT_NEXT))


def _tell_os(trouble: OSError) -> None:
    reason = refusal_said(trouble)
    if trouble.filename is None:
        complain(say(OS_TROUBLE_BARE, reason=reason), say(OS_NEXT))
        return
    name = trouble.filename
    file = name.decode("utf-8", "replace") if isinstance(name, bytes) else str(name)
    complain(say(OS_TROUBLE, file=short(file), reason=reason), say(OS_NEXT))
