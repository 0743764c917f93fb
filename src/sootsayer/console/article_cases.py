"""In which cases a finding or a fault was so, and how often that was right so far."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sootsayer.catalogue import Said, say, say_count
from sootsayer.console import rules_show_texts as t
from sootsayer.console.article import Article, Book, Part, listed, part
from sootsayer.judgement.lived import InCase, Lived
from sootsayer.rulebook.reads import family_of

MOST_NAMED = 8  # cases named one by one


def cases_part(article: Article, book: Book, lived: Lived) -> Part:
    """The part that tells of cases; empty for what cases do not tell of."""
    lines: list[Said] = []
    if article.kind == "finding":
        lines += _finding(book, article.id, lived.cases)
    elif article.kind == "fault":
        lines += _fault(article.id, lived.cases)
    if lines and lived.broken:
        lines.append(say_count(*t.UNREADABLE, count=lived.broken))
    return part(t.CASES, lines)


def _finding(book: Book, id_: str, cases: Sequence[InCase]) -> Iterator[Said]:
    finding = book.model.findings[id_]
    levels = finding.levels if finding.graded else ("true",)
    for level in levels:
        so = [each.case for each in cases if each.level == level]
        if finding.graded and so:
            said = book.words.get(id_, {}).get(level, level)
            yield say_count(
                *t.LEVELLED, count=len(cases), level=said, hits=len(so), cases=_names(so)
            )
        elif so:
            yield say_count(*t.FIRED, count=len(so), of=len(cases), cases=_names(so))
        elif not finding.graded:
            yield say_count(*t.FIRED_NOWHERE, count=len(cases))
    yield from _right(book, id_, cases)


def _right(book: Book, id_: str, cases: Sequence[InCase]) -> Iterator[Said]:
    """Of closed cases at a level that speaks for some fault: whether such a fault was there."""
    model = book.model
    block = model.evidence.get(id_) or model.evidence.get(family_of(model, id_))
    if block is None:
        return
    levels = list(model.findings[id_].levels)
    closed = right = 0
    for each in cases:
        if each.level is None or each.confirmed is None:
            continue
        rank = levels.index(each.level)
        usual = block.otherwise[rank]
        speaks_for = {fault for fault, seen in block.seen_with.items() if seen[rank] > usual}
        if speaks_for and rank > 0:
            closed += 1
            right += bool(speaks_for & set(each.confirmed))
    yield say_count(*t.RIGHT, count=closed, right=right) if closed else say(t.NO_CLOSED)


def _fault(id_: str, cases: Sequence[InCase]) -> Iterator[Said]:
    closed = [each for each in cases if each.confirmed is not None]
    confirmed = [each.case for each in closed if id_ in (each.confirmed or ())]
    led = [each for each in closed if each.led]
    if not confirmed and not led:
        yield say(t.NO_CLOSED)
        return
    if confirmed:
        yield say_count(
            *t.CONFIRMED, count=len(closed), hits=len(confirmed), cases=_names(confirmed)
        )
    right = sum(id_ in (each.confirmed or ()) for each in led)
    yield say_count(*t.LED, count=len(led), right=right)


def _names(cases: Sequence[str]) -> Said:
    names = [*cases[:MOST_NAMED], *(["…"] if len(cases) > MOST_NAMED else [])]
    return listed(names)
