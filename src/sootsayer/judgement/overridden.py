"""The shop's own numbers in place of a pack's, as a verdict tells of them."""

from __future__ import annotations

from sootsayer.judgement.grounds import rule_at
from sootsayer.judgement.verdict import OverrideSaid
from sootsayer.rulebook.model import Model


def overrides_said(model: Model) -> tuple[OverrideSaid, ...]:
    """Every override in force, by the id that it changes."""
    return tuple(
        OverrideSaid(
            of=each.of,
            path=each.path,
            was=each.was,
            now=each.now,
            why=each.why,
            rule=rule_at(each.place.file, each.place.line, ""),
        )
        for each in sorted(model.overrides, key=lambda each: (each.of, each.path))
    )
