"""What one closed case says of two rulebooks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sootsayer.belief.network import Kind
from sootsayer.learning.leading import Leading


@dataclass(frozen=True, slots=True)
class Moved:
    """A permission that is not what it was: of an action, as of an entry, both states in words.

    `looser`: more may be done than before, or what was forbidden is only unknown now.
    """

    action: str
    before: str
    after: str
    entry: int
    looser: bool


@dataclass(frozen=True, slots=True)
class Changed:
    """A finding whose level is not what it was; None is unknown, or set aside."""

    finding: str
    before: str | None
    after: str | None


@dataclass(frozen=True, slots=True)
class Weighed:
    """What a verdict is worth against the outcome: a leading fault for each kind, and the mean
    squared distance between every confidence and whether the fault was there."""

    leads: tuple[Leading, ...]
    squared: float


@dataclass(frozen=True, slots=True)
class Compared:
    """Both verdicts of one case. `asked`: the check proposed first, before and after, where that
    differs. `rules`: names of the changed rules that have a hand in what differs."""

    before: Weighed
    after: Weighed
    moved: tuple[Moved, ...] = ()
    findings: tuple[Changed, ...] = ()
    asked: tuple[str | None, str | None] | None = None
    rules: tuple[str, ...] = ()

    @property
    def leads_differ(self) -> bool:
        """Whether any kind has another leading fault."""
        return any(
            one.fault != other.fault
            for one, other in zip(self.before.leads, self.after.leads, strict=True)
        )

    @property
    def differs(self) -> bool:
        """Whether a technician would have read something else than another number."""
        return bool(self.moved or self.findings or self.asked or self.leads_differ)


def plain(found: Compared) -> Any:
    """As lists, texts and numbers."""
    return [
        _plain_weighed(found.before),
        _plain_weighed(found.after),
        [[m.action, m.before, m.after, m.entry, m.looser] for m in found.moved],
        [[c.finding, c.before, c.after] for c in found.findings],
        found.asked,
        found.rules,
    ]


def from_plain(plain: Any) -> Compared:
    """The same again."""
    before, after, moved, findings, asked, rules = plain
    return Compared(
        _weighed(before),
        _weighed(after),
        tuple(Moved(*each) for each in moved),
        tuple(Changed(*each) for each in findings),
        None if asked is None else (asked[0], asked[1]),
        tuple(rules),
    )


def _plain_weighed(weighed: Weighed) -> Any:
    leads = [[x.kind.value, x.fault, x.confidence, x.right] for x in weighed.leads]
    return [leads, weighed.squared]


def _weighed(plain: Any) -> Weighed:
    leads, squared = plain
    return Weighed(tuple(Leading(Kind(kind), f, c, r) for kind, f, c, r in leads), squared)
