"""Reading the document of a case, which may have no entries yet.

YAML has no block form for an empty list, and the loader rightly refuses a key without a
value. So that the first answer, too, is saved by appending a line (and may be torn), the
loader is shown one empty entry there, which is taken out again.
"""

from __future__ import annotations

from dataclasses import replace

from sootsayer.documents.nodes import Document, Listing
from sootsayer.documents.torn import shown, split_torn
from sootsayer.documents.yaml_source import parse_document

_STAND_IN = b"- {}\n"


def parse_case(data: bytes, file: str) -> Document:
    """The document in `data`, a torn last line left out. Raises documents.Refused."""
    whole, tail = split_torn(data)
    torn = shown(tail) if tail else None
    if not _ends_with_entries_key(whole):
        return replace(parse_document(whole, file), torn=torn)
    end = b"" if whole.endswith(b"\n") else b"\n"
    document = parse_document(whole + end + _STAND_IN, file)
    entries = document.root.get("entries")
    if isinstance(entries, Listing):
        items = {**document.root.items, "entries": Listing(entries.items[:-1], entries.place)}
        document = replace(document, root=replace(document.root, items=items))
    return replace(document, lines=document.lines[:-1], torn=torn)


def _ends_with_entries_key(data: bytes) -> bool:
    """Whether the last line that is neither blank nor a comment is `entries:` alone."""
    for line in reversed(data.splitlines()):
        text = line.strip()
        if text and not text.startswith(b"#"):
            key, colon, rest = line.partition(b":")
            rest = rest.strip()
            return key == b"entries" and bool(colon) and (not rest or rest.startswith(b"#"))
    return False
