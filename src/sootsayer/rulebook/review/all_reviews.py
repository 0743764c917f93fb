"""Every review of a rulebook, in one place."""

from __future__ import annotations

from collections.abc import Mapping

from sootsayer.catalogue import say
from sootsayer.rulebook.loading import Reading
from sootsayer.rulebook.review.apart import faults_apart
from sootsayer.rulebook.review.bench import Bench, bench_of
from sootsayer.rulebook.review.decides import applies_can_apply, rules_decide
from sootsayer.rulebook.review.differs import rules_differ
from sootsayer.rulebook.review.links import links_say_something
from sootsayer.rulebook.review.remark import Concern, Gathered, Weight
from sootsayer.rulebook.review.yields import checks_yield, interlocks_clear

SUCCESSOR = "name a `successor` if there is one: old cases and packs then say what to write"


def review(reading: Reading, limits: Mapping[str, float]) -> Gathered:
    """What can be said of a rulebook beyond what forbids to load it.

    Of packs that are refused only what stands in what was read whole: nothing that rests on
    what may be missing. `limits`: a shop's own numbers, in the unit of each limit.
    """
    if reading.program is None:
        return Gathered()
    bench = bench_of(reading.desk, reading.packs, reading.model, reading.program, limits)
    rules_decide(bench)
    applies_can_apply(bench)
    if reading.whole:
        checks_yield(bench)
        interlocks_clear(bench)
        rules_differ(bench)
        links_say_something(bench)
        faults_apart(bench)
        _retired(bench)
    return bench.found


def _retired(bench: Bench) -> None:
    for gone in bench.model.retired.values():
        if not gone.successor:
            bench.remark(
                Concern.RETIRED, Weight.NOTE, gone.id, gone.place,
                say('"{id}" is retired and nothing follows it', id=gone.id), say(SUCCESSOR),
            )  # fmt: skip
