"""The opening questions: few enough to be said aloud, and all at the counter."""

from __future__ import annotations

from sootsayer.catalogue import say
from sootsayer.rulebook.desk import Desk
from sootsayer.rulebook.model import Model, Where

MOST_ASKED = 12
ASKED_TWICE = '"{check}" is asked in the group "{first}" and in "{group}"'
TOO_LATE = (
    '"{check}" is done at the {stage} stage ({place}), and the opening is asked at the counter'
)
TOO_MANY = "the opening asks {count} checks, and nobody listens to more than {most}"


def opening_can_be_asked(desk: Desk, model: Model) -> None:
    """At most a dozen checks, each once, each possible at the counter."""
    seen: dict[str, str] = {}
    for group in model.opening:
        for id_ in group.checks:
            check = model.checks.get(id_)
            if id_ in seen:
                desk.wrong(
                    group.place,
                    say(ASKED_TWICE, check=id_, first=seen[id_], group=group.id),
                    say("ask it once"),
                )
            elif check is not None and check.where is not Where.COUNTER:
                desk.wrong(
                    group.place,
                    say(TOO_LATE, check=id_, stage=check.where.value, place=check.place),
                    say("leave it out, or let it be done at the counter"),
                )
            seen.setdefault(id_, group.id)
    if len(seen) > MOST_ASKED:
        desk.wrong(
            model.opening[0].place,
            say(TOO_MANY, count=len(seen), most=MOST_ASKED),
            say("keep those that decide most, above all whether it may be driven"),
        )
