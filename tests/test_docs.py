"""The documentation holds together: links resolve, words are explained, sums are right."""

from __future__ import annotations

import re
from itertools import product
from math import prod
from pathlib import Path

import pytest

from sootsayer.belief.inference import posteriors
from sootsayer.belief.network import Fault, Kind, Network, Observable, Seen

ROOT = Path(__file__).parents[1]
PAGES = sorted(
    [
        *ROOT.glob("*.md"),
        *ROOT.glob("docs/**/*.md"),
        ROOT / "rules/README.md",
        ROOT / "cases/README.md",
    ]
)
CALCULUS = (ROOT / "docs/explanation/calculus.md").read_text(encoding="utf-8")
WORDS = (
    "case entry round signal point fact quantity limit finding channel fault evidence family "
    "candidate check action interlock remedy pack rulebook verdict record "
    "proof override handbook coverage remark decision ledger "
    "archive backtest calibration rate"
)


def anchors(page: Path) -> set[str]:
    """The names that headings of a page can be linked by."""
    heads = re.findall(r"^#+ (.*)$", page.read_text(encoding="utf-8"), re.MULTILINE)
    return {re.sub(r"[^\w -]", "", head.lower()).replace(" ", "-") for head in heads}


def test_pages_are_there() -> None:
    """The tests below read real pages."""
    assert ROOT / "docs/README.md" in PAGES
    assert len(PAGES) >= 8


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(ROOT).as_posix())
def test_links_resolve(page: Path) -> None:
    """Every link inside the documentation leads somewhere, and to a heading where it names one."""
    broken = []
    for link in re.findall(r"\]\(([^)\s]+)\)", page.read_text(encoding="utf-8")):
        if re.match(r"[a-z]+:", link):
            continue
        name, _, anchor = link.partition("#")
        target = page.parent / name if name else page
        if not target.exists() or (anchor and anchor not in anchors(target)):
            broken.append(link)
    assert broken == []


def test_every_page_is_reached_from_the_index() -> None:
    """A page of docs/ that the index does not name would never be found."""
    index = (ROOT / "docs/README.md").read_text(encoding="utf-8")
    handbook = (ROOT / "docs/handbook/index.md").read_text(encoding="utf-8")  # names its own
    pages = {p.relative_to(ROOT / "docs").as_posix() for p in ROOT.glob("docs/**/*.md")}
    named = {page for page in pages if f"({page})" in index}
    named |= {page for page in pages if f"({page.removeprefix('handbook/')})" in handbook}
    assert pages - named - {"README.md"} == set()


def test_glossary_explains_every_word() -> None:
    """Each of the words stands in the glossary exactly once, in bold."""
    glossary = (ROOT / "docs/glossary.md").read_text(encoding="utf-8")
    bold = [word.lower() for word in re.findall(r"^\*\*(\w+)\.\*\*", glossary, re.MULTILINE)]
    assert [bold.count(word) for word in WORDS.split()] == [1] * len(WORDS.split())


# The worked example of docs/explanation/calculus.md, computed again from its first table.

FAULTS = ("leak", "soot", "ash")
PRIOR = {"leak": 0.08, "soot": 0.20, "ash": 0.03}
SEEN = {"soot": 0.85, "ash": 0.97}
OTHERWISE = 0.05
HIDDEN = 0.10
OWN = {fault: 1 - (1 - seen) / (1 - OTHERWISE) for fault, seen in SEEN.items()}
LABELS = {"soot": "soot overload", "ash": "filter full of ash", "leak": "front hose leaks"}


def rows(first_heading: str) -> list[list[str]]:
    """The cells of the table whose heading row begins so, without heading and rule."""
    table = CALCULUS[CALCULUS.index(f"| {first_heading} |") :].split("\n\n")[0]
    return [[cell.strip() for cell in row.split("|")[1:-1]] for row in table.splitlines()[2:]]


def before(present: dict[str, bool], prior: dict[str, float]) -> float:
    return prod(prior[f] if present[f] else 1 - prior[f] for f in FAULTS)


