"""The tests of a condition as sentences: what was seen, against what the rule asks for."""

from __future__ import annotations

from sootsayer.catalogue import Said, listed, say
from sootsayer.catalogue_numbers import number
from sootsayer.console import why_texts as t
from sootsayer.console.names import Names
from sootsayer.console.paper import Line
from sootsayer.console.words import value_said
from sootsayer.engine.conditions import Truth
from sootsayer.judgement.why_answer import WhyJoint, WhyOperand, WhyStep, WhyTest

# Beyond this depth the page no longer moves to the right.
_DEEPEST = 8


def step_lines(steps: tuple[WhyStep, ...], indent: int, names: Names, of: str = "") -> list[Line]:
    """One line a test or joint, what it came to in front, deeper parts further right;
    `of`: the finding whose rule it is."""
    return [
        Line(
            _said(step, names, of),
            indent=indent + 2 * min(step.depth, _DEEPEST),
            mark=_mark(step.outcome),
        )
        for step in steps
    ]


def _mark(outcome: Truth) -> str:
    if outcome is None:
        return say(t.MARK_OPEN)
    return say(t.MARK_TRUE) if outcome else say(t.MARK_FALSE)


def _said(step: WhyStep, names: Names, of: str) -> Said:
    if isinstance(step, WhyJoint):
        if step.op in t.JOINT:
            return say(t.JOINT[step.op])
        return say(t.JOINT_AT_LEAST, count=step.count)
    return _test(step, names, of)


def _test(step: WhyTest, names: Names, of: str) -> Said:
    numbers = [operand_said(operand, step.unit) for operand in step.against]
    slots: dict[str, object] = {
        "label": step.label or step.slot,
        "seen": seen_said(step, names),
        "words": _words(step, names, of),
        "cuts": listed(numbers),
        "op": step.op,
    }
    slots.update(zip("ab", numbers, strict=False))
    template = t.TEST.get(step.op, t.TEST_OTHER)
    # A comparison without its numbers would leave a hole in the sentence.
    wanted = {"between": 2, "outside": 2}.get(step.op, 1 if "{a}" in template else 0)
    return say(template if len(numbers) >= wanted else t.TEST_OTHER, **slots)


def seen_said(step: WhyTest, names: Names) -> Said:
    """The value that the test saw, or why there is none."""
    if step.seen is None and step.missing is not None:
        return say(t.MISSING_SHORT[step.missing.value])
    return names.value(step.slot, step.seen, step.unit)


def operand_said(operand: WhyOperand, unit: str | None) -> Said:
    """A number with its unit, and the limit or the slots that it came from."""
    names = ", ".join((*operand.limits, *operand.slots))
    if operand.value is None:
        return say(t.OPERAND_OPEN, names=names)
    amount = value_said(operand.value, unit) if unit else number(operand.value)
    if operand.slots:
        return say(t.OPERAND_SLOT, number=amount, names=names)
    return say(t.OPERAND_LIMIT, number=amount, names=names) if operand.limits else amount


def _words(step: WhyTest, names: Names, of: str) -> Said:
    """The words that a slot was held against; the levels are those of the finding graded."""
    graded = step.op == "graded"
    said = [names.level(of if graded else step.slot, word) for word in step.words]
    return Said((", " if graded else say(t.WORD_OR)).join(said))
