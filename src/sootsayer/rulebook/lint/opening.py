"""The opening questions: few enough to be said aloud, and all at the counter."""

from __future__ import annotations

from sootsayer.rulebook.desk import Desk
from sootsayer.rulebook.model import Model, Where

MOST_ASKED = 12


def opening_can_be_asked(desk: Desk, model: Model) -> None:
    """At most a dozen checks, each once, each possible at the counter."""
    seen: dict[str, str] = {}
    for group in model.opening:
        for id_ in group.checks:
            check = model.checks.get(id_)
            if id_ in seen:
                desk.wrong(
                    group.place,
                    f'"{id_}" is asked in the group "{seen[id_]}" and in "{group.id}"',
                    "ask it once",
                )
            elif check is not None and check.where is not Where.COUNTER:
                desk.wrong(
                    group.place,
                    f'"{id_}" is done at the {check.where.value} stage ({check.place}), and the '
                    "opening is asked at the counter",
                    "leave it out, or let it be done at the counter",
                )
            seen.setdefault(id_, group.id)
    if len(seen) > MOST_ASKED:
        desk.wrong(
            model.opening[0].place,
            f"the opening asks {len(seen)} checks, and nobody listens to more than {MOST_ASKED}",
            "keep those that decide most, above all whether it may be driven",
        )
