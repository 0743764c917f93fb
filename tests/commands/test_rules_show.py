"""`sootsayer rules show`: the handbook page of anything that has an id, and the handbook."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from sootsayer.commands.main import main
from sootsayer.console.article import book_of
from sootsayer.console.handbook import MAKERS, article_lines, article_of, everything, markdown
from sootsayer.console.paper import page
from sootsayer.console.screen import drawn
from sootsayer.rulebook.compiled import load_rulebook
from sootsayer.rulebook.shipped import shipped_rules
from tests.commands import handbook
from tests.rulebook.bad_packs import GOLDEN, SHOP

BOOK = book_of(load_rulebook([GOLDEN, SHOP / "packs"]).model)
Capture = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def no_shop(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """No shop but one that is named."""
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)
    monkeypatch.chdir(tmp_path)


def shown(thing: str) -> str:
    """The page of a thing of the golden packs, in one line."""
    article = article_of(BOOK, thing)
    assert article is not None
    return " ".join(drawn(page(article_lines(article))).split())


def test_everything_has_a_page() -> None:
    """Each id of every section, each signal at a point and each code has a page with something."""
    assert len(MAKERS) == 12
    for thing in [*everything(BOOK.model), "dp@idle", "P2463"]:
        article = article_of(BOOK, thing)
        assert article is not None, thing
        assert article.parts or article.kind == "code", thing
        assert markdown(article).startswith("### ")
    assert article_of(BOOK, "dp@nowhere") is None
    assert article_of(BOOK, "nothing") is None


@pytest.mark.parametrize(
    ("thing", "said"),
    [
        ("dp-not-zero", "True when dp@rest is below -5 mbar or above 6 mbar (dp-rest-max)."),
        ("dp-not-zero", "true takes dp@rest off as its zero"),
        ("dp-not-zero", "given dp@rest 18 mbar: true"),
        ("restriction-at-2500", "normal: dp@2500 from 8 mbar to below 40 mbar"),
        ("restriction-at-2500", "hidden by hose-leaks (Front hose leaks): then low 70 %"),
        ("restriction-at-2500", "number 1 of 2"),
        ("tried-too-often", "at least 2 of: restriction-at-idle is normal or raised; not: dp-not"),
        ("tried-too-often", "dp@idle is above 2 times dp@rest plus 3 mbar"),
        ("tried-too-often", "Only where not (additive is low); else it stays unknown."),
        ("tried-too-often", "often (0.6) with short-trips (Short trips)"),
        ("resistance-was-high", "It keeps to the readings of the round arrival."),
        ("soot-overload", "Its share where none of its causes is present: 0.12."),
        ("soot-overload", "(prior): 12 of 100 in place of 0.1. Many town vans come here."),
        ("short-trips", "Odds times 4 when attempts is at least 3."),
        ("short-trips", "leads to soot-overload (Too much soot): often (0.6)"),
        ("sensor-stuck", "hides restriction: then low 50 %, normal 45 %, raised 5 %"),
        ("sensor-stuck", "zero-sensor (Zero the sensor): never (0.01)"),
        ("read-dp-running", "Caution: Hot parts"),
        ("dp", "Caution: Hot parts"),
        ("dp", "Through the instrument dp-gauge (gauge)."),
        ("resistance", "Computed by filter-resistance from"),
        ("dp-rest-max", "The shop's own number (default): 6 mbar in place of 5 mbar."),
        ("oil-good", "Its readings count for 30 min."),
        ("drive-on", "workshop-only, when 2 of these are blocked: oil-good, pressure-bearable"),
        ("drive-hot", "1. Fill the tank above a quarter - 2. Drive at a steady 90 km/h (caution"),
        ("drive-hot", "Look again after 400 km or 30 days, whichever comes first."),
        ("dp-not-nought", 'Write "dp-not-zero" instead.'),
        ("P2463", "finding tried-too-often"),
    ],
)
def test_pages_say(thing: str, said: str) -> None:
    """The page of a thing says what the golden packs say of it."""
    assert said in shown(thing)


def test_the_screen_and_json(capsys: Capture) -> None:
    """A page on the screen and as JSON; without an id all of them; a near miss is named."""
    assert main(["rules", "show", "soot-overload"]) == 0
    assert capsys.readouterr().out.startswith("Fault soot-overload: ")
    assert main(["rules", "show", "soot-overload", "--json", "--no-cases"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert (told["id"], told["kind"], told["pack"]) == ("soot-overload", "fault", "soot")
    assert told["parts"]["How we know"]
    assert main(["rules", "show"]) == 0
    assert "soot-overload: " in capsys.readouterr().out
    assert main(["rules", "show", "soot-overlaod"]) == 2
    assert 'did you mean "soot-overload"?' in capsys.readouterr().err


def test_how_often_right(tmp_path: Path, capsys: Capture) -> None:
    """Closed cases of the shop count: where a finding was so, and what was confirmed."""
    entry = (
        "- {{at: 2031-03-14T09:02+01:00, by: t, round: arrival, source: scan, facts: {facts}}}\n"
    )
    end = "- {{at: 2031-03-16T09:02+01:00, by: t, outcome: {{faults: [{fault}]}}}}\n"
    (tmp_path / "shop.yaml").write_text("format: 1\n", encoding="utf-8")
    (tmp_path / "cases").mkdir()
    for number, (facts, fault) in enumerate(
        [("{soot-shown: 50}", "soot-overload"), ("{soot-shown: 50}", "ash-full")]
    ):
        head = f"case: c{number}\nformat: 1\nvehicle: {{label: van}}\nentries:\n"
        text = head + entry.format(facts=facts) + end.format(fault=fault)
        (tmp_path / "cases" / f"c{number}.yaml").write_text(text, encoding="utf-8")
    (tmp_path / "cases" / "broken.yaml").write_text("case: [", encoding="utf-8")
    assert main(["rules", "show", "soot-load", "--shop", str(tmp_path)]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert re.search(r"over in 2 of \d+ cases: c0, c1", out)
    assert "in which it was so, 1 had a fault that it speaks for" in out
    assert "1 case file could not be read" in out
    assert main(["rules", "show", "soot-overload", "--shop", str(tmp_path)]) == 0
    assert re.search(r"Confirmed in 1 of \d+ closed cases: c0", capsys.readouterr().out)


def test_the_handbook_is_as_the_packs_are() -> None:
    """docs/handbook/ is written from the shipped packs: `python -m tests.commands.handbook`."""
    made = handbook.pages()
    kept = {
        file.name: file.read_text(encoding="utf-8") for file in handbook.FOLDER.glob("*.md")
    }  # fmt: skip
    assert set(kept) == set(made)
    assert [name for name in made if made[name] != kept[name]] == []


def test_what_packs_say_is_no_markup() -> None:
    """Text of a pack that looks like Markdown or HTML stays text in the handbook."""
    article = article_of(BOOK, "read-dp-at-rest")
    assert article is not None
    assert "<" not in markdown(article).replace("\\<", "")


def test_no_caution_is_left_out() -> None:
    """Each caution of the shipped rules stands on the page of its thing, and with what it gives."""
    book = book_of(load_rulebook([shipped_rules()]).model)
    model = book.model
    cautions = [
        (id_, thing.caution)
        for part in (model.checks, model.actions, model.remedies)
        for id_, thing in part.items()
        if thing.caution
    ]
    assert cautions
    for id_, caution in cautions:
        article = article_of(book, id_)
        assert article is not None
        assert any(caution in line for each in article.parts for line in each.lines), id_
    for check in model.checks.values():
        for slot in check.gives if check.caution else ():
            article = None if slot == "codes" else article_of(book, slot)
            if article is not None:
                lines = [line for each in article.parts for line in each.lines]
                assert any(check.caution in line for line in lines), slot
