"""Law 13, on the screen: wherever an action or a check is shown its caution is shown, whole.

That no text promises safety is read in the files, by test_words.py.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

import pytest

from sootsayer.casework.model import Case
from sootsayer.commands.main import main
from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict import Verdict
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.shop import Shop
from tests.laws.demonstrations import NAMES
from tests.laws.making_cases import rulebook
from tests.laws.test_words import promises

# Under an interlock, why lists the actions that need it by their names: nobody is told to do them.
NEEDED_BY = "  Actions that need it:"
HEAD = 28  # so many signs of what is to be done tell it from everything else


@dataclass(frozen=True, slots=True)
class Doing:
    """Something a person does: a check or an action, and its caution."""

    id: str
    does: str
    caution: str


def plain(text: str) -> str:
    """A text without line ends, spaces and marks that the screen may put between its words."""
    return re.sub(r"[^a-z0-9]+", " ", text.lower()).strip()


def doings() -> list[Doing]:
    """Every check and action of the packs that has a caution."""
    model = rulebook().model
    checks = [(x.id, x.does, x.caution) for x in model.checks.values()]
    actions = [(x.id, x.does, x.caution) for x in model.actions.values()]
    found = [*checks, *actions]
    return [Doing(i, plain(does), plain(caution)) for i, does, caution in found if caution]


def shown(screen: str) -> list[Doing]:
    """What the screen tells somebody to do, or speaks of doing, of what has a caution."""
    text = f" {plain(screen)} "
    return [each for each in doings() if f" {each.does[:HEAD]}" in text]


def dropped(screen: str) -> list[str]:
    """What is shown without its whole caution."""
    text = plain(screen)
    return [each.id for each in shown(screen) if each.caution not in text]


def shared(_folders: list[Path]) -> Rulebook:
    return rulebook()


VERDICTS: dict[tuple[str, int | None, bool], Verdict] = {}


def judged_once(
    case: Case,
    rules: Rulebook,
    *,
    now: datetime,
    as_of: int | None,
    shop: Shop | None,
    planning: bool = False,
) -> Verdict:
    """The screens of one verdict are drawn from one judging."""
    key = case.id, as_of, planning
    if key not in VERDICTS:
        VERDICTS[key] = judge(case, rules, now=now, as_of=as_of, shop=shop, planning=planning)
    return VERDICTS[key]


@pytest.fixture(autouse=True)
def _read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sootsayer.commands.opened.load_rulebook", shared)
    monkeypatch.setattr("sootsayer.judgement.judge.judge", judged_once)


def screen(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    """What a command prints."""
    assert main(list(arguments)) == 0
    return capsys.readouterr().out


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


def test_a_dropped_caution_is_found() -> None:
    """The law itself hears a caution that is cut, and one that is missing."""
    model = rulebook().model
    check = next(x for x in model.checks.values() if len(x.caution) > 20)
    whole = f"- {check.does}\n    Caution: {check.caution}"
    assert dropped(whole) == []
    assert dropped(whole[:-8] + "…") == [check.id]
    assert dropped(check.does) == [check.id]
