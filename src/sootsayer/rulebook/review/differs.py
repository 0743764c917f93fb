"""Rules that say the same, or the exact opposite, under two ids."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from sootsayer.catalogue import say
from sootsayer.engine.conditions import Grade
from sootsayer.engine.possible import Answer
from sootsayer.rulebook.model import FindingDef
from sootsayer.rulebook.reads import family_of
from sootsayer.rulebook.review.bench import Bench
from sootsayer.rulebook.review.remark import Concern, Decided, Weight

# What is claimed, and what is said where it is wrong.
SAME = (
    "is not the same as {other}",
    '"{other}" says the same as "{one}" ({place}), of the same facts',
)
OPPOSITE = (
    "is not the opposite of {other}",
    '"{other}" says the opposite of "{one}" ({place}), of the same facts',
)
COUNTS_ONCE = "counts once with {other}: one family, or a reason to keep them apart"
MOST_TOGETHER = 24  # findings on the same facts that are held against each other, pair by pair


def rules_differ(bench: Bench) -> None:
    """Gathered on the very same facts are held against each other, and against nothing else."""
    for together in _on_the_same_facts(bench):
        for one, other in combinations(together[:MOST_TOGETHER], 2):
            if one.graded is other.graded and one.in_round == other.in_round:
                _pair(bench, one, other)
        for each in together[MOST_TOGETHER:]:
            bench.decided(Concern.DIFFERS, each.id, say("says its own"), Decided.NOT_DECIDED)


def _on_the_same_facts(bench: Bench) -> Iterator[list[FindingDef]]:
    groups: dict[frozenset[str], list[FindingDef]] = {}
    for finding in bench.model.findings.values():
        if bench.whole(finding.id):
            groups.setdefault(bench.program.reads(finding.id), []).append(finding)
    yield from (group for group in groups.values() if len(group) > 1)


def _pair(bench: Bench, one: FindingDef, other: FindingDef) -> None:
    if one.graded:
        first, second = bench.program.definitions[one.id], bench.program.definitions[other.id]
        assert isinstance(first, Grade)
        assert isinstance(second, Grade)
        same = (first.of, first.cuts, first.applies) == (second.of, second.cuts, second.applies)
        _note(bench, one, other, SAME, Decided.DISPROVEN if same else Decided.PROVEN)
        return
    for words, truth in ((SAME, True), (OPPOSITE, False)):
        # Two rules are the same where neither can be true while the other is false.
        ways = [
            bench.can(bench.goals.level(one.id, value), bench.goals.level(other.id, otherwise))
            for value, otherwise in ((True, not truth), (False, truth))
        ]
        shown = next((way for way in ways if way.answer is Answer.YES), None)
        if shown is not None:
            claim = say(words[0], other=other.id)
            alike = other.id if words is SAME else ""
            bench.decided(Concern.DIFFERS, one.id, claim, Decided.PROVEN, shown.case, alike)
            continue
        sure = all(way.answer is Answer.NO for way in ways)
        _note(bench, one, other, words, Decided.DISPROVEN if sure else Decided.NOT_DECIDED)


def _note(
    bench: Bench, one: FindingDef, other: FindingDef, words: tuple[str, str], decided: Decided
) -> None:
    if decided is Decided.DISPROVEN and _belong(bench, one, other):
        claim = say(COUNTS_ONCE, other=other.id)
        bench.decided(Concern.DIFFERS, one.id, claim, Decided.PROVEN)
        return
    claimed, told = words
    bench.decided(Concern.DIFFERS, one.id, say(claimed, other=other.id), decided)
    if decided is not Decided.DISPROVEN:
        return
    bench.remark(
        Concern.DIFFERS, Weight.WARNING, other.id, other.place,
        say(told, other=other.id, one=one.id, place=one.place),
        say("keep one of them, or put both into one family"),
    )  # fmt: skip


def _belong(bench: Bench, one: FindingDef, other: FindingDef) -> bool:
    """Whether somebody has thought of it: one family, or a reason to keep them apart."""
    if one.apart_because or other.apart_because:
        return True
    family = family_of(bench.model, one.id)
    return family != one.id and family == family_of(bench.model, other.id)
