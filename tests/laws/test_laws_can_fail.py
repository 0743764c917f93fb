"""Each law's own check is seen to fail when what it guards is broken."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

import pytest

from sootsayer.casework.case_file import read_case
from sootsayer.casework.model import Absence, Case, Source
from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict import Permitted, Reason
from tests.laws import breaks
from tests.laws import test_law_1_order as law_1
from tests.laws import test_law_2_unknown_to_known as law_2
from tests.laws import test_law_3_unknown as law_3
from tests.laws import test_law_4_grounds as law_4
from tests.laws import test_law_5_lying_instrument as law_5
from tests.laws import test_law_6_counts_once as law_6
from tests.laws import test_law_7_hides as law_7
from tests.laws import test_law_9_exact as law_9
from tests.laws import test_law_10_same_bytes as law_10
from tests.laws import test_law_12_no_silence as law_12
from tests.laws.breaks import Plant, swapped, wrapped
from tests.laws.demonstrations import (
    closing_moment,
    demonstration,
    forgetting,
    healthy,
    saying,
)
from tests.laws.making_cases import Reading, some_case
from tests.laws.outline import Outline, outline

Check = Callable[[Path], object]


@dataclass(frozen=True, slots=True)
class Broken:
    """A law, what is broken, and the law's check: it gets an empty folder."""

    law: int
    name: str
    plant: Plant
    check: Check


def frozen() -> tuple[Case, datetime]:
    book = law_12.frozen_book()
    return read_case(law_10.GOLDEN / "case.yaml", book.model), law_10.FROZEN_AT


def known_later(name: str, slot: str) -> Check:
    """Law 2 on a demonstration in which one fact came last."""
    case = demonstration(name)

    def check(_: Path) -> None:
        before, after = outline(forgetting(case, {slot})), outline(case)
        law_2.knowing_more_flips_nothing(before, after)

    return check


def told(name: str) -> Outline:
    return outline(demonstration(name), closing_moment(demonstration(name)))


def frozen_grounds(_: Path) -> None:
    """Law 4 on the whole verdict of the frozen case."""
    case, at = frozen()
    law_4.faults_have_their_grounds(judge(case, law_12.frozen_book(), now=at))


def nothing_well_without_proof(_: Path) -> None:
    law_5.no_knocked_out_instrument_acquits(*healthy())


def nothing_cleared_without_proof(_: Path) -> None:
    case = demonstration("leaking-front-hose")
    law_5.lies_acquit_nothing(outline(forgetting(case, {"dp@rest"}), closing_moment(case)))


def no_page_says_well(_: Path) -> None:
    case, at = healthy()
    assert not law_5.says_well(saying(case, {"hose-holds-vacuum": False}), at)


def silent(slot: str, absence: Absence) -> Check:
    reading = Reading(slot, None, Source.TECHNICIAN, absence)
    return lambda _: law_3.silence_says_nothing([], [reading])


def spoiled(data: bytes) -> Check:
    return lambda folder: law_12.case_ends_well(folder, data, "page")


ESCAPE = law_12.CASE.replace(b"Invented.", b"\x1b[2J")
LATE = closing_moment(demonstration(law_10.NAME))
OUTLINE = "tests.laws.outline"
PEN = "sootsayer.judgement"

