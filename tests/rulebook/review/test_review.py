"""What the review of a rulebook finds, each in a small rulebook with one thing wrong."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.rulebook.compiled import read_rulebook, rulebook_of
from sootsayer.rulebook.review.all_reviews import review
from sootsayer.rulebook.review.remark import Concern, Decided
from tests.rulebook.review.small import reviewed, rule, said, small


def test_nothing_is_wrong_with_the_small_rulebook(tmp_path: Path) -> None:
    """The rulebook that the others are made from gets no remark, and everything is proven."""
    found = reviewed(tmp_path, small())
    assert said(found) == []
    assert {each.decided for each in found.decisions} == {Decided.PROVEN}


def test_cases_shown_are_replayed(tmp_path: Path) -> None:
    """Each case that shows that a rule can be true, false or at a level does so in the engine."""
    found = reviewed(tmp_path, small(rule("both", "{dp: {above: {of: aft, times: 0.1}}, oil: no}")))
    rulebook = rulebook_of(read_rulebook([tmp_path]).model)
    limits = {each.id: each.default for each in rulebook.model.limits.values()}
    shown = 0
    for each in found.decisions:
        if each.claim.startswith("can be ") and each.thing in rulebook.model.findings:
            value = rulebook.program.run(each.case, limits)[each.thing]
            assert str(value).lower() == each.claim.removeprefix("can be ")
            shown += 1
    assert shown == 8


@pytest.mark.parametrize(
    ("when", "expected"),
    [
        ("{dp: {above: 100}}", 'error: "odd" can never be true, whatever is read'),
        ("{dp: {above: 5 bar}}", 'error: "odd" can never be true, whatever is read'),
        ("{dp: {above: dp-max, below: 39}}", 'error: "odd" can never be true, whatever is read'),
        ("{high: true, dp: {below: 30}}", 'error: "odd" can never be true, whatever is read'),
        ("{load: little, air: {above: 200}}", 'error: "odd" can never be true, whatever is read'),
        (
            "{dp: {above: {of: aft, plus: 60}}, aft: {at least: 40}}",
            'error: "odd" can never be true, whatever is read',
        ),
        (
            "{dp: {at least: 0}}",
            'warning: "odd" can never be false: it is true of whatever is read',
        ),
        (
            "{noise: {one of: [none, hiss, bang]}}",
            'warning: "odd" can never be false: it is true of whatever is read',
        ),
    ],
)
def test_conditions_that_cannot_be(tmp_path: Path, when: str, expected: str) -> None:
    """A condition that no possible reading meets is proven so; likewise one that all meet."""
    assert said(reviewed(tmp_path, small(rule("odd", when)))) == [expected]


def test_a_rule_that_can_never_decide(tmp_path: Path) -> None:
    """What applies never decides nothing: no facts make it true, none make it false."""
    odd = rule("odd", "{noise: bang}").replace("when:", "applies when: {dp: {above: 200}}, when:")
    found = reviewed(tmp_path, small(odd))
    assert said(found)[0] == (
        'error: "odd" can never be decided: no facts make it true, none make it false'
    )


def test_the_place_is_that_of_the_condition(tmp_path: Path) -> None:
    """A remark stands at `when`, not at the head of the rule."""
    odd = rule("odd", "{dp: {above: 100}}")
    found = reviewed(tmp_path, small(odd))
    problem = found.remarks[0].problem
    assert problem.line == odd
    assert odd[problem.place.column - 1 :].startswith("when:")


def test_levels(tmp_path: Path) -> None:
    """A level beyond the possible range is proven never to be reached."""
    graded = (
        "  load: {says: Load, grade: {of: air, levels: [little, much, more], at: [100, 600]}, "
        "proofs: [{given: {air: 99}, then: little}, {given: {air: 100}, then: much}, "
        "{given: {air: 600}, then: more}, {given: {}, then: unknown}]}"
    )
    found = reviewed(tmp_path, small(load=graded))
    assert said(found) == ['error: no possible value of "air" gives "load" the level "more"']


def test_levels_overlap_with_a_shops_number(tmp_path: Path) -> None:
    """Cuts that rise by the pack's numbers and not by the shop's are said to overlap."""
    graded = (
        "  load: {says: Load, grade: {of: dp, levels: [little, much, more], at: [dp-max, 60]}, "
        "proofs: [{given: {dp: 1}, then: little}, {given: {dp: 50}, then: much}, "
        "{given: {dp: 60}, then: more}, {given: {}, then: unknown}], apart because: a test}"
    )
    assert said(reviewed(tmp_path, small(load=graded))) == []
    found = reviewed(tmp_path, small(load=graded), {"dp-max": 70.0})
    assert said(found) == [
        'error: the levels of "load" overlap: with the numbers in force its cuts are 70 and then 60'
    ]


def test_no_check_yields_it(tmp_path: Path) -> None:
    """A finding on what nothing gives is a warning that names what is missing."""
    read = "  read: {does: Read both, where: scan, minutes: 2, gives: [dp]}"
    found = reviewed(tmp_path, small(read=read))
    assert said(found) == ['warning: no check yields "load": nothing gives air']


def test_one_way_to_decide_is_enough(tmp_path: Path) -> None:
    """A finding that one reading of two can decide is yielded by the check of that one."""
    read = "  read: {does: Read both, where: scan, minutes: 2, gives: [dp]}"
    either = rule("either", "{any: [{dp: {above: 90}}, {air: {above: 400}}]}")
    found = reviewed(tmp_path, small(either, read=read))
    assert said(found) == ['warning: no check yields "load": nothing gives air']


def test_interlock_that_nothing_clears(tmp_path: Path) -> None:
    """An interlock on what cannot be, or on what no check gives, is an error."""
    lock = "  oil-good: {says: a, when not: b, holds when: {dp: {above: 300}}}"
    assert said(reviewed(tmp_path, small(oil_good=lock))) == [
        'error: nothing can clear "oil-good": no facts make its condition true'
    ]
    listen = "  listen: {does: Listen, where: counter, minutes: 1, gives: [noise]}"
    assert said(reviewed(tmp_path, small(listen=listen))) == [
        'error: nothing can clear "oil-good": no check gives oil'
    ]


@pytest.mark.parametrize(
    ("when", "word"),
    [
        ("{dp: {above: 40 mbar}}", "the same as"),
        ("{not: {dp: {at most: 4 kPa}}}", "the same as"),
        ("{dp: {at most: dp-max}}", "the opposite of"),
    ],
)
def test_the_same_rule_twice(tmp_path: Path, when: str, word: str) -> None:
    """Two rules that are true of the same cases are proven to be one, however they are written."""
    found = reviewed(tmp_path, small(rule("twin", when)))
    assert [each.split(" (")[0] for each in said(found)] == [f'warning: "twin" says {word} "high"']


def test_a_rule_on_the_same_fact_differs(tmp_path: Path) -> None:
    """Rules that differ by one mbar are told apart by a case."""
    found = reviewed(tmp_path, small(rule("near", "{dp: {above: 41}}")))
    assert said(found) == []
    shown = [each.case for each in found.decisions if each.concern is Concern.DIFFERS]
    assert {"dp": 41.0} in shown


def test_a_link_that_says_nothing(tmp_path: Path) -> None:
    """A finding as frequent with a fault as otherwise links nothing."""
    text = small().replace("seen with: {leak: often}", "seen with: {leak: rarely}")
    found = reviewed(tmp_path, text)
    assert 'warning: "noisy" is seen as often with "leak" as otherwise' in said(found)[0]


def test_faults_that_nothing_tells_apart(tmp_path: Path) -> None:
    """Two faults that show the same are a warning; two that hardly differ name the check."""
    alike = small().replace("seen with: {leak: often}", "seen with: {leak: often, blocked: often}")
    alike = alike.replace("seen with: {blocked: often}", "seen with: {blocked: often, leak: often}")
    (remark,) = reviewed(tmp_path, alike).remarks
    assert remark.problem.what.startswith('nothing tells "blocked" from "leak"')
    nearly = alike.replace("{blocked: often, leak: often}", "{blocked: often, leak: 0.55}")
    (remark,) = reviewed(tmp_path, nearly).remarks
    assert 'best does the check "read", by "high", with 5%' in remark.problem.what


def test_retired_without_successor(tmp_path: Path) -> None:
    """A retired id that nothing follows is a note."""
    found = reviewed(tmp_path, small() + "retired:\n  old: {why: Nobody measured it}\n")
    assert said(found) == ['note: "old" is retired and nothing follows it']


def test_of_a_broken_pack_only_what_is_whole(tmp_path: Path) -> None:
    """Beside what forbids to load it, only rules that rest on nothing missing are spoken of."""
    odd = rule("odd", "{dp: {above: 100}}") + "\n" + rule("lost", "{nowhere: {above: 1}}")
    (tmp_path / "small.yaml").write_text(small(odd), encoding="utf-8")
    reading = read_rulebook([tmp_path])
    assert [each.what for each in reading.problems] == ['there is no signal or finding "nowhere"']
    assert said(review(reading, {})) == ['error: "odd" can never be true, whatever is read']


def test_the_same_rule_twice_with_a_reason(tmp_path: Path) -> None:
    """Two rules that are one, with a reason to keep them apart, get no remark and no blame."""
    twin = rule("twin", "{dp: {above: 40}}").replace("when:", "apart because: a test, when:")
    found = reviewed(tmp_path, small(twin))
    assert said(found) == []
    assert {each.decided for each in found.decisions} == {Decided.PROVEN}