def high(present: dict[str, bool]) -> float:
    if present["leak"]:
        return HIDDEN
    return 1 - (1 - OTHERWISE) * prod(1 - OWN[f] for f in OWN if present[f])


def confidence(
    fault: str, lam: tuple[float, float], prior: dict[str, float] = PRIOR, given_leak: bool = False
) -> float:
    """Of `fault`, with likelihood `lam` of what was read if not high and if high."""
    part = whole = 0.0
    for states in product((False, True), repeat=3):
        present = dict(zip(FAULTS, states, strict=True))
        if given_leak and not present["leak"]:
            continue
        share = high(present)
        mass = before(present, prior) * (lam[0] * (1 - share) + lam[1] * share)
        whole += mass
        part += mass * present[fault]
    return part / whole


def odds(p: float) -> float:
    return p / (1 - p)


def test_calculus_first_table() -> None:
    """The example's own strengths follow from the numbers beside them."""
    shown = {row[0]: row[1:] for row in rows("fault | prior | seen with")}
    for fault, seen in SEEN.items():
        expected = [f"{PRIOR[fault]:.2f}", f"{seen:.2f}", f"{OWN[fault]:.6f}"]
        assert shown[LABELS[fault]] == expected
    assert shown[LABELS["leak"]][:2] == [f"{PRIOR['leak']:.2f}", f"hides: {HIDDEN:.2f}"]
    assert f"Otherwise: {OTHERWISE:.2f}." in CALCULUS


def test_calculus_candidates() -> None:
    """The eight candidates have the shares that the page gives them."""
    expected = []
    for states in product((False, True), repeat=3):
        present = dict(zip(FAULTS, states, strict=True))
        prior, share = before(present, PRIOR), high(present)
        numbers = (prior, share, prior * share, prior * (1 - share))
        expected.append(["yes" if s else "no" for s in states] + [f"{n:.6f}" for n in numbers])
    assert rows("leak") == expected


def test_calculus_confidences() -> None:
    """Confidences and weights of the example are the quotients of its columns."""
    expected = []
    for fault in ("soot", "ash", "leak"):
        row = [LABELS[fault], f"{PRIOR[fault]:.4f}"]
        for lam in ((0.0, 1.0), (1.0, 0.0)):
            after = confidence(fault, lam)
            ratio = odds(after) / odds(PRIOR[fault])
            side = "for" if ratio > 1 else "against"
            row += [f"{after:.4f}", f"{max(ratio, 1 / ratio):.1f} {side}"]
        expected.append(row)
    assert rows("fault | before") == expected


def test_calculus_hider() -> None:
    """Behind the lie soot keeps its prior weight, and without the hider a low reading says more."""
    assert confidence("soot", (1.0, 0.0), given_leak=True) == pytest.approx(PRIOR["soot"])
    trusted = confidence("soot", (1.0, 0.0), PRIOR | {"leak": 0.0})
    assert f"go down to {trusted:.4f}" in CALCULUS


def test_calculus_even_weights_say_nothing() -> None:
    """A reading that could as well be on either side leaves every confidence as it was."""
    for fault in FAULTS:
        assert confidence(fault, (0.5, 0.5)) == pytest.approx(PRIOR[fault])


@pytest.mark.parametrize("lam", [(0.0, 1.0), (1.0, 0.0), (0.5, 0.5)])
def test_calculus_is_the_programs(lam: tuple[float, float]) -> None:
    """The program computes the example as the hand does."""
    kinds = {"leak": Kind.MEASUREMENT, "soot": Kind.CONDITION, "ash": Kind.CONDITION}
    network = Network(
        faults=tuple(Fault(f, kinds[f], PRIOR[f]) for f in FAULTS),
        leads=(),
        observables=(
            Observable(
                id="reads-high",
                otherwise=(1 - OTHERWISE, OTHERWISE),
                seen=tuple(Seen(f, (1 - s, s)) for f, s in SEEN.items()),
                hidden_by=(Seen("leak", (1 - HIDDEN, HIDDEN)),),
            ),
        ),
    )
    found = posteriors(network, {"reads-high": lam})
    assert found == pytest.approx({f: confidence(f, lam) for f in FAULTS}, abs=1e-12)
