"""One closed case judged as of the entry before its outcome, for rates and calibration."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sootsayer import __version__
from sootsayer.judgement.brief import Brief, brief
from sootsayer.learning.archive.closed import Closed, Left, LeftOut, closed_of, parsed
from sootsayer.learning.archive.rows import Row, left_out
from sootsayer.learning.backtest.weighing import weighed
from sootsayer.learning.rates import found as plain_form
from sootsayer.learning.rates.found import Observed
from sootsayer.rulebook.compiled import PackText, rulebook_from
from sootsayer.rulebook.digests import digest_of
from sootsayer.rulebook.shop import Shop
from sootsayer.rulebook.shop_fit import fitted


@dataclass(frozen=True, slots=True)
class RatesTask:
    """`packs`: every pack in force. `synthetic`: drawn cases are taken in."""

    packs: tuple[PackText, ...]
    shop: Shop | None = None
    synthetic: bool = False

    @property
    def key(self) -> str:
        digests = rulebook_from(self.packs).digests
        shop = None if self.shop is None else self.shop.digest
        return digest_of(["rates", __version__, digests.logic, digests.words, shop, self.synthetic])

    def worker(self) -> RatesWorker:
        return RatesWorker(self)

    def plain(self, found: Observed) -> Any:
        return plain_form.plain(found)

    def from_plain(self, plain: Any) -> Observed:
        return plain_form.from_plain(plain)


class RatesWorker:
    """The rulebook, compiled. Raises Refused where it is none."""

    def __init__(self, task: RatesTask) -> None:
        self.rulebook = rulebook_from(task.packs)
        self._synthetic = task.synthetic
        self._shop = None if task.shop is None else fitted(task.shop, self.rulebook.model)

    def row(self, name: str, data: bytes) -> Row[Observed]:
        """What the case in a file adds, or why it was left out."""
        document = parsed(data, name)
        if isinstance(document, LeftOut):
            return left_out(name, document)
        closed = closed_of(document, self.rulebook.model, synthetic=self._synthetic)
        if isinstance(closed, LeftOut):
            return left_out(name, closed)
        try:
            found = self._observed(closed)
        except Exception as trouble:  # one case never ends the run: it is counted and named
            why = f"{type(trouble).__name__}: {trouble}"[:200]
            return left_out(name, LeftOut(Left.NOT_JUDGED, closed.case.id, why))
        return Row(name, closed.case.id, found, torn=closed.case.torn is not None)

    def _observed(self, closed: Closed) -> Observed:
        said = brief(
            closed.case,
            self.rulebook,
            now=closed.at,
            as_of=closed.as_of,
            shop=self._shop,
            proposing=False,
        )
        faults = tuple(sorted(set(closed.outcome.faults)))
        return Observed(
            faults,
            self._levels(said),
            tuple((each.id, each.confidence) for each in said.faults),
            weighed(said, self.rulebook.model, frozenset(faults)).leads,
        )

    def _levels(self, said: Brief) -> tuple[tuple[str, str], ...]:
        """A member with numbers of its own counts under its own name, not for its family."""
        found = []
        for family, speaker in said.speakers.items():
            level = said.levels[speaker]
            if level is not None:
                own = speaker in self.rulebook.model.evidence
                found.append((speaker if own else family, level))
        return tuple(sorted(found))
