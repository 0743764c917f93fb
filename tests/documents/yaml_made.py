"""Strategies for YAML that people write, and for what becomes of it."""

from __future__ import annotations

from hypothesis import strategies as st

# Pieces whose chance neighbourhoods reach the corners where parsers differ.
_PIECES = [
    "a", "b: ", "c", "- ", "{", "}", "[", "]", ", ", ",", ": ", ":", "?", "? ", "#", " #c", "\n",
    "\n  ", "\n ", '"q"', "'s'", "|", ">", "|2\n", "-", "--- ", "...", "x y", "1", "0,5", "&a ",
    "*a ", "!t ", "%", "@", "`", '"', "'", "\\", "\n\n", ">-\n  ", "|+\n ", ".", "é", "~", "!",
    "true", "<<: ", "2.50", "\t", "\r\n", "\u2028", "\ufeff", "\\ud800", "\\x1b", "\U0001f600",
    "a: {b: 1, c: [x, y]}\n", "- {a: b}\n", '"\\u00e9"', "\n    d: e\n",
]  # fmt: skip
_FRAMES = ["{}", "a: {}", "a: {{{}}}\n", "{{{}}}", "a: [{}]\n", "a:\n- {}\n", "a:\n  b: {}\n"]

scraps = st.lists(st.sampled_from(_PIECES), max_size=12).map("".join)
framed = st.builds(lambda frame, text: frame.format(text), st.sampled_from(_FRAMES), scraps)

_words = st.text(st.sampled_from("abcé?,:#-'\"{}[]!&*%@|> 0.19\\~"), max_size=8)
_quoted = _words.map(lambda text: "'" + text.replace("'", "''") + "'")
_scalars = st.one_of(_words, _quoted, st.sampled_from(["true", "no", "18 hPa", "-0.5", "12"]))
_keys = st.one_of(st.sampled_from(["a", "b", "says", "dp@rest", "2500"]), _quoted)


def _flow(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    pairs = st.lists(st.tuples(_keys, inner), max_size=3)
    return st.one_of(
        pairs.map(lambda items: "{" + ", ".join(f"{k}: {v}" for k, v in items) + "}"),
        st.lists(inner, max_size=3).map(lambda items: "[" + ", ".join(items) + "]"),
    )


_values = st.recursive(_scalars, _flow, max_leaves=6)
documents = st.lists(st.tuples(_keys, _values), min_size=1, max_size=5).map(
    lambda items: "".join(f"{key}: {value}\n" for key, value in items)
)


@st.composite
def mutated(draw: st.DrawFn) -> bytes:
    """A made document with a stretch of bytes replaced by others."""
    data = draw(documents).encode()
    start = draw(st.integers(0, len(data)))
    end = draw(st.integers(start, min(len(data), start + 5)))
    return data[:start] + draw(st.binary(max_size=4)) + data[end:]
