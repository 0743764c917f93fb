"""Differential pressure against flow, drawn in characters."""

from __future__ import annotations

from collections.abc import Iterator

from sootsayer.casework.logs.flow import FlowPicture
from sootsayer.catalogue import Said
from sootsayer.catalogue_numbers import fixed

_WIDE, _HIGH = 40, 14  # with the axis and an indent it stands on a screen of 50 columns
_AXIS = 6


def plot_rows(flow: FlowPicture, *, bars: bool = False) -> Iterator[Said]:
    """The rows of the picture, top to bottom, axes included; 47 characters wide.

    `bars`: two standard deviations either way of each point, as `|`.
    """
    far = max([point.flow for point in flow.points] + [x for x, _ in flow.curve]) or 1.0
    top = max([point.dp for point in flow.points] + [y for _, y in flow.curve]) * 1.1
    low = min(0.0, *(point.dp for point in flow.points))
    top = max(top, low + 1.0)
    grid = [[" "] * _WIDE for _ in range(_HIGH)]

    def put(x: float, y: float, sign: str) -> None:
        column = round(x / far * (_WIDE - 1))
        row = _HIGH - 1 - round((y - low) / (top - low) * (_HIGH - 1))
        if 0 <= row < _HIGH and 0 <= column < _WIDE:
            grid[row][column] = sign

    for x, y in flow.curve:
        put(x, y, ".")
    for letter, band in zip("abcdefgh", flow.bands, strict=False):
        # where the line of the level leaves the picture, and half way to it
        end = min(far, top / band.slope)
        for share in (1.0, 0.5):
            put(end * share, band.slope * end * share, letter)
    for point in flow.points if bars else ():
        for step in range(-8, 9):
            put(point.flow, point.dp + 2 * point.sd * step / 8, "|")
    for point in flow.points:
        text = str(point.number)
        for i, sign in enumerate(text):
            put(point.flow + i * far / (_WIDE - 1) - (len(text) - 1) * far / (_WIDE - 1) / 2,
                point.dp, sign)  # fmt: skip
    for index, row in enumerate(grid):
        value = low + (top - low) * (_HIGH - 1 - index) / (_HIGH - 1)
        label = fixed(value) if index % 4 == 1 or index == _HIGH - 1 else ""
        yield Said(f"{label:>{_AXIS - 1}} |" + "".join(row).rstrip())
    yield Said(" " * _AXIS + "+" + "-" * _WIDE)
    middle, end_label = fixed(far / 2), fixed(far)
    yield Said(
        " " * _AXIS + "0" + middle.rjust(_WIDE // 2)
        + end_label.rjust(_WIDE - _WIDE // 2)
    )  # fmt: skip
