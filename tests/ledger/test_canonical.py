"""Canonical JSON: the published vectors of RFC 8785, and two implementations that are not ours."""

from __future__ import annotations

import json
import struct

import jcs
import pytest
import rfc8785
from hypothesis import given, settings
from hypothesis import strategies as st

from sootsayer.ledger.canonical import NotCanonicalError, canonical, number_text, read_json

# RFC 8785, appendix B, "Number Serialization Samples": the bits of a double and its JSON.
APPENDIX_B = {
    "0000000000000000": "0",
    "8000000000000000": "0",
    "0000000000000001": "5e-324",
    "8000000000000001": "-5e-324",
    "7fefffffffffffff": "1.7976931348623157e+308",
    "ffefffffffffffff": "-1.7976931348623157e+308",
    "4340000000000000": "9007199254740992",
    "c340000000000000": "-9007199254740992",
    "4430000000000000": "295147905179352830000",
    "44b52d02c7e14af5": "9.999999999999997e+22",
    "44b52d02c7e14af6": "1e+23",
    "44b52d02c7e14af7": "1.0000000000000001e+23",
    "444b1ae4d6e2ef4e": "999999999999999700000",
    "444b1ae4d6e2ef4f": "999999999999999900000",
    "444b1ae4d6e2ef50": "1e+21",
    "3eb0c6f7a0b5ed8c": "9.999999999999997e-7",
    "3eb0c6f7a0b5ed8d": "0.000001",
    "41b3de4355555553": "333333333.3333332",
    "41b3de4355555554": "333333333.33333325",
    "41b3de4355555555": "333333333.3333333",
    "41b3de4355555556": "333333333.3333334",
    "41b3de4355555557": "333333333.33333343",
    "becbf647612f3696": "-0.0000033333333333333333",
    "43143ff3c1cb0959": "1424953923781206.2",
}
# Section 3.2.2, input, and section 3.2.4, the bytes that must come of it.
INPUT = r"""{
  "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
  "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
  "literals": [null, true, false]
}"""
OUTPUT = """
7b 22 6c 69 74 65 72 61 6c 73 22 3a 5b 6e 75 6c 6c 2c 74 72 75 65 2c 66 61 6c 73 65 5d 2c 22 6e
75 6d 62 65 72 73 22 3a 5b 33 33 33 33 33 33 33 33 33 2e 33 33 33 33 33 33 33 2c 31 65 2b 33 30
2c 34 2e 35 2c 30 2e 30 30 32 2c 31 65 2d 32 37 5d 2c 22 73 74 72 69 6e 67 22 3a 22 e2 82 ac 24
5c 75 30 30 30 66 5c 6e 41 27 42 5c 22 5c 5c 5c 5c 5c 22 2f 22 7d
"""
# Section 3.2.3: keys in the order in which their values must come out.
UNSORTED = r"""{
  "\u20ac": "Euro Sign",
  "\r": "Carriage Return",
  "\ufb33": "Hebrew Letter Dalet With Dagesh",
  "1": "One",
  "\ud83d\ude00": "Emoji: Grinning Face",
  "\u0080": "Control",
  "\u00f6": "Latin Small Letter O With Diaeresis"
}"""
SORTED = (
    "Carriage Return", "One", "Control", "Latin Small Letter O With Diaeresis", "Euro Sign",
    "Emoji: Grinning Face", "Hebrew Letter Dalet With Dagesh",
)  # fmt: skip

TEXTS = st.text(alphabet=st.characters(exclude_categories=["Cs"]))
VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(2**53) + 1, 2**53 - 1)
    | st.floats(allow_nan=False, allow_infinity=False)
    | TEXTS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXTS, inner, max_size=4),
    max_leaves=20,
)


def double(bits: str) -> float:
    found: float = struct.unpack(">d", bytes.fromhex(bits))[0]
    return found


@pytest.mark.parametrize("bits", APPENDIX_B)
def test_rfc_8785_appendix_b(bits: str) -> None:
    """Every number of the RFC's table is written as the table has it."""
    assert number_text(double(bits)) == APPENDIX_B[bits]
    assert canonical([double(bits)]) == f"[{APPENDIX_B[bits]}]".encode()


@pytest.mark.parametrize("bits", ["7fffffffffffffff", "7ff0000000000000", "fff0000000000000"])
def test_rfc_8785_appendix_b_refused(bits: str) -> None:
    """What is no number, and the infinities, end in an error, as the RFC wants."""
    with pytest.raises(NotCanonicalError):
        canonical({"x": double(bits)})


def test_rfc_8785_section_3_2_4() -> None:
    """The RFC's example gives its bytes, one by one."""
    assert canonical(json.loads(INPUT)) == bytes.fromhex(OUTPUT.replace("\n", " "))


def test_rfc_8785_section_3_2_3() -> None:
    """The RFC's keys are sorted by their UTF-16 units, not by their characters."""
    found = json.loads(canonical(json.loads(UNSORTED)))
    assert tuple(found.values()) == SORTED
    assert tuple(sorted(found)) != tuple(found)


@settings(max_examples=300)
@given(VALUES)
def test_two_implementations_that_are_not_ours_agree(value: object) -> None:
    """The packages rfc8785 and jcs write the same bytes of whatever JSON can say."""
    mine = canonical(value)
    assert mine == rfc8785.dumps(value)  # type: ignore[arg-type]
    assert mine == jcs.canonicalize(value)
    assert canonical(read_json(mine)) == mine


@settings(max_examples=500)
@given(st.binary(min_size=8, max_size=8))
def test_any_double_is_the_others(bits: bytes) -> None:
    """Any eight bytes as a double: the same text as theirs, and it reads back to the double."""
    value: float = struct.unpack(">d", bits)[0]
    try:
        text = number_text(value)
    except NotCanonicalError:
        assert value != value or value in (float("inf"), float("-inf"))
        return
    assert text.encode() == rfc8785.dumps(value)
    assert float(text) == value


@pytest.mark.parametrize(
    "value", [2**53 + 1, -(2**60), "\ud800", {"a": {1: 2}}, {1, 2}, b"x", {"\udc00": 1}]
)
def test_what_json_cannot_say_is_refused(value: object) -> None:
    """No digest is taken of what would read back as something else."""
    with pytest.raises(NotCanonicalError):
        canonical(value)


def test_too_deep_is_refused() -> None:
    """Nesting without end is an error of its own, no overflow."""
    value: object = 1
    for _ in range(2000):
        value = [value]
    with pytest.raises(NotCanonicalError, match="deeply"):
        canonical(value)
