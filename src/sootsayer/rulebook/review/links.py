"""Links that say nothing, or one thing and its opposite."""

from __future__ import annotations

from sootsayer.catalogue import say
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.names import Section
from sootsayer.rulebook.review.bench import Bench
from sootsayer.rulebook.review.remark import Concern, Weight

SAME = 1e-9
AS_OFTEN = '"{finding}" is seen as often with "{fault}" as otherwise, so this link says nothing'
COMES_BY_ITSELF = '"{cause}" leads to "{condition}" as often as it comes by itself'
COVERS_UP = '"{remedy}" cures "{fault}" and also covers it up'
CURES_NOT = '"{remedy}" cures "{fault}" and also does not cure while it is there'


def links_say_something(bench: Bench) -> None:
    """A link raises what is seen; work does not both cure and cover up."""
    _evidence(bench)
    _leads(bench)
    _remedies(bench)


def _evidence(bench: Bench) -> None:
    for block in bench.model.evidence.values():
        for fault, spread in block.seen_with.items():
            if max(abs(a - b) for a, b in zip(spread, block.otherwise, strict=True)) < SAME:
                bench.remark(
                    Concern.LINKS, Weight.WARNING, block.finding, block.places[fault],
                    say(AS_OFTEN, finding=block.finding, fault=fault),
                    say("leave it out, or write how often it is really seen"),
                )  # fmt: skip


def _leads(bench: Bench) -> None:
    for cause in bench.model.faults.values():
        place = bench.place_of(cause.pack, Section.FAULT, cause.id, "leads to", cause.place)
        for name, leads in cause.leads_to.items():
            led = bench.model.faults.get(name)
            if led is not None and abs(leads - led.prior) < SAME:
                bench.remark(
                    Concern.LINKS, Weight.WARNING, cause.id, place,
                    say(COMES_BY_ITSELF, cause=cause.id, condition=name),
                    say("leave it out, or write how often it really does"),
                )  # fmt: skip


def _remedies(bench: Bench) -> None:
    model: Model = bench.model
    for remedy in model.remedies.values():
        for key, names, what in (
            ("hides fault", remedy.hides_faults, COVERS_UP),
            ("needs mended", remedy.needs_mended, CURES_NOT),
        ):
            for name in sorted(set(names) & remedy.cures.keys()):
                place = bench.place_of(remedy.pack, Section.REMEDY, remedy.id, key, remedy.place)
                bench.remark(
                    Concern.LINKS, Weight.ERROR, remedy.id, place,
                    say(what, remedy=remedy.id, fault=name),
                    say("keep one of `cures` and `{key}`", key=key),
                )  # fmt: skip
