"""What a pack would have changed, on one page: permissions that become looser come first."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from sootsayer.belief.network import Kind
from sootsayer.catalogue import Said, say, say_count, shown
from sootsayer.catalogue_numbers import fixed, number
from sootsayer.commands.over_archive.lines import (
    cases_said,
    columns,
    drawn_lines,
    examples_said,
    left_lines,
    nothing_lines,
)
from sootsayer.console import backtest_texts as t
from sootsayer.console.paper import BLANK, HEADING, QUIET, STRONG, Line, Page, page
from sootsayer.console.vocabulary import STATE_ID, id_said
from sootsayer.learning.backtest.changes import RuleChange
from sootsayer.learning.backtest.tally import BacktestTally, Examples, KindTally
from sootsayer.learning.intervals import wilson

_MOVES = (-17, -17)  # a right column may take half of the narrowest page of 80
_OUTCOME = (-11, -11, -6, -5)
Moves = Mapping[tuple[str, str, str], Examples]


@dataclass(frozen=True, slots=True)
class BacktestTold:
    """All that the page draws. `replaces`: the file in whose place the pack stands, "" where
    none; `in_force`: it is that very file. `more`: everything, else about one screen."""

    pack: str
    folder: str
    tally: BacktestTally
    changes: Sequence[RuleChange]
    accepted: Collection[str] = ()
    replaces: str = ""
    in_force: bool = False
    more: bool = False


def backtest_page(told: BacktestTold) -> Page:
    """The whole page."""
    return page(_lines(told))


def _lines(told: BacktestTold) -> Iterator[Line]:
    tally = told.tally
    cases = cases_said(tally.archive, told.folder)
    yield Line(say(t.HEADER, pack=told.pack, cases=cases), style=QUIET)
    if told.in_force:
        yield Line(say(t.TAKEN_OUT), style=QUIET)
    elif told.replaces:
        yield Line(say(t.REPLACES, file=told.replaces), style=QUIET)
    yield from drawn_lines(tally.archive)
    yield from _looser(told)
    if not tally.archive.replayed:
        yield from nothing_lines(told.folder)
    else:
        yield from _know(told)
        yield from _why(told)
        yield from _outcomes(tally)
    yield from left_lines(tally.archive, each=20 if told.more else 2)
    yield Line(say(t.NEXT), style=HEADING)
    if set(tally.loosened) - set(told.accepted):
        yield Line(say(t.NEXT_LOOSER), indent=2)
    yield Line(say(t.NEXT_MORE), indent=2)


def _looser(told: BacktestTold) -> Iterator[Line]:
    looser = told.tally.looser
    if looser:
        one, many = t.LOOSER
        yield Line(say_count(one, many, count=len(told.tally.loosened)), style=STRONG)
        head = columns([say(word) for word in t.LOOSER_HEAD[1:]], _MOVES)
        yield Line(say(t.LOOSER_HEAD[0]), indent=2, style=QUIET, right=head)
        yield from _moves(looser, told)
        for action in told.tally.loosened:
            if action not in told.accepted:
                yield Line(say(t.NOT_ACCEPTED, action=action), indent=2)
        yield BLANK


def _moves(moves: Moves, told: BacktestTold) -> Iterator[Line]:
    for (action, before, after), examples in sorted(moves.items()):
        cells = columns((id_said(STATE_ID, before), id_said(STATE_ID, after)), _MOVES)
        yield Line(shown(action), indent=2, right=cells)
        said = examples_said(examples, 20 if told.more else 3)
        one, many = t.IN_CASES
        yield Line(say_count(one, many, count=examples.count, cases=said), indent=4, style=QUIET)
        if action in told.accepted:
            yield Line(say(t.ACCEPTED), indent=4, style=QUIET)


def _know(told: BacktestTold) -> Iterator[Line]:
    tally, count = told.tally, told.tally.archive.replayed
    changed = say_count(*t.KNOW, count=count, changed=tally.changed.count)
    heading = changed if tally.changed.count else say(t.NOTHING, count=count)
    yield Line(heading, style=HEADING)
    if not told.changes:
        yield Line(say(t.NO_RULES), indent=2)
    if not tally.looser:
        yield Line(say(t.NO_LOOSER), indent=2)
    for label, examples in (
        (t.LEADS, tally.led_otherwise),
        (t.FINDINGS, tally.found_otherwise),
        (t.ASKED, tally.asked_otherwise),
    ):
        if examples.count:
            yield Line(say(label), indent=2, right=number(examples.count))
            yield Line(examples_said(examples, 20 if told.more else 3), indent=4, style=QUIET)
    if tally.moved_numbers:
        yield Line(say(t.NUMBERS), indent=2, right=number(tally.moved_numbers))
    if tally.stricter:
        one, many = t.STRICTER
        yield Line(say_count(one, many, count=len(tally.stricter)), indent=2)
        yield from _moves(tally.stricter, told)


def _why(told: BacktestTold) -> Iterator[Line]:
    if not told.tally.rules:
        return
    yield Line(say(t.WHY), style=HEADING)
    by_name = {change.name: change for change in told.changes}
    ranked = sorted(told.tally.rules.items(), key=lambda pair: (-pair[1], pair[0]))
    most = len(ranked) if told.more else 5
    for name, count in ranked[:most]:
        change = by_name[name]
        where = say(t.RULE_AT, file=_file(change.place.file), line=change.place.line)
        how = say(t.HOW[change.how.value], rule=name, where=where)
        yield Line(how, indent=2, right=number(count))
    if len(told.changes) > most or len(ranked) > most:
        one, many = t.MORE_RULES
        left = len(told.changes) - min(most, len(ranked))
        yield Line(say_count(one, many, count=left), indent=2, style=QUIET)


def _outcomes(tally: BacktestTally) -> Iterator[Line]:
    n = tally.archive.replayed
    yield Line(say(t.OUTCOME, n=n), style=HEADING)
    head = columns([say(word) for word in t.OUTCOME_HEAD[1:]], _OUTCOME)
    yield Line(say(t.OUTCOME_HEAD[0]), indent=2, style=QUIET, right=head)
    for kind in Kind:
        cells = columns(_kind(tally.kinds[kind], n), _OUTCOME)
        yield Line(say(t.KINDS[kind.value]), indent=2, right=cells)
    better = sum(each.better.count for each in tally.kinds.values())
    sides = better + sum(each.worse.count for each in tally.kinds.values())
    if sides:
        interval = wilson(better, sides)
        slots = {"low": fixed(interval.low * 100), "high": fixed(interval.high * 100)}
        yield Line(say(t.SIDES, n=sides, better=better, **slots), indent=2)
    before, after = fixed(tally.squared_before / n, 5), fixed(tally.squared_after / n, 5)
    yield Line(say(t.SQUARED, before=before, after=after), indent=2, style=QUIET)


def _kind(counted: KindTally, n: int) -> tuple[Said, ...]:
    return (
        _share(counted.right_before, n),
        _share(counted.right_after, n),
        number(counted.better.count),
        number(counted.worse.count),
    )


def _share(right: int, n: int) -> Said:
    interval = wilson(right, n)
    slots = {"low": fixed(interval.low * 100), "high": fixed(interval.high * 100)}
    return say(t.SHARE, share=fixed(right / n * 100), **slots)


def _file(file: str) -> str:
    return file.replace("\\", "/").rpartition("/")[2]
