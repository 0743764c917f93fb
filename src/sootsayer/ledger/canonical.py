"""JSON in the one form that a digest can be taken of: RFC 8785.

Sorted keys (by UTF-16 units), no spaces, the shortest text of each number as ECMAScript writes it,
UTF-8. What I-JSON (RFC 7493) has no place for is refused: NaN, infinities, half characters, whole
numbers that no double holds exactly.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from json.encoder import encode_basestring
from math import isfinite

LARGEST_WHOLE = 2**53
_DEEPEST = 200
_SURELY_EXACT = 16  # characters; 2**53 has as many digits
_WHOLE_UNTIL, _POINT_FROM = 21, -6  # powers of ten between which no exponent is written


class NotCanonicalError(ValueError):
    """There is no canonical JSON of this value."""


def canonical(data: object) -> bytes:
    """`data` (dictionaries, lists, tuples, text, numbers, booleans, None) as canonical JSON.

    Raises NotCanonicalError.
    """
    parts: list[str] = []
    _write(data, parts, 0)
    try:
        return "".join(parts).encode("utf-8")
    except UnicodeEncodeError:
        raise NotCanonicalError("the text holds half a character") from None


def digest_of(data: bytes) -> str:
    """SHA-256 in hex."""
    return hashlib.sha256(data).hexdigest()


def read_json(data: bytes) -> object:
    """What JSON says, every number being a double as RFC 8785 takes it. Raises ValueError."""
    return json.loads(data, parse_int=_whole)


def _whole(text: str) -> int | float:
    return int(text) if len(text) < _SURELY_EXACT else float(text)


def number_text(value: float) -> str:
    """A double as ECMAScript writes it (ECMA-262, Number::toString). Raises NotCanonicalError."""
    if not isfinite(value):
        raise NotCanonicalError("JSON has no infinity, and nothing that is no number")
    if value == 0:
        return "0"  # of minus zero too
    sign, digits, point = _shortest(value)
    if 0 < point <= _WHOLE_UNTIL:
        return sign + _with_point(digits, point)
    if _POINT_FROM < point <= 0:
        return f"{sign}0.{'0' * -point}{digits}"
    behind = f".{digits[1:]}" if len(digits) > 1 else ""
    return f"{sign}{digits[0]}{behind}e{point - 1:+d}"


def _shortest(value: float) -> tuple[str, str, int]:
    """Sign, the fewest digits that give the double back, and where the point is among them."""
    # repr gives those digits; only where it puts the point is another matter.
    text = repr(abs(value))
    mantissa, _, exponent = text.partition("e")
    whole, _, part = mantissa.partition(".")
    digits = whole + ("" if part == "0" else part)
    point = len(whole) + int(exponent or 0)
    shorter = digits.lstrip("0")
    point -= len(digits) - len(shorter)
    return ("-" if value < 0 else ""), shorter.rstrip("0"), point


def _with_point(digits: str, point: int) -> str:
    if len(digits) <= point:
        return digits + "0" * (point - len(digits))
    return f"{digits[:point]}.{digits[point:]}"


def _write(data: object, parts: list[str], depth: int) -> None:
    if data is None or isinstance(data, bool):
        parts.append({None: "null", True: "true", False: "false"}[data])
    elif isinstance(data, str):
        parts.append(encode_basestring(data))
    elif isinstance(data, int):
        if abs(data) > LARGEST_WHOLE:
            raise NotCanonicalError(f"no double holds {data} exactly")
        parts.append(str(int(data)))
    elif isinstance(data, float):
        parts.append(number_text(data))
    elif depth >= _DEEPEST:
        raise NotCanonicalError("this is nested too deeply")
    elif isinstance(data, Mapping):
        _write_mapping(data, parts, depth)
    elif isinstance(data, list | tuple):
        _write_list(data, parts, depth)
    else:
        raise NotCanonicalError(f"JSON has no {type(data).__name__}")


def _write_mapping(data: Mapping[object, object], parts: list[str], depth: int) -> None:
    mark = "{"
    for key in _sorted_keys(data):
        parts += (mark, encode_basestring(key), ":")
        _write(data[key], parts, depth + 1)
        mark = ","
    parts.append("}" if data else "{}")


def _write_list(data: list[object] | tuple[object, ...], parts: list[str], depth: int) -> None:
    mark = "["
    for each in data:
        parts.append(mark)
        _write(each, parts, depth + 1)
        mark = ","
    parts.append("]" if data else "[]")


def _sorted_keys(data: Mapping[object, object]) -> list[str]:
    keys = [key for key in data if isinstance(key, str)]
    if len(keys) != len(data):
        raise NotCanonicalError("a key of JSON is text")
    # Units of UTF-16 and characters sort alike but for characters beyond the first 65,536.
    if any(key and max(key) > "\ud7ff" for key in keys):
        return sorted(keys, key=lambda key: key.encode("utf-16-be", "surrogatepass"))
    return sorted(keys)
