"""Verdicts given again: one record as a table of differences, all of them as counts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from sootsayer import __version__
from sootsayer.catalogue import Said, listed, say, say_count, shown
from sootsayer.catalogue_numbers import number
from sootsayer.console import records_texts as t
from sootsayer.console.paper import HEADING, STRONG, Line, Page, page
from sootsayer.console.records_called import Called
from sootsayer.console.records_said import change_said, difference_said, time_said
from sootsayer.ledger.model import Record
from sootsayer.ledger.parts import text
from sootsayer.ledger.replay_model import Again, Change, Difference, Of, Replayed, Today, Why

Result = tuple[Record, Replayed, Today | None]
_USUAL, _MOST_NUMBERS, _MOST_CHANGES = 12, 12, 12
_SAME, _CANNOT = "same", "cannot"


def one_told(
    record: Record, then: Replayed, today: Today | None, called: Called, *, more: bool
) -> Page:
    """The page for one record."""
    return page(_one(record, then, today, called, more))


def all_told(results: Sequence[Result], called: Called) -> Page:
    """The page for a whole ledger."""
    return page(_all(results, called))


def _one(
    record: Record, then: Replayed, today: Today | None, called: Called, more: bool
) -> Iterator[Line]:
    case = {"number": record.number, "case": record.case, "by": text(record.body, "by")}
    yield Line(say(t.RECORD, **case, time=time_said(text(record.body, "at"))))
    yield Line(_then(then), style=STRONG)
    if then.why is Why.PROGRAM:
        yield Line(say(t.WITH_VERSION, then=then.detail, now=__version__))
    if today is None:
        return
    if today.cannot:
        yield Line(say(t.TODAY_CANNOT, why=today.cannot))
    elif not today.found:
        yield Line(say(t.TODAY_SAME if today.changed else t.TODAY_EXACTLY))
    else:
        yield from _differences(today, called, more)


def _differences(today: Today, called: Called, more: bool) -> Iterator[Line]:
    """What, then, today, in columns; below each what made it so."""
    told = today.found if more else today.found[:_USUAL]
    rows = [difference_said(each, called) for each, _ in told]
    heads = say(t.THEN), say(t.NOW)
    widths = [max(map(len, column)) for column in zip(heads, *(r[1:] for r in rows), strict=True)]

    def right(*cells: Said) -> str:
        then, now = (Said(c.rjust(w)) for c, w in zip(cells, widths, strict=True))
        return say(t.THEN_AND_TODAY, then=then, now=now)

    yield Line(say(t.TODAY), style=HEADING, right=right(*heads))
    for (difference, made), (what, then, now) in zip(told, rows, strict=True):
        yield Line(what, indent=2, right=right(then, now))
        if difference.of is not Of.WORK:
            yield Line(_made(made, today, called), indent=4)
    left = len(today.found) - len(told)
    if left:
        yield Line(say_count(*t.MORE_DIFFERENCES, count=left), indent=2)


def _then(then: Replayed) -> Said:
    if then.again is Again.SAME:
        return say(t.SAME)
    if then.again is Again.DIFFERS:
        return say(t.DIFFERS)
    return say(t.NOT_REPLAYABLE, why=say(t.WHY_NOT[then.why.value], detail=then.detail))


def _made(made: Sequence[Change], today: Today, called: Called) -> Said:
    if made:
        return say(t.MADE_BY, changes=listed([change_said(change, called) for change in made]))
    if not today.tried:
        return say(t.TOO_MANY, count=today.changed) if today.changed else say(t.NOT_TRIED)
    return say(t.TOGETHER)


def _all(results: Sequence[Result], called: Called) -> Iterator[Line]:
    if not results:
        yield Line(say(t.ALL_NONE))
        return
    by = {again: [r for r in results if r[1].again is again] for again in Again}
    if by[Again.SAME]:
        yield Line(say_count(*t.ALL_SAME, count=len(by[Again.SAME])), style=STRONG)
    for again, texts in ((Again.DIFFERS, t.ALL_DIFFER), (Again.NOT_REPLAYABLE, t.ALL_NOT)):
        if by[again]:
            numbers = _numbers([record.number for record, _, _ in by[again]])
            yield Line(say_count(*texts, count=len(by[again]), numbers=numbers), style=STRONG)
    for why, count in Counter(r[1].why for r in by[Again.NOT_REPLAYABLE]).items():
        detail = next(r[1].detail for r in results if r[1].why is why)
        said = say(t.WHY_NOT[why.value], detail=detail)
        yield Line(say(t.COUNTED, count=count, said=said), indent=2)
    judged = [(record, today) for record, _, today in results if today is not None]
    if judged:
        yield Line(say(t.TODAY_COUNTS, count=len(judged)), style=HEADING)
        counts = Counter(kind for _, today in judged for kind in kinds_of(today))
        for kind, words in t.COUNT.items():
            if counts[kind]:
                yield Line(say(words), indent=2, right=number(counts[kind]))
        yield from _by_change(judged, called)


def _by_change(judged: Sequence[tuple[Record, Today]], called: Called) -> Iterator[Line]:
    counts = made_by((today for _, today in judged), called)
    if counts:
        yield Line(say(t.COUNT_BY), style=HEADING)
    for said, count in counts[:_MOST_CHANGES]:
        yield Line(said, indent=2, right=number(count))
    if len(counts) > _MOST_CHANGES:
        yield Line(say(t.COUNT_MORE, count=len(counts) - _MOST_CHANGES), indent=2)


def made_by(todays: Iterator[Today], called: Called) -> list[tuple[Said, int]]:
    """Each change with the number of verdicts that it alone would change, the most first."""
    counts: Counter[Change | bool] = Counter()  # what no change made alone: whether it was tried
    for today in todays:
        counts.update({change for _, made in today.found for change in made})
        if any(not made and each.of is not Of.WORK for each, made in today.found):
            counts[today.tried] += 1
    told = [(_maker(by, called), count) for by, count in counts.items()]
    return sorted(told, key=lambda pair: (-pair[1], pair[0]))


def _maker(by: Change | bool, called: Called) -> Said:
    if isinstance(by, bool):
        return say(t.TOGETHER) if by else say(t.COUNT_UNTRIED)
    return change_said(by, called)


def kinds_of(today: Today) -> set[str]:
    """Which of the counts a verdict belongs to; one may belong to several."""
    if today.cannot:
        return {_CANNOT}
    found = [difference for difference, _ in today.found]
    if not found:
        return {_SAME}
    kinds = {"drive" for each in found if each.of is Of.DRIVE}
    kinds |= {"looser" for each in found if each.is_looser}
    kinds |= {"stricter" for each in found if each.is_stricter}
    kinds |= {"leading" for each in found if each.of is Of.LEADING}
    if kinds:
        return kinds
    return {"confidence"} if any(each.of is Of.CONFIDENCE for each in found) else {"other"}


def _numbers(numbers: Sequence[int]) -> Said:
    told = ", ".join(str(number) for number in numbers[:_MOST_NUMBERS])
    left = len(numbers) - _MOST_NUMBERS
    return say(t.NUMBERS_MORE, numbers=told, count=left) if left > 0 else shown(told)


def one_json(record: Record, then: Replayed, today: Today | None) -> dict[str, object]:
    """The same as plain data."""
    return {
        "format": 1,
        "record": record.number,
        "case": record.case,
        "then": {"again": then.again.value, "why": then.why.value or None, "detail": then.detail},
        "today": None if today is None else _today(today),
    }


def _today(today: Today) -> dict[str, object]:
    return {
        "cannot": today.cannot or None,
        "changes": today.changed,
        "tried": today.tried,
        "differences": [
            {**_difference(each), "made_by": [
                {"section": c.section, "id": c.id, "was": c.was, "is": c.is_} for c in made
            ]}
            for each, made in today.found
        ],
    }  # fmt: skip


def _difference(each: Difference) -> dict[str, object]:
    then, now = (text or None for text in (each.then, each.now))
    return {"of": each.of.value, "id": each.id, "then": then, "now": now}


def all_json(results: Sequence[Result]) -> dict[str, object]:
    """Every record as plain data, and the counts."""
    todays = [today for _, _, today in results if today is not None]
    return {
        "format": 1,
        "then": dict(Counter(r.again.value for _, r, _ in results)),
        "today": dict(Counter(kind for today in todays for kind in kinds_of(today))),
        "made_by": [{"change": said, "verdicts": n} for said, n in made_by(iter(todays), Called())],
        "records": [one_json(*result) for result in results],
    }
