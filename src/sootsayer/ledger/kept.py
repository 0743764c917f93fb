"""Texts that records rest on (packs, settings, translations), kept once each under their digest."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from sootsayer.catalogue import say
from sootsayer.documents.writing import CannotWrite, replace_file
from sootsayer.ledger.canonical import digest_of
from sootsayer.ledger.folder import Ledger, prepared

SUFFIX = ".yaml"
_MISSING, _CHANGED, _NO_DIGEST = "missing", "changed", "no digest"  # not said


class Lost(Exception):  # noqa: N818 (says what the text is)
    """A kept text is missing, cannot be read, or is not what its name says (`why`)."""

    def __init__(self, digest: str, why: str) -> None:
        self.digest = digest
        self.why = why
        super().__init__(f"{digest}: {why}")


def keep_texts(ledger: Ledger, texts: Iterable[bytes]) -> None:
    """Keep each text that is not there yet, or not whole. Raises CannotWrite and Refused."""
    prepared(ledger.folder)
    for text in texts:
        path = path_of(ledger, digest_of(text))
        if _read(path) == text:
            continue
        try:
            replace_file(path, text.decode("utf-8"))
        except UnicodeDecodeError:
            raise CannotWrite(path, say("the text is no UTF-8")) from None


def kept_text(ledger: Ledger, digest: str) -> bytes:
    """The text with this digest. Raises Lost."""
    text = _read(path_of(ledger, digest))
    if text is None:
        raise Lost(digest, _MISSING)
    if digest_of(text) != digest:
        raise Lost(digest, _CHANGED)
    return text


def path_of(ledger: Ledger, digest: str) -> Path:
    if len(digest) != 64 or not set(digest) <= set("0123456789abcdef"):
        raise Lost(digest, _NO_DIGEST)
    return ledger.kept / (digest + SUFFIX)


def _read(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except OSError:
        return None
