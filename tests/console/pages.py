"""Every page that a snapshot is kept of, and how to refresh them.

After a wanted change of a page: `python -m tests.console.pages`, then read the difference
(`git diff tests/console/snapshots`) as a technician would, and commit it with the change.
"""

from __future__ import annotations

from pathlib import Path

from sootsayer.console.judge_more import judge_more_page
from sootsayer.console.judge_page import judge_page
from sootsayer.console.plan_page import plan_page
from sootsayer.console.screen import drawn
from sootsayer.console.why_page import why_page
from tests.console import answers, plans, verdicts

SNAPSHOTS = Path(__file__).parent / "snapshots"


def pages() -> dict[str, str]:
    """Name of a snapshot to the page as it is drawn now."""
    drawings: dict[str, str] = {}
    for name, (make, names) in verdicts.ALL.items():
        page = judge_page(make(), names)
        drawings[f"judge-{name}"] = drawn(page)
        drawings[f"judge-{name}-50"] = drawn(page, width=50)
        drawings[f"judge-{name}-more"] = drawn(judge_more_page(make(), names))
    for name, answer in answers.ALL.items():
        drawings[f"why-{name}"] = drawn(why_page(answer, verdicts.NAMES))
    for name, facts in plans.ALL.items():
        verdict, plan_names = plans.drawn_from(facts)
        drawings[f"plan-{name}"] = drawn(plan_page(verdict, plan_names))
        drawings[f"plan-{name}-50"] = drawn(plan_page(verdict, plan_names), width=50)
        drawings[f"plan-{name}-more"] = drawn(plan_page(verdict, plan_names, more=True))
    return drawings


def refresh() -> None:
    """Write every snapshot as it is drawn now, and remove those of pages that are gone."""
    SNAPSHOTS.mkdir(exist_ok=True)
    drawings = pages()
    for old in SNAPSHOTS.glob("*.txt"):
        if old.stem not in drawings:
            old.unlink()
    for name, text in drawings.items():
        (SNAPSHOTS / f"{name}.txt").write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    refresh()
