"""One line of the ledger: a body, its number, and the seal that ties it to the line before.

The digest is taken over the *digest* of the body with number and previous digest. So a line whose
body is kept back (in an export) still proves that the chain is whole.
"""

from __future__ import annotations

import json
import re

from sootsayer.catalogue import say
from sootsayer.ledger.canonical import canonical, digest_of, read_json
from sootsayer.ledger.model import Line

FORMAT = 1
NOTHING_BEFORE = "0" * 64
_DIGEST = rb'"digest":"(?P<digest>[0-9a-f]{64})",'
_FORMAT = rb'"format":(?P<format>[1-9][0-9]{0,8}),'
_NUMBER = rb'"number":(?P<number>[1-9][0-9]{0,14}),'
_PREVIOUS = rb'"previous":"(?P<previous>[0-9a-f]{64})"'
_MIDDLE = _DIGEST + _FORMAT + _NUMBER + _PREVIOUS
_WHOLE = re.compile(rb'\{"body":(?P<body>\{.*\}),' + _MIDDLE + rb"\}", re.DOTALL)
_SEALED = re.compile(rb"\{" + _MIDDLE + rb',"sealed":"(?P<sealed>[0-9a-f]{64})"\}')


class Unfit(ValueError):  # noqa: N818 (says what the line is)
    """The line is no record, or its content does not fit its digest."""


class OtherFormat(Unfit):
    """The line says that it has a format that is not known here."""

    def __init__(self, number: object) -> None:
        self.format = str(number)
        super().__init__(say("format {format}", format=number))


def seal(number: int, previous: str, body_digest: str) -> str:
    """The digest of the line with this number behind `previous`."""
    told = {"body": body_digest, "format": FORMAT, "number": number, "previous": previous}
    return digest_of(canonical(told))


def line_of(body: bytes, number: int, previous: str) -> tuple[bytes, str]:
    """The line (without newline) that holds a canonical body, and its digest."""
    digest = seal(number, previous, digest_of(body))
    tail = f',"digest":"{digest}","format":{FORMAT},"number":{number},"previous":"{previous}"}}'
    return b'{"body":' + body + tail.encode(), digest


def closed(line: Line) -> bytes:
    """The same line with its body kept back (without newline)."""
    return canonical(
        {
            "digest": line.digest,
            "format": FORMAT,
            "number": line.number,
            "previous": line.previous,
            "sealed": line.body_digest,
        }
    )


def read_line(data: bytes) -> Line:
    """The line in `data` (without newline). Raises Unfit and OtherFormat."""
    found = _WHOLE.fullmatch(data) or _SEALED.fullmatch(data)
    if found is None:
        raise _why_not(data)
    parts = found.groupdict()
    body: bytes | None = parts.get("body")
    body_digest = digest_of(body) if body is not None else parts["sealed"].decode()
    number, previous = int(parts["number"]), parts["previous"].decode()
    digest = parts["digest"].decode()
    if seal(number, previous, body_digest) != digest:
        if int(parts["format"]) != FORMAT:
            raise OtherFormat(int(parts["format"]))
        raise Unfit(say("its content does not fit its digest"))
    if int(parts["format"]) != FORMAT:
        raise Unfit(say("its format was changed"))
    if body is not None and not is_canonical(body):
        raise Unfit(say("its body is no canonical JSON"))
    return Line(number, digest, previous, body, body_digest)


def is_canonical(body: bytes) -> bool:
    """Whether these bytes are the canonical JSON of what they say."""
    try:
        return canonical(read_json(body)) == body
    except (ValueError, RecursionError):
        return False


def _why_not(data: bytes) -> Unfit:
    """A later version may write lines of another shape; they still say which format they have."""
    try:
        told = json.loads(data)
    except (ValueError, RecursionError):
        return Unfit(say("it is no record"))
    version = told.get("format") if isinstance(told, dict) else None
    if isinstance(version, int) and not isinstance(version, bool) and version != FORMAT:
        return OtherFormat(version)
    return Unfit(say("it is no record"))
