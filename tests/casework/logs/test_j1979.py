"""Columns of words by SAE J1979, service 01 (formulas cross-read in an open packet library)."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.casework.logs.j1979 import WORDS, decoder, word_column
from tests.casework.logs.making_logs import HELD_2500, REST, drive
from tests.casework.logs.support import at, read


@pytest.mark.parametrize(
    ("pid", "cell", "value"),
    [
        ("7A", "0x80C8", 2.00),
        ("7A", "0x8000", 0.0),
        ("7A", "0x7F38", -2.00),
        ("7A", "0x00C8", 2.00),  # two's complement, the standard's own (from memory)
        ("7A", "0x0000", 0.0),
        ("7A", "0xFF38", -2.00),
        ("7A", "03 80 C8", 2.00),  # a byte of what is supported comes first (from memory)
        ("7C", "0x1964", 610.0),
        ("3C", "19 64", 610.0),
        ("0C", "0C80", 800.0),
        ("0C", "3200", 800.0),
        ("10", "0BB8", 30.00),
        ("10", "3000", 30.00),
        ("7A", "abc", None),
        ("7A", "0x4000", None),
        ("0C", "99999", None),
    ],
)
def test_words(pid: str, cell: str, value: float | None) -> None:
    """Each word gives the value stated for SAE J1979."""
    assert decoder(WORDS[pid], f"PID {pid} raw")(cell) == value


def test_bytes_in_the_head_mean_hexadecimal() -> None:
    """ "1964" under a head that says bytes is 0x1964, not the number 1964."""
    assert decoder(WORDS["7C"], "SAE J1979 PID 7C bytes")("1964") == 610.0
    assert decoder(WORDS["7C"], "SAE J1979 PID 7C raw")("1964") == pytest.approx(156.4)


@pytest.mark.parametrize(
    ("name", "pid"),
    [
        ("SAE J1979 7A", "7A"),
        ("J1979 PID 0x7A raw", "7A"),
        ("service 01 7C (bytes)", "7C"),
        ("mode 01 PID 0C hex", "0C"),
        ("PID 10 raw word", "10"),
        ("Engine speed [rpm]", None),
        ("raw 7A", "7A"),
        ("Channel 10", None),
        ("PID 99 raw", None),
    ],
)
def test_only_where_the_head_says_so(name: str, pid: str | None) -> None:
    """A column is read as words only when its name says that it holds them."""
    word = word_column(name)
    assert (word.pid if word else None) == pid


@pytest.mark.parametrize("zero", [0x8000, 0])
def test_a_log_of_words(zero: int, tmp_path: Path) -> None:
    """Both scalings of differential pressure give the same reading, told by the words alone."""
    lines = ["Time [s],J1979 PID 0C raw,J1979 PID 7A raw,J1979 PID 10 raw,J1979 PID 7C raw"]
    for row in drive((REST, HELD_2500)):
        dp = (zero + round(row.dp * 10)) & 0xFFFF
        lines.append(
            f"{row.time:.1f},{round(row.rpm * 4)},0x{dp:04X},{round(row.air / 3.6 * 100)},"
            f"{round((row.exhaust + 40) * 10)}"
        )
    log = read(tmp_path, "\n".join(lines) + "\n")
    held = at(log, "2500").channels
    assert held["dp"].mean == pytest.approx(52.1, abs=1.0)
    assert held["air"].mean == pytest.approx(150, abs=1)
    assert held["exhaust-temperature"].mean == pytest.approx(200, abs=3)
    column = log.column("dp")
    assert column is not None
    assert column.scaling == "7A"
