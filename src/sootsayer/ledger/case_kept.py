"""The text of a case as it is kept: up to the entry that was judged, and without people."""

from __future__ import annotations

from sootsayer.casework.no_entries import parse_case
from sootsayer.documents.nodes import Document, Listing
from sootsayer.documents.torn import split_torn


def until_entry(data: bytes, entry: int | None, file: str) -> bytes:
    """The bytes of a case file up to its entry of this number (None: all that is whole), so that
    nothing that was learned later is kept with it. Raises Refused."""
    whole = split_torn(data)[0]
    if entry is None:
        return whole
    line = _line_after(parse_case(whole, file), entry)
    if line is None:
        return whole
    return b"".join(whole.splitlines(keepends=True)[: line - 1])


def _line_after(document: Document, entry: int) -> int | None:
    listed = document.root.get("entries")
    entries = listed.items if isinstance(listed, Listing) else ()
    return entries[entry].place.line if entry < len(entries) else None
