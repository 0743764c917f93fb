"""What is seen where none of the faults that an evidence block lists is present.

That is not a sound vehicle: other faults may be there, and one that nearly always shows the finding
must not count as if only listed ones could.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from sootsayer.rulebook.model import Model
from sootsayer.rulebook.reads import family_of

Spread = tuple[float, ...]


def unlisted(model: Model, block: str, counted: Collection[tuple[str, str]]) -> list[str]:
    """The simulated faults that a block neither links nor, for its family, has hidden."""
    family = family_of(model, block) if block in model.findings else block
    listed = model.evidence[block].seen_with
    return [
        fault
        for at, fault in counted
        if at == block and fault not in listed and family not in model.faults[fault].hides
    ]


def none_listed(
    sound: Spread, others: Mapping[str, Spread], marginals: Mapping[str, float]
) -> Spread:
    """What is seen when no listed fault is present: of sound vehicles and of those with one of the
    `others`, each as frequent as its marginal (0 to 1) says. Two of them at once are left out."""
    odds = {fault: marginals[fault] / (1.0 - marginals[fault]) for fault in others}
    whole = 1.0 + sum(odds.values())
    return tuple(
        (share + sum(odds[fault] * others[fault][level] for fault in others)) / whole
        for level, share in enumerate(sound)
    )
