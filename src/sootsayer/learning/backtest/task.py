"""One closed case judged with a pack and without it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sootsayer import __version__
from sootsayer.documents.nodes import Document
from sootsayer.judgement.brief import Brief, brief, briefs
from sootsayer.judgement.same_parts import same_parts
from sootsayer.learning.archive.closed import Closed, Left, LeftOut, closed_of, parsed
from sootsayer.learning.archive.rows import Row, left_out
from sootsayer.learning.backtest import found as plain_form
from sootsayer.learning.backtest.changes import RuleChange, changes
from sootsayer.learning.backtest.found import Changed, Compared, Moved
from sootsayer.learning.backtest.hand import Hands
from sootsayer.learning.backtest.looser import moved
from sootsayer.learning.backtest.weighing import weighed
from sootsayer.rulebook.compiled import PackText, Rulebook, rulebook_from
from sootsayer.rulebook.digests import digest_of
from sootsayer.rulebook.shop import Shop
from sootsayer.rulebook.shop_fit import fitted


@dataclass(frozen=True, slots=True)
class BacktestTask:
    """`before` and `after`: every pack without and with the one that is tried. `every_entry`:
    permissions are compared as of every entry up to the last judged one, not of that alone.
    `questions`: the check proposed first is compared too, which takes longer. `synthetic`: drawn
    cases are taken in."""

    before: tuple[PackText, ...]
    after: tuple[PackText, ...]
    shop: Shop | None = None
    every_entry: bool = False
    questions: bool = True
    synthetic: bool = False

    @property
    def key(self) -> str:
        worker = self.worker()
        books = [[b.digests.logic, b.digests.words] for b in (worker.before, worker.after)]
        shop = None if self.shop is None else self.shop.digest
        options = [self.every_entry, self.questions, self.synthetic]
        return digest_of(["backtest", __version__, books, shop, options])

    def worker(self) -> BacktestWorker:
        return BacktestWorker(self)

    def plain(self, found: Compared) -> Any:
        return plain_form.plain(found)

    def from_plain(self, plain: Any) -> Compared:
        return plain_form.from_plain(plain)


class BacktestWorker:
    """Both rulebooks, compiled. Raises Refused where they are none."""

    def __init__(self, task: BacktestTask) -> None:
        self.task = task
        self.before, self.after = rulebook_from(task.before), rulebook_from(task.after)
        self._shops = (_fitted(task.shop, self.before), _fitted(task.shop, self.after))
        self.changed: tuple[RuleChange, ...] = changes(self.before.model, self.after.model)
        self._hands = Hands(self.before, self.after, self.changed)
        self._same = same_parts(self.before, self.after)

    def row(self, name: str, data: bytes) -> Row[Compared]:
        """What both say of the case in a file, or why it was left out."""
        document = parsed(data, name)
        if isinstance(document, LeftOut):
            return left_out(name, document)
        pair = self._closed(document)
        if isinstance(pair, LeftOut):
            return left_out(name, pair)
        try:
            found = self._compared(*pair)
        except Exception as trouble:  # one case never ends the run: it is counted and named
            why = f"{type(trouble).__name__}: {trouble}"[:200]
            return left_out(name, LeftOut(Left.NOT_JUDGED, pair[0].case.id, why))
        return Row(name, pair[0].case.id, found, torn=pair[0].case.torn is not None)

    def _closed(self, document: Document) -> tuple[Closed, Closed] | LeftOut:
        """The case as each rulebook reads it: their signals and units may differ."""
        with_drawn = self.task.synthetic
        one = closed_of(document, self.before.model, synthetic=with_drawn)
        if isinstance(one, LeftOut):
            return one
        if self._same.read:
            return one, one
        other = closed_of(document, self.after.model, synthetic=with_drawn)
        return other if isinstance(other, LeftOut) else (one, other)

    def _compared(self, one: Closed, other: Closed) -> Compared:
        last = self._briefs(one, other, one.as_of, self.task.questions)
        moves = list(moved(*last, one.as_of))
        for entry in range(1, one.as_of) if self.task.every_entry else ():
            moves += moved(*self._briefs(one, other, entry, False), entry)
        return self._told(one, last, _worst(moves))

    def _briefs(self, one: Closed, other: Closed, entry: int, asking: bool) -> tuple[Brief, Brief]:
        now = one.case.entries[entry - 1].at
        if self._same.read:
            return briefs(
                one.case,
                (self.before, self.after),
                self._same,
                now=now,
                as_of=entry,
                shops=self._shops,
                proposing=asking,
            )
        with_it = brief(
            other.case, self.after, now=now, as_of=entry, shop=self._shops[1], proposing=asking
        )
        without = brief(
            one.case, self.before, now=now, as_of=entry, shop=self._shops[0], proposing=asking
        )
        return without, with_it

    def _told(
        self, closed: Closed, pair: tuple[Brief, Brief], moves: tuple[Moved, ...]
    ) -> Compared:
        present = frozenset(closed.outcome.faults)
        before = weighed(pair[0], self.before.model, present)
        after = weighed(pair[1], self.after.model, present)
        asked = tuple(each.next_check for each in pair)
        found = Compared(
            before,
            after,
            moves,
            _changed(*pair),
            None if asked[0] == asked[1] else (asked[0], asked[1]),
        )
        if not found.differs:
            return found
        kinds = [
            one.kind
            for one, two in zip(before.leads, after.leads, strict=True)
            if one.fault != two.fault
        ]
        rules = self._hands.of(pair, moves, found.findings, kinds, found.asked is not None)
        return Compared(before, after, moves, found.findings, found.asked, rules)


def _fitted(shop: Shop | None, book: Rulebook) -> Shop | None:
    return None if shop is None else fitted(shop, book.model)


def _changed(before: Brief, after: Brief) -> tuple[Changed, ...]:
    names = sorted({*before.levels, *after.levels})
    return tuple(
        Changed(name, before.levels.get(name), after.levels.get(name))
        for name in names
        if before.levels.get(name) != after.levels.get(name)
    )


def _worst(moves: Sequence[Moved]) -> tuple[Moved, ...]:
    """Of each action the moves to each side as of their last entry, those that loosen first."""
    last: dict[tuple[str, bool], Moved] = {}
    for each in sorted(moves, key=lambda move: move.entry):
        last[each.action, each.looser] = each
    return tuple(sorted(last.values(), key=lambda move: (not move.looser, move.action)))
