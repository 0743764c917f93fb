"""The check of the rules as JUnit XML: a suite for each concern, a test for each thing."""

from __future__ import annotations

from dataclasses import dataclass, field
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from sootsayer.documents.escaping import visible
from sootsayer.judgement.checked import Checked
from sootsayer.rulebook.review.remark import Concern, Decided, Remark, Weight

HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'


@dataclass(slots=True)
class _Test:
    """What was said of one thing."""

    errors: list[Remark] = field(default_factory=list)
    rest: list[Remark] = field(default_factory=list)
    undecided: bool = False


def junit(checked: Checked) -> str:
    """The file's text. An error is a failure, what is not decided is skipped; warnings and notes
    are the output of the test."""
    root = Element("testsuites", name="sootsayer rules check")
    total = failed = 0
    for concern, tests in _by_concern(checked).items():
        suite = SubElement(root, "testsuite", name=concern.value)
        for thing in sorted(tests):
            _write(suite, concern, thing, tests[thing])
        failures = sum(bool(each.errors) for each in tests.values())
        skipped = sum(each.undecided and not each.errors for each in tests.values())
        counts = {"tests": len(tests), "failures": failures, "errors": 0, "skipped": skipped}
        suite.attrib.update({key: str(count) for key, count in counts.items()})
        total, failed = total + len(tests), failed + failures
    root.attrib.update({"tests": str(total), "failures": str(failed)})
    indent(root)
    return HEAD + tostring(root, encoding="unicode") + "\n"


def _by_concern(checked: Checked) -> dict[Concern, dict[str, _Test]]:
    found: dict[Concern, dict[str, _Test]] = {concern: {} for concern in Concern}
    for file in checked.files:
        found[Concern.READING][file] = _Test()
    for decision in checked.decisions:
        test = found[decision.concern].setdefault(decision.thing, _Test())
        test.undecided |= decision.decided is Decided.NOT_DECIDED
    for remark in checked.remarks:
        test = found[remark.concern].setdefault(remark.thing, _Test())
        (test.errors if remark.weight is Weight.ERROR else test.rest).append(remark)
    return found


def _write(suite: Element, concern: Concern, thing: str, test: _Test) -> None:
    element = SubElement(suite, "testcase", classname=concern.value, name=visible(thing))
    if test.errors:
        message = visible(test.errors[0].problem.what)
        SubElement(element, "failure", message=message).text = _text(test.errors)
    elif test.undecided:
        SubElement(element, "skipped", message=Decided.NOT_DECIDED.value)
    if test.rest:
        SubElement(element, "system-out").text = _text(test.rest)


def _text(remarks: list[Remark]) -> str:
    return "\n".join(
        visible(f"{each.problem.place}: {each.problem.what} -> {each.problem.instead}")
        for each in remarks
    )
