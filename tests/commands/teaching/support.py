"""Lessons on the small rulebook of our own, from answers."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.commands.main import main
from tests.rulebook.review.small import small

# One answer a line: a new look, hands on, that shows one fault.
NEW_LOOK = """\
There is soot at the clamp
new
1
Soot at the clamp of the front hose
Look at the clamp with a lamp
3
4
Let the exhaust cool first; gloves
yes
leak
usually
none
rarely
3
shop-soot-at-clamp
yes
"""
# A number from a reading that the rules know, with two cases.
NUMBER = """\
The pressure behind is high
pressure behind
1
above 12
blocked
7 of 9
none
1 of 20
1
c1, c2
shop-aft-high
yes
"""


def set_up(folder: Path, monkeypatch: pytest.MonkeyPatch, shop: bool = True) -> Path:
    """The small rulebook in the place of the shipped one, and a shop with three closed cases."""
    rules, none, own = folder / "rules", folder / "none", folder / "own"
    rules.mkdir()
    none.mkdir()
    (rules / "small.yaml").write_text(small(), encoding="utf-8")
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)
    monkeypatch.chdir(folder)
    for module in ("commands.opened", "commands.teaching.lesson", "commands.rules_check"):
        if module != "commands.rules_check":
            monkeypatch.setattr(f"sootsayer.{module}.shipped_rules", lambda: rules)
    monkeypatch.setattr("sootsayer.commands.rules_cases.shipped_cases", lambda: none)
    if shop:
        (own / "cases").mkdir(parents=True)
        (own / "shop.yaml").write_text("format: 1\n", encoding="utf-8")
        for number, (aft, fault) in enumerate([(13, "blocked"), (12, "leak"), (90, "blocked")], 1):
            case(own, f"c{number}", f"{{aft: {aft}}}", fault)
    return own


def case(own: Path, name: str, facts: str, fault: str) -> None:
    """A closed case of the shop."""
    text = (
        f"case: {name}\nformat: 1\nvehicle: {{label: van}}\nentries:\n"
        f"- {{at: 2031-03-14T09:02+01:00, by: t, round: arrival, source: scan, facts: {facts}}}\n"
        f"- {{at: 2031-03-16T09:02+01:00, by: t, outcome: {{faults: [{fault}]}}}}\n"
    )
    (own / "cases" / f"{name}.yaml").write_text(text, encoding="utf-8")


def taught(folder: Path, answers: str, *options: str) -> int:
    """The exit code of a lesson with these answers."""
    (folder / "answers.txt").write_text(answers, encoding="utf-8")
    return main(["rules", "new", "--answers", "answers.txt", *options])
