"""Rates counted from cases that can be counted by hand."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from sootsayer.learning.archive.running import replayed
from sootsayer.learning.archive.shelf import LocalShelf
from sootsayer.learning.intervals import jeffreys, wilson
from sootsayer.learning.rates.diff import as_diff, drawn_up
from sootsayer.learning.rates.found import Observed
from sootsayer.learning.rates.proposals import NO_RAISE, Proposal, proposals
from sootsayer.learning.rates.selection import selected
from sootsayer.learning.rates.shares import Rate, numbers_in, rates
from sootsayer.learning.rates.tally import RatesTally, linked_in, tallied
from sootsayer.learning.rates.task import RatesTask
from sootsayer.rulebook.compiled import PackText, rulebook_from
from tests.learning.archive.support import small, small_texts, some_archive

Case = tuple[tuple[str, ...], dict[str, str]]


def counted(*cases: tuple[Case, int]) -> RatesTally:
    """A tally of so many cases each with these faults and levels."""
    tally = RatesTally(linked_in(small().model))
    for (faults, levels), times in cases:
        for _ in range(times):
            tally.take(Observed(faults, tuple(sorted(levels.items()))))
    return tally


def rate(tally: RatesTally, of: str, fault: str) -> Rate:
    return next(r for r in rates(small().model, tally) if (r.of, r.fault) == (of, fault))


def test_from_files(tmp_path: Path) -> None:
    """Each closed case adds what was seen in it: the family's level by its speaker."""
    task = RatesTask(small_texts())
    tally = tallied(small().model, replayed(task, LocalShelf(some_archive(tmp_path))))
    assert tally.cases == 7
    assert dict(tally.faults) == {"blocked": 4, "short-duty": 2, "sensor-offset": 1}
    blocked = rate(tally, "restriction", "blocked")
    assert [(s.level, s.count) for s in blocked.levels] == [("low", 0), ("normal", 1), ("high", 3)]
    assert rate(tally, "not-zero", "sensor-offset").levels[0].count == 1
    assert rate(tally, "not-zero", "").n == 6
    assert tally.leading.count == 21


def test_only_cases_that_speak_of_the_number_alone() -> None:
    """A case with two listed faults says nothing of either alone: it is left out and counted."""
    seen = {"restriction": "high"}
    tally = counted(
        ((("blocked",), seen), 6),
        ((("blocked", "short-duty"), seen), 2),  # not listed for this finding: counts
        ((("blocked", "sensor-stuck"), seen), 3),  # hidden: says nothing of blocked alone
        ((("sensor-stuck",), seen), 4),
        (((), {"restriction": "normal"}), 9),
        ((("short-duty",), {}), 5),  # nothing was read
    )
    blocked = rate(tally, "restriction", "blocked")
    assert (blocked.n, blocked.left_out) == (8, 3)
    hidden = rate(tally, "restriction", "sensor-stuck")
    assert (hidden.n, hidden.left_out, hidden.hides) == (7, 0, True)
    assert rate(tally, "restriction", "").n == 9


def test_intervals_beside_the_packs_number() -> None:
    """Both intervals of the share, the pack's number, and whether it lies outside."""
    tally = counted(
        ((("sensor-offset",), {"not-zero": "true"}), 5),
        ((("sensor-offset",), {"not-zero": "false"}), 15),
        (((), {"not-zero": "false"}), 80),
        (((), {"not-zero": "true"}), 2),
    )
    found = rate(tally, "not-zero", "sensor-offset")
    (share,) = found.levels
    assert (share.count, found.n) == (5, 20)
    assert share.said == pytest.approx(0.9)
    assert (share.jeffreys, share.wilson) == (jeffreys(5, 20), wilson(5, 20))
    assert found.contradicted
    assert not rate(tally, "not-zero", "").contradicted
    assert found.seen is not None
    assert found.seen.value == pytest.approx((5 / 20) / (2 / 82))


def test_few_cases_contradict_nothing() -> None:
    """Nine cases are too few to put a number beside the pack's."""
    tally = counted(((("sensor-offset",), {"not-zero": "false"}), 9))
    assert not rate(tally, "not-zero", "sensor-offset").contradicted
    assert proposals(small().model, rates(small().model, tally)) == ()


