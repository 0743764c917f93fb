"""A rulebook too wide to be reckoned exactly is refused, and what ties the knot is named."""

from __future__ import annotations

from pathlib import Path

from tests.rulebook.bad_packs import problems_of

HEAD = """\
pack: wide
format: 1
title: Every fault shows in every finding
basis: {kind: common practice}
"""
FINDING = """\
  pressed-{n}:
    says: Pressed
    when: {{worn-{n}-felt: yes}}
    proofs:
    - {{given: {{worn-{n}-felt: yes}}, then: true}}
    - {{given: {{worn-{n}-felt: no}}, then: false}}
    - {{given: {{}}, then: unknown}}
"""


def wide_pack(size: int) -> str:
    """So many faults, each seen in each of as many findings."""
    numbers = range(10, 10 + size)
    signals = [f"  worn-{n}-felt: {{label: Felt, kind: yes-no, lasts: visit}}\n" for n in numbers]
    felt = ", ".join(f"worn-{n}-felt" for n in numbers)
    feel = f"{{does: Feel, where: hands-on, minutes: 1, gives: [{felt}]}}"
    faults = [f"  worn-{n}: {{label: Worn, kind: condition, prior: 0.1}}\n" for n in numbers]
    seen = ", ".join(f"worn-{n}: often" for n in numbers)
    links = [
        f"- finding: pressed-{n}\n  otherwise: 0.2\n  seen with: {{{seen}}}\n" for n in numbers
    ]
    return "".join(
        [
            HEAD,
            "signals:\n",
            *signals,
            f"checks:\n  feel: {feel}\n",
            "findings:\n",
            *(FINDING.format(n=n) for n in numbers),
            "faults:\n",
            *faults,
            "evidence:\n",
            *links,
        ]
    )


def test_a_knot_too_wide_is_refused_by_name(tmp_path: Path) -> None:
    """Where every fault shows in every finding no order helps: the knot is named."""
    (problem,) = problems_of(tmp_path, {"wide": wide_pack(28)}, beside=False)
    assert "are tied into one knot, and 24 is the most" in problem.what
    assert "pressed-10" in problem.what
    assert problem.instead.startswith("take links away")


def test_one_finding_of_many_faults_is_no_knot(tmp_path: Path) -> None:
    """One finding seen with ever so many faults is asked of a few at a time."""
    text = wide_pack(24)
    first, rest = text.index("- finding: pressed-10"), text.index("- finding: pressed-11")
    assert not problems_of(tmp_path, {"wide": text[:rest]}, beside=False), first
