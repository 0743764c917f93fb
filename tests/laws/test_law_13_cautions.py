"""Law 13, on the screen: wherever an action or a check is shown its caution is shown, whole.

That no text promises safety is read in the files, by test_words.py.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.commands.main import main
from sootsayer.judgement.judge import tell
from sootsayer.judgement.verdict import Verdict
from sootsayer.judgement.workings import Workings
from sootsayer.rulebook.compiled import Rulebook
from tests.laws.demonstrations import NAMES
from tests.laws.making_cases import rulebook
from tests.laws.test_words import promises
from tests.laws.told_with_care import HEAD, astray, doings, dropped, plain, shown, steps, works

# Under an interlock, why lists the actions that need it by their names: nobody is told to do them.
NEEDED_BY = "  Actions that need it:"


def shared(_folders: list[Path]) -> Rulebook:
    return rulebook()


VERDICTS: dict[tuple[str, int | None], Verdict] = {}


def told_once(work: Workings, **_: bool) -> Verdict:
    """Every screen and sheet of one verdict is drawn from one judging, the plan with it."""
    key = work.case.id, work.sheet.as_of
    if key not in VERDICTS:
        VERDICTS[key] = tell(work, planning=True)
    return VERDICTS[key]


@pytest.fixture(autouse=True)
def _read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sootsayer.commands.opened.load_rulebook", shared)
    monkeypatch.setattr("sootsayer.judgement.judge.tell", told_once)


def screen(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    """What a command prints; comparing answers no, or that there is nothing to compare."""
    code = main(list(arguments))
    out, err = capsys.readouterr()
    assert code == 0 or (arguments[0] == "compare" and code in (1, 2)), err
    return out + err


def test_doings_can_be_told_apart() -> None:
    """The beginning of what is to be done names one check or action alone."""
    heads = [each.does[:HEAD] for each in doings()]
    assert len(doings()) > 5
    assert len(set(heads)) == len(heads)


@pytest.mark.parametrize("name", NAMES)
def test_a_verdict_drops_no_caution(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    """On the verdict of every demonstration case each caution stands by what it is of.

    That of driving on stands above everything else that a verdict says.
    """
    first = plain(rulebook().model.actions["drive-on"].caution)
    for more in ([], ["--more"]):
        out = screen(capsys, "judge", name, *more)
        assert dropped(out) == []
        assert promises(out) == []
        assert first in plain(out).partition("what we know")[0]
    assert shown(out)


PAGES: tuple[tuple[str, list[str]], ...] = (
    ("plan", []),
    ("plan", ["--more"]),
    ("compare", []),
    ("report", ["--text", "--customer"]),
    ("report", ["--text", "--file"]),
)


@pytest.mark.parametrize("name", NAMES)
def test_plan_comparison_and_report_drop_no_caution(
    name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """On the plan, the comparison and both sheets of every demonstration case each caution of a
    check, of work and of a step stands right behind it, and nothing promises anything."""
    driving = plain(rulebook().model.actions["drive-on"].caution)
    for command, options in PAGES:
        out = screen(capsys, command, name, *options)
        assert dropped(out) == [], (command, options)
        assert astray(out) == [], (command, options)
        assert promises(out) == [], (command, options)
        if command != "compare":
            assert driving in plain(out), (command, options)


def things() -> list[str]:
    """Every check and action with a caution, and every interlock that they wait for."""
    model = rulebook().model
    asked = [name for name, lock in model.interlocks.items() if lock.ask]
    return sorted({each.id for each in doings()} | set(asked))


def test_why_drops_no_caution(capsys: pytest.CaptureFixture[str]) -> None:
    """Why, asked about each of them on a case not begun, shows each caution too."""
    seen: set[str] = set()
    for thing in things():
        out = screen(capsys, "why", NAMES[0], thing, "--as-of", "0")
        out = out.partition(NEEDED_BY)[0]
        assert dropped(out) == [], thing
        assert promises(out) == [], thing
        seen |= {each.id for each in shown(out)}
    assert {each.id for each in doings()} <= seen


def test_work_is_told_somewhere(capsys: pytest.CaptureFixture[str]) -> None:
    """The pages that the law reads tell of work and of steps that have cautions."""
    out = plain(screen(capsys, "plan", "broken-core"))
    assert [each.id for each in works() if each.does in out] != []
    assert [each.id for each in steps() if each.does in out] != []


def test_why_of_work_drops_no_caution(capsys: pytest.CaptureFixture[str]) -> None:
    """Why, asked about each remedy, shows the cautions of all that it speaks of."""
    for name in rulebook().model.remedies:
        out = screen(capsys, "why", "blocked-by-short-trips", name)
        assert dropped(out) == [], name
        assert promises(out) == [], name


def test_an_action_that_is_only_named_says_where_its_caution_stands(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Under an interlock, why names the actions that need it, each with the way to its caution."""
    out = screen(capsys, "why", "blocked-by-short-trips", "oil-not-above-max")
    named = " ".join(out.partition(NEEDED_BY)[2].split())
    needing = [a.id for a in rulebook().model.actions.values() if "oil-not-above-max" in a.needs]
    assert len(needing) > 2
    for action in needing:
        assert f"its caution: sootsayer why blocked-by-short-trips {action}" in named


def test_a_caution_astray_is_found() -> None:
    """One that stands before its work, or far behind it, or is cut, is found."""
    work = next(x for x in rulebook().model.remedies.values() if x.caution and not x.by_actions)
    assert astray(f"{work.does}.\nCaution: {work.caution}") == []
    assert work.id in astray(f"Caution: {work.caution}\n{work.does}.")
    assert work.id in astray(f"{work.does}. {'and so on ' * 400} Caution: {work.caution}")
    assert work.id in astray(f"{work.does}.\nCaution: {work.caution[:-6]}")


def test_a_dropped_caution_is_found() -> None:
    """The law itself hears a caution that is cut, and one that is missing."""
    model = rulebook().model
    check = next(x for x in model.checks.values() if len(x.caution) > 20)
    whole = f"- {check.does}\n    Caution: {check.caution}"
    assert dropped(whole) == []
    assert dropped(whole[:-8] + "…") == [check.id]
    assert dropped(check.does) == [check.id]
