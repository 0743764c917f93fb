"""Coverage: which outcomes of which condition proofs and cases show, counted by hand."""

from __future__ import annotations

from pathlib import Path

from sootsayer.judgement.coverage import Facts, Shown, coverage
from sootsayer.rulebook.compiled import load_rulebook
from tests.rulebook.review.small import rule, small


def counted(shown: tuple[Shown, ...], slot: str) -> dict[tuple[str, str], tuple[int, int]]:
    """Of one rule: the number of the test (0 the rule itself) and outcome to proofs and cases."""
    parts: list[object] = []
    found = {}
    for each in shown:
        if each.slot == slot:
            if each.part not in parts:
                parts.append(each.part)
            found[str(parts.index(each.part)), each.outcome] = (each.proofs, each.cases)
    return found


def test_counted_by_hand(tmp_path: Path) -> None:
    """A rule of two tests, its three proofs, and two cases."""
    both = rule("both", "{dp: {above: 50}, oil: yes}", true="{dp: 60, oil: yes}", false="{dp: 1}")
    (tmp_path / "small.yaml").write_text(small(both), encoding="utf-8")
    rulebook = load_rulebook([tmp_path])
    cases = [
        Facts({"dp": 60.0, "oil": False}, {"dp-max": 40.0}),
        Facts({"oil": True}, {"dp-max": 40.0}),
    ]
    shown = counted(coverage(rulebook, cases), "both")
    assert shown == {
        ("0", "true"): (1, 0), ("0", "false"): (1, 1), ("0", "unknown"): (1, 1),
        ("1", "true"): (1, 1), ("1", "false"): (1, 0), ("1", "unknown"): (1, 1),
        ("2", "true"): (1, 1), ("2", "false"): (0, 1), ("2", "unknown"): (2, 0),
    }  # fmt: skip


def test_a_grade_and_an_interlock(tmp_path: Path) -> None:
    """Of a grade each level counts; what has no proof is shown by none; one test is its rule."""
    (tmp_path / "small.yaml").write_text(small(), encoding="utf-8")
    shown = coverage(load_rulebook([tmp_path]))
    assert counted(shown, "load") == {
        ("0", "little"): (1, 0), ("0", "much"): (1, 0), ("0", "unknown"): (1, 0),
    }  # fmt: skip
    assert counted(shown, "interlock:oil-good") == {
        ("0", "true"): (0, 0), ("0", "false"): (0, 0), ("0", "unknown"): (0, 0),
    }  # fmt: skip