def told(tally: RatesTally) -> Sequence[Proposal]:
    return proposals(small().model, rates(small().model, tally))


def off() -> RatesTally:
    """Numbers that three of the pack's are far from."""
    return counted(
        ((("sensor-offset",), {"not-zero": "true"}), 5),
        ((("sensor-offset",), {"not-zero": "false"}), 15),
        ((("blocked",), {"restriction": "normal"}), 20),
        ((("blocked",), {"restriction": "high"}), 20),
        ((("sensor-stuck",), {"restriction": "high"}), 20),
        ((("short-duty",), {"short-trips": "true"}), 1),
        ((("short-duty",), {"short-trips": "false"}), 29),
    )


def test_what_is_proposed() -> None:
    """As an override would have to name it; a spread adds to 100; what would not raise is no
    number to propose but a link to look at."""
    found = {(each.of, *each.path): each for each in told(off())}
    assert found["not-zero", "seen with", "sensor-offset"].now == "0.262"
    assert found["restriction", "seen with", "blocked"].now is not None
    assert (
        found["sensor-stuck", "hides", "restriction"].now
        == "{low: 2.33, normal: 2.33, high: 95.34}"
    )
    none = found["short-trips", "seen with", "short-duty"]
    assert (none.now, none.because) == (None, NO_RAISE)


def test_the_difference_is_a_pack_that_can_be_read() -> None:
    """Taken over as it stands it changes those numbers, each with its n, and no other."""
    drawn = drawn_up(small().model, small_texts(), told(off()), "81 closed cases")
    after = rulebook_from((*small_texts(), PackText("shop-rates.yaml", drawn.text.encode()))).model
    assert {(o.of, *o.path): o.was for o in after.overrides} == {
        ("not-zero", "seen with", "sensor-offset"): "0.9",
        ("restriction", "seen with", "blocked"): "{low: 0.4, normal: 9.6, high: 90}",
        ("sensor-stuck", "hides", "restriction"): "{low: 30, normal: 40, high: 30}",
    }
    assert after.evidence["not-zero"].seen_with["sensor-offset"][1] == pytest.approx(0.262)
    assert all(" of " in override.why for override in after.overrides)
    lines = list(as_diff(drawn))
    assert lines[0].startswith("# short-trips, seen with → short-duty")
    assert lines[1:3] == ["--- /dev/null", "+++ packs/shop-rates.yaml"]
    assert "".join(line[1:] + "\n" for line in lines[4:]) == drawn.text


def test_numbers_that_do_not_fit_one_another() -> None:
    """An `otherwise` above its own links is left out and said, and the rest stays."""
    tally = counted(
        (((), {"not-zero": "true"}), 60),
        ((("blocked",), {"restriction": "normal"}), 40),
    )
    tally.take(Observed((), (("not-zero", "false"),)))
    drawn = drawn_up(small().model, small_texts(), told(tally), "101 closed cases")
    assert [each.path for each, _ in drawn.left_out] == [("otherwise",)]
    assert "of: restriction" in drawn.text
    assert "not-zero" not in drawn.text


def test_where_selection_bites() -> None:
    """A check done nearly always with the fault and seldom without is named; one done alike, or
    with too few cases, is not."""
    tally = counted(
        ((("sensor-offset",), {"not-zero": "true", "stuck": "false"}), 18),
        ((("sensor-offset",), {"stuck": "false"}), 2),
        (((), {"stuck": "false"}), 90),
        (((), {"not-zero": "false", "stuck": "false"}), 10),
        ((("blocked",), {"restriction": "high"}), 3),
    )
    (found,) = selected(tally)
    assert (found.of, found.fault) == ("not-zero", "sensor-offset")
    assert (found.with_known, found.with_all, found.other_known, found.other_all) == (
        18,
        20,
        10,
        103,
    )


def test_how_many_numbers_there_are() -> None:
    """Every spread, leak and hiding spread is one."""
    assert numbers_in(small().model) == 4 + 4 + 1
