"""Before and after, as a table, a picture and a sentence."""

from __future__ import annotations

from collections.abc import Iterator

from sootsayer.advice.like_for_like import Change
from sootsayer.catalogue import Said, say, shown
from sootsayer.catalogue_numbers import per_cent
from sootsayer.console import compare_texts
from sootsayer.console.compare_page import Told, helped_said, with_band
from sootsayer.console.compare_picture import compare_picture
from sootsayer.console.readings_page import point_said
from sootsayer.console.readings_plot import plot_rows
from sootsayer.report import file_texts as t
from sootsayer.report.sheet import Block, Items, Picture, Table, Text


def compared_blocks(told: Told) -> Iterator[Block]:
    """The answer first, then what it rests on."""
    yield Text(helped_said(told), strong=True)
    compared = told.compared
    if compared.changes:
        rows = tuple(_row(change) for change in compared.changes)
        head = tuple(say(word) for word in t.HEAD)
        caption = say(t.CAPTION, **told.rounds)
        yield Table(caption, head, rows, numbers=frozenset({1, 2, 3, 4}))
    refused = tuple(
        say(t.REFUSED, label=told.names.of(one.slot), why=_why(told, [r.value for r in one.why]))
        for one in compared.refusals
    )
    if refused:
        yield Items(refused)
    if told.flow.points:
        rounds = (compared.from_round, compared.to_round)
        svg = compare_picture(told.flow, compared.case, *rounds, brief=True)
        rows_said = tuple(plot_rows(told.flow, bars=True))
        yield Picture(say(t.PICTURE, **told.rounds), svg, rows_said)


def _row(change: Change) -> tuple[Said, ...]:
    left = "" if change.ratio is None else per_cent(change.ratio.value)
    return (
        point_said(change.after.point),
        with_band(change.brought),
        with_band(change.now),
        with_band(change.difference),
        shown(left),
        say(t.YES if change.real else t.NO),
    )


def _why(told: Told, reasons: list[str]) -> Said:
    return Said(" ".join(say(compare_texts.UNLIKE[reason], **told.rounds) for reason in reasons))
