"""The check of the rules as a page: what is wrong first, then what was looked into."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from sootsayer.catalogue import Said, say, say_count, shown
from sootsayer.catalogue_numbers import number
from sootsayer.console import rules_check_texts as t
from sootsayer.console.paper import BLANK, HEADING, STRONG, Line
from sootsayer.console.rule_sentences import sentence
from sootsayer.console.vocabulary import TRUTH, id_said
from sootsayer.console.words import value_said
from sootsayer.documents.mended import mended
from sootsayer.documents.report_problems import problem_lines
from sootsayer.engine.conditions import Value
from sootsayer.judgement.checked import Checked, Counted
from sootsayer.judgement.coverage import Shown
from sootsayer.rulebook.review.remark import Concern, Decided, Remark, Weight

MOST = 60  # remarks on the screen; the rest is in --json


def remark_lines(remarks: Sequence[Remark]) -> list[str]:
    """Each remark with its place, its line, the mended line and what to do."""
    lines: list[str] = []
    for remark in remarks[:MOST]:
        lines += _remark(remark)
    left = len(remarks) - MOST
    if left > 0:
        one, many = t.MORE
        lines.append(say_count(one, many, count=left))
    return lines


def _remark(remark: Remark) -> Iterator[str]:
    problem = remark.problem
    yield say(
        t.REMARK, place=problem.place, weight=say(t.WEIGHT[remark.weight.value]), what=problem.what
    )
    quoted = [line for line in problem_lines([problem])[1:] if not line.startswith("  →")]
    yield from quoted
    right = mended(problem)
    if right is not None:
        yield say(t.MENDED, line=right.strip())
    if remark.case:
        yield say(t.CASE, case=case_said(remark.case))
    yield say(t.INSTEAD, instead=problem.instead)


def case_said(case: dict[str, Value]) -> Said:
    """A case in one line: `dp@rest 6, power-loss sudden`."""
    parts = [say(t.CASE_PART, slot=slot, value=value_said(value)) for slot, value in case.items()]
    return Said(", ".join(parts))


def summary_lines(checked: Checked) -> list[Line]:
    """What was looked into and how it came out."""
    lines = [
        Line(_header(checked.counted)),
        BLANK,
        Line(say(t.LOOKED_INTO), style=HEADING),
    ]  # fmt: skip
    for concern in Concern:
        lines.append(
            Line(say(t.CONCERN[concern.value]), indent=2, right=_came_out(checked, concern))
        )
    return lines


def _header(counted: Counted) -> Said:
    return say(
        t.HEADER,
        packs=say_count(*t.PACKS, count=counted.packs),
        findings=say_count(*t.FINDINGS, count=counted.findings),
        faults=say_count(*t.FAULTS, count=counted.faults),
        links=say_count(*t.LINKS, count=counted.links),
        proofs=say_count(*t.PROOFS, count=counted.proofs),
    )


def _came_out(checked: Checked, concern: Concern) -> Said:
    decided = Counter(each.decided for each in checked.decisions if each.concern is concern)
    remarks = sum(each.concern is concern for each in checked.remarks)
    if decided:
        slots = {
            "proven": decided[Decided.PROVEN], "wrong": decided[Decided.DISPROVEN],
            "open": decided[Decided.NOT_DECIDED],
        }  # fmt: skip
        if slots["wrong"] and slots["open"]:
            return say(t.ALL_THREE, **slots)
        if slots["wrong"]:
            return say(t.NOT_ALL, **slots)
        return say(t.NOT_DECIDED if slots["open"] else t.PROVEN, **slots)
    if remarks:
        one, many = t.REMARKED
        return say_count(one, many, count=remarks)
    looked = checked.whole or concern in (Concern.READING, Concern.WORDS)
    return say(t.NOTHING_WRONG) if looked else Said("-")


def coverage_lines(shown_: Sequence[Shown], *, cases: bool, whole: bool) -> list[Line]:
    """How much is shown, as numbers; with `whole` the list of what is not."""
    if not shown_:
        return []
    met = [each for each in shown_ if each.proofs or each.cases]
    rules = [each for each in shown_ if each.part is None]
    by = say(t.BY_BOTH if cases else t.BY_PROOFS)
    share = say("{number} %", number=number(100 * len(met) / len(shown_) // 1))
    inner = [each for each in met if each.part is not None]
    lines = [
        Line(say(t.COVERAGE), style=HEADING),
        Line(say(t.SHOWN, shown=len(met), all=len(shown_), by=by, share=share), indent=2),
        Line(
            say(
                t.SHOWN_RULES, shown=len(met) - len(inner), all=len(rules), inner=len(inner),
                tests=len(shown_) - len(rules),
            ),
            indent=2,
        ),
    ]  # fmt: skip
    if whole:
        lines += [BLANK, Line(say(t.MISSING), style=HEADING), *_missing(shown_)]
    return lines


def _missing(shown_: Sequence[Shown]) -> list[Line]:
    lacking: dict[tuple[str, str], list[str]] = {}
    for each in shown_:
        if not each.proofs and not each.cases:
            test = "" if each.part is None else sentence(each.part)
            lacking.setdefault((each.slot, test), []).append(each.outcome)
    lines = []
    for (slot, test), outcomes in lacking.items():
        told = [id_said(TRUTH, each) for each in outcomes]
        outcome = say(t.NOT_SHOWN, outcomes=Said(", ".join(told)))
        template = t.LACKS_TEST if test else t.LACKS
        text = say(template, slot=slot, test=shown(test), outcome=outcome)
        lines.append(Line(text, indent=2))
    return lines or [Line(say(t.SHOWN_ALL), indent=2)]


def verdict_lines(checked: Checked) -> list[Line]:
    """The last line: how many of each, and what it means."""
    weights = Counter(each.weight for each in checked.remarks)
    if not checked.remarks:
        return [BLANK, Line(say(t.NOTHING), style=STRONG)]
    said = {
        key: say_count(*words, count=weights[weight])
        for key, words, weight in (
            ("errors", t.ERRORS, Weight.ERROR),
            ("warnings", t.WARNINGS, Weight.WARNING),
            ("notes", t.NOTES, Weight.NOTE),
        )
    }
    lines = [BLANK, Line(say(t.COUNTED, **said), style=STRONG)]
    if checked.rulebook is None:
        lines.append(Line(say(t.REFUSED)))
    return lines