BROKEN = (
    Broken(1, "hiders in the order of writing",
           swapped("sootsayer.rulebook.network.hiders_in_order", breaks.hiders_as_written),
           lambda folder: law_1.order_of_rules_changes_nothing(folder, 0)),
    Broken(1, "three facts an entry",
           swapped("sootsayer.casework.facts.statements", breaks.three_facts_an_entry),
           lambda _: law_1.order_of_facts_changes_nothing(
               demonstration(law_10.NAME), LATE, law_1.backwards)),
    Broken(2, "missing is false", breaks.missing_as_false,
           known_later("leaking-front-hose", "hose-holds-vacuum")),
    Broken(2, "answers are never taken back",
           swapped("sootsayer.casework.facts.statements", breaks.never_taken_back),
           lambda _: law_2.taking_back_undoes(demonstration("sensor-offset"), "dp@rest")),
    Broken(3, "missing is false", breaks.missing_as_false,
           lambda _: law_3.nothing_known_permits_and_denies_nothing(outline(some_case([])))),
    Broken(3, "unknown clears",
           wrapped(f"{PEN}.interlocks.weigh", lambda said, _: (
               (Permitted.CLEAR, Reason.HOLDS) if said[1] is Reason.UNKNOWN else said)),
           lambda _: law_3.nothing_is_decided_by_nothing(outline(some_case([])))),
    Broken(3, "not known is not fitted",
           wrapped("sootsayer.casework.facts._fact", breaks.not_known_as_not_fitted),
           silent("fire-signs", Absence.DO_NOT_KNOW)),
    Broken(3, "half a list of codes is whole", breaks.every_list_complete,
           lambda _: law_3.half_a_list_denies_nothing()),
    Broken(4, "all inputs are grounds",
           swapped(f"{PEN}.grounds._resting", breaks.all_inputs_as_grounds),
           lambda _: law_4.grounds_are_minimal(told("sensor-offset"))),
    Broken(4, "one ground is lost",
           wrapped(f"{PEN}.grounds._resting", lambda found, *_: found[1:]),
           lambda _: law_4.grounds_are_minimal(told("sensor-offset"))),
    Broken(4, "grounds name the entry after",
           wrapped(f"{PEN}.grounds.ground", lambda g, *_: replace(g, line=g.line + 1)),
           lambda _: law_4.grounds_stand_in_entries(
               demonstration("sensor-offset"), told("sensor-offset"))),
    Broken(4, "what speaks for a fault has no grounds",
           wrapped(f"{PEN}.judge.faults_said", breaks.without_grounds), frozen_grounds),
    Broken(4, "rules are a line off",
           wrapped(f"{PEN}.findings.rule_at", lambda r, *_: replace(r, line=r.line + 1)),
           lambda _: law_4.rules_stand_where_they_say(told("leaking-front-hose"), ())),
    Broken(5, "any instrument may acquit",
           swapped(f"{PEN}.filter_well.SETTLED", breaks.EVERY_STATE), nothing_well_without_proof),
    Broken(5, "untested is proven", swapped(f"{PEN}.trust._state", breaks.untested_is_proven),
           nothing_well_without_proof),
    Broken(5, "permissions rest on any instrument",
           swapped(f"{PEN}.views.Trust.settled", lambda trust, fact: not trust.distrusted(fact)),
           nothing_cleared_without_proof),
    Broken(5, "the page says well all the same",
           swapped("sootsayer.console.judge_texts.NOT_WELL", "The filter is well; but {because}."),
           no_page_says_well),
    Broken(6, "every member speaks", swapped(f"{OUTLINE}.network_of", breaks.every_member_speaks),
           lambda _: law_6.only_the_speaker_counts(demonstration("blocked-by-short-trips"))),
    Broken(6, "lint looks away",
           swapped("sootsayer.rulebook.lint.one_reading.counts_once", lambda *_: None),
           law_6.counting_twice_is_refused),
    Broken(7, "hiding is forgotten",
           swapped("sootsayer.rulebook.network.hiders_in_order", lambda *_: ()),
           lambda _: law_7.a_leaking_hose_acquits_nothing()),
    Broken(7, "hiding is one more sight", breaks.hiding_is_one_more_sight,
           lambda _: law_7.a_leaking_hose_acquits_nothing()),
    Broken(9, "priors are dropped",
           swapped("tests.laws.test_law_9_exact.infer", breaks.priors_dropped),
           lambda _: law_9.confidence_is_exact(demonstration(law_10.NAME), LATE)),
    Broken(9, "a knot is cut in silence",
           swapped("tests.laws.test_law_9_exact.infer", breaks.silently_narrowed),
           lambda _: law_9.confidence_is_exact(demonstration(law_10.NAME), LATE)),
    Broken(9, "none as if independent",
           swapped("tests.laws.test_law_9_exact.infer", breaks.none_as_if_independent),
           lambda _: law_9.confidence_is_exact(demonstration(law_10.NAME), LATE)),
    Broken(9, "the page does not say that it is not exact",
           swapped("sootsayer.console.judge_bits.warnings", lambda *_: []),
           lambda _: law_9.inexactness_is_said(law_12.frozen_book(), *frozen(), 2)),
    Broken(10, "the clock is in the verdict",
           wrapped("tests.laws.test_law_10_same_bytes.as_json", breaks.with_the_clock),
           lambda _: law_10.judged_twice_is_judged_once()),
    Broken(10, "one more digit is kept",
           wrapped(f"{PEN}.beliefs.six", lambda _, share: round(share, 7)),
           lambda _: law_10.frozen_bytes_come_out_again()),
    Broken(12, "text is not made visible",
           swapped("sootsayer.catalogue.visible", lambda text: text),
           lambda folder: law_12.hostile_text_ends_well(folder, "a\u202eb".encode(), "a\\u202eb")),
    Broken(12, "the quoted line is not made visible",
           swapped("sootsayer.documents.report_problems.visible", lambda text: text),
           spoiled(ESCAPE)),
    Broken(12, "no wall", swapped("sootsayer.commands.main.guarded", lambda run: run()),
           spoiled(b"")),
    Broken(12, "something trips",
           wrapped("sootsayer.casework.case_file.case_of", breaks.trips_over),
           spoiled(law_12.CASE)),
    Broken(12, "silence", swapped("sootsayer.commands.main.guarded", breaks.refuses_in_silence),
           spoiled(b"")),
    Broken(12, "reading writes",
           wrapped("sootsayer.casework.case_file.case_of", breaks.reading_leaves_a_trace),
           spoiled(law_12.CASE)),
)  # fmt: skip


@pytest.mark.parametrize("broken", BROKEN, ids=lambda b: f"{b.law}: {b.name}")
def test_law_is_seen_to_fail(
    broken: Broken, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """The law's check passes; with the break planted it fails, and by its own assertion."""
    broken.check(tmp_path / "whole")
    broken.plant(monkeypatch)
    with pytest.raises(AssertionError):
        broken.check(tmp_path / "broken")


def test_order_of_a_set_is_seen(tmp_path: Path) -> None:
    """Law 10 notices a verdict in the order of a set: two hash seeds then give other bytes."""
    planted = tmp_path / "planted"
    planted.mkdir()
    (planted / "sitecustomize.py").write_text(breaks.ORDER_OF_A_SET, encoding="utf-8")
    worlds = [{"PYTHONHASHSEED": seed, "PLANTED": str(planted)} for seed in "12"]
    with pytest.raises(AssertionError):
        law_10.worlds_agree(tmp_path / "worlds", worlds)


def test_every_law_has_a_break() -> None:
    """No law that has a property test goes without."""
    assert {b.law for b in BROKEN} == {1, 2, 3, 4, 5, 6, 7, 9, 10, 12}
