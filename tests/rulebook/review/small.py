"""A small rulebook of our own to review, and what is said of it with one part changed."""

from __future__ import annotations

from pathlib import Path

from sootsayer.rulebook.compiled import read_rulebook
from sootsayer.rulebook.review.all_reviews import review
from sootsayer.rulebook.review.remark import Gathered

SMALL = """\
pack: small
format: 1
title: A small rulebook
basis: {kind: common practice}
signals:
  dp: {label: Pressure, kind: number, unit: mbar, possible: [0, 100], step: 1}
  air: {label: Air, kind: number, unit: kg/h, possible: [0, 500], step: 1}
  aft: {label: Pressure behind, kind: number, unit: mbar, possible: [0, 500], step: 1}
  noise: {label: Noise, kind: choice, choices: [none, hiss, bang]}
  oil: {label: Oil smells, kind: yes-no}
checks:
  read: {does: Read both, where: scan, minutes: 2, gives: [dp, air, aft]}
  listen: {does: Listen and smell, where: counter, minutes: 1, gives: [noise, oil]}
limits:
  dp-max: {label: Most pressure, default: 40 mbar}
findings:
  high: {says: Pressure is high, when: {dp: {above: dp-max}}, proofs: [{given: {dp: 41}, then: true}, {given: {dp: 40}, then: false}, {given: {}, then: unknown}]}
  noisy: {says: It is noisy, when: {noise: {one of: [hiss, bang]}}, proofs: [{given: {noise: hiss}, then: true}, {given: {noise: none}, then: false}, {given: {}, then: unknown}]}
  load: {says: Load, grade: {of: air, levels: [little, much], at: [100]}, proofs: [{given: {air: 99}, then: little}, {given: {air: 100}, then: much}, {given: {}, then: unknown}]}
EXTRA
faults:
  blocked: {label: Blocked, kind: condition, prior: 0.1}
  leak: {label: Leaks, kind: condition, prior: 0.1}
evidence:
  - {finding: high, seen with: {blocked: often}, otherwise: rarely}
  - {finding: noisy, seen with: {leak: often}, otherwise: rarely}
actions:
  drive-on: {does: Drive, hurts if wrong: [engine], needs: [oil-good], caution: Gently, states: [{state: not-to-be-started, blocked by: [oil-good]}]}
interlocks:
  oil-good: {says: Oil is good, when not: Oil smells, holds when: {oil: no}}
"""  # noqa: E501
PROOFS = (
    "proofs: [{{given: {{}}, then: unknown}}, {{given: {false}, then: false}}, "
    "{{given: {true}, then: true}}]"
)


def small(extra: str = "", **changes: str) -> str:
    """The pack; `extra` is one more finding, and each change replaces a text by another."""
    text = SMALL.replace("EXTRA\n", f"{extra}\n" if extra else "")
    for old, new in changes.items():
        key = old.replace("_", "-")
        lines = [line for line in text.splitlines() if line.strip().startswith(f"{key}:")]
        assert len(lines) == 1, (old, lines)
        text = text.replace(lines[0], new)
    return text


def rule(name: str, when: str, true: str = "{dp: 99}", false: str = "{dp: 1, noise: none}") -> str:
    """One more finding, with a proof of each outcome."""
    return f"  {name}: {{says: One more, when: {when}, {PROOFS.format(true=true, false=false)}}}"


def reviewed(folder: Path, text: str, limits: dict[str, float] | None = None) -> Gathered:
    """The review of a rulebook that is this pack."""
    (folder / "small.yaml").write_text(text, encoding="utf-8")
    reading = read_rulebook([folder])
    assert [each.what for each in reading.problems] == []
    return review(reading, limits or {})


def said(found: Gathered) -> list[str]:
    """What is remarked, with its weight."""
    return [f"{each.weight.value}: {each.problem.what}" for each in found.remarks]
