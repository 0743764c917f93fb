"""Questions eight and nine: why it counts apart from others, and what it is called."""

from __future__ import annotations

from sootsayer.catalogue import say
from sootsayer.commands.teaching.about_fact import Known
from sootsayer.commands.teaching.draft import Draft
from sootsayer.commands.teaching.pack_text import slug
from sootsayer.commands.teaching.talk import NotTaken, Talk, text
from sootsayer.commands.usage import short
from sootsayer.console import rules_new_texts as t
from sootsayer.rulebook.collect import ID
from sootsayer.rulebook.lint.one_reading import deciding_slots
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.reads import evidence_targets, members_of, sole_reading
from sootsayer.rulebook.shops_packs import PREFIX

MOST = 50
ENDINGS = ("", "-seen", "-look", "-limit", "-low", "-high")


def ask_apart(talk: Talk, draft: Draft, known: Known) -> None:
    """Only where the same reading alone decides another finding that has evidence."""
    other = _also_decided(known.model, draft)
    draft.apart = ""
    if other is None:
        return
    says = known.model.findings[other].says
    question = say(t.APART, rule=other, says=says)
    draft.apart = talk.ask(question, say(t.APART_HELP), text(160))


def _also_decided(model: Model, draft: Draft) -> str | None:
    assert draft.fact is not None
    if not draft.fact.slot:
        return None
    reading = sole_reading(model, draft.fact.slot)
    for target in evidence_targets(model):
        for member in members_of(model, target):
            finding = model.findings.get(member)
            open_ = finding is not None and not finding.apart_because
            if finding is not None and open_ and reading in deciding_slots(model, finding):
                return member
    return None


def ask_name(talk: Talk, draft: Draft, known: Known, files: set[str]) -> None:
    """The id of the finding, which is that of the pack and its file too."""
    taken = {*ids_of(known.model), *files}

    def read(typed: str) -> str:
        if ID.fullmatch(typed) is None or not typed.startswith(PREFIX) or len(typed) > MOST:
            raise NotTaken(say(t.NAME_NOT, name=short(typed)), say(t.NAME_NOT_NEXT))
        if any(f"{typed}{ending}" in taken for ending in ENDINGS):
            raise NotTaken(say(t.NAME_TAKEN, name=short(typed)), say(t.NAME_TAKEN_NEXT))
        return typed

    draft.name = talk.ask(say(t.NAME), say(t.NAME_HELP), read, _free(draft, taken), first=True)


def _free(draft: Draft, taken: set[str]) -> str:
    name = slug(draft.says)[:MOST].rstrip("-")
    count = 1
    while any(f"{name if count == 1 else f'{name}-{count}'}{end}" in taken for end in ENDINGS):
        count += 1
    return name if count == 1 else f"{name}-{count}"


def ids_of(model: Model) -> set[str]:
    """Every id that a pack has declared or retired."""
    return {
        id_
        for part in (
            model.signals, model.channels, model.limits, model.checks, model.findings,
            model.families, model.faults, model.actions, model.interlocks, model.quantities,
            model.remedies, model.retired,
        )
        for id_ in part
    }  # fmt: skip
