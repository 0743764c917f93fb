"""Why the system refuses a file, in the language in force."""

from __future__ import annotations

from sootsayer.catalogue import Said, say, shown

# As the C library words them; others stand as it words them.
REASONS = (
    "No such file or directory",
    "Permission denied",
    "Operation not permitted",
    "Is a directory",
    "Not a directory",
    "Directory not empty",
    "File exists",
    "File name too long",
    "No space left on device",
    "Disk quota exceeded",
    "Read-only file system",
    "Input/output error",
    "Too many levels of symbolic links",
    "Too many open files",
    "Device or resource busy",
    "Invalid argument",
)


def refusal_said(error: OSError) -> Said:
    """The reason of the system, as it is told; the kind of trouble where it gives none."""
    reason = error.strerror or type(error).__name__
    return say(reason) if reason in REASONS else shown(reason)
