"""The two sheets: what stands on them, and in which words."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from sootsayer.commands.main import main
from sootsayer.console.words import CONFIDENCE
from sootsayer.physics.measured import Measured
from sootsayer.report import customer_texts as t
from sootsayer.report.customer_page import share_said
from sootsayer.rulebook.shipped import shipped_cases
from tests.report.making import CASES, USUAL, made, written

WORK = "- {at: 2031-06-02T11:00+02:00, by: tech-1, work: %s}"
READ = (
    "- {at: 2031-06-02T09:00+02:00, by: tech-1, round: arrival, source: scan, facts: {%s}}",
    "- {at: 2031-06-02T12:00+02:00, by: tech-1, round: later, source: scan, facts: {%s}}",
)
HOT = "coolant@idle: 88 C, regeneration-status: not running"


class Texts(HTMLParser):
    """The words of a page, without markup and style."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.parts: list[str] = []
        self.skipped = False
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        del attrs
        self.skipped = tag in {"style", "svg"}

    def handle_endtag(self, tag: str) -> None:
        if tag in {"style", "svg"}:
            self.skipped = False

    def handle_data(self, data: str) -> None:
        if not self.skipped:
            self.parts.append(data)

    @property
    def flat(self) -> str:
        return " ".join(" ".join(self.parts).split())


@pytest.fixture(name="folder", scope="module")
def one_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("reports")


@pytest.mark.parametrize("case", CASES)
def test_customer_reads_words_and_no_per_cent(case: str, folder: Path) -> None:
    """The customer's sheet has every part, and neither a per cent nor an id of the rulebook."""
    for options in (("--customer",), ("--customer", "--text")):
        page = written(case, folder, *options)
        flat = Texts(page).flat if "--text" not in options else " ".join(page.split())
        for part in (t.DRIVE, t.WRONG, t.SURE, t.DONE, t.COST, t.KEEP, t.BACK, t.NOT_CHECKED):
            assert part in flat
        assert "%" not in flat
        assert not re.search(r"per ?cent|probab|\.yaml|@", flat)
        assert not re.search(r"\b(safe|approved|certified|guaranteed?)\b", flat.lower())


@pytest.mark.parametrize("case", CASES)
def test_file_holds_what_a_reader_needs_later(case: str, folder: Path) -> None:
    """Every entry with its moment and person, rules with revisions, digests of all that decided."""
    page = written(case, folder, "--file", "--text")
    assert re.search(r"\(?[a-z-]+\.yaml:\d+\s+[0-9a-f]{8}", page)
    assert len(re.findall(r"[0-9a-f]{64}", page)) == 3
    assert "tech-" in page
    own = (Path(shipped_cases()) / f"{case}.yaml").read_text(encoding="utf-8")
    assert ("dp@" not in own) or re.search(r"dp@\S+\s+\S+", page)
    assert "drive-on:" in page
    assert re.search(r"\d %", page)


def test_a_filter_that_is_not_well_gets_no_comfort_where_no_cause_is_known(folder: Path) -> None:
    """The customer does not read that nothing would bring it back where the cause is not known."""
    page = " ".join(written("broken-core", folder, "--customer", "--text").split())
    assert "Filter core breached or melted through. That is almost certain." in page
    assert t.KEEP_UNKNOWN in page
    assert t.KEEP_NOTHING not in page


def test_text_and_html_say_the_same(folder: Path) -> None:
    """Word for word, the plain text has what the HTML has, tables and pictures aside."""
    html = Texts(written(USUAL, folder, "--customer")).flat
    text = written(USUAL, folder, "--customer", "--text")
    plain = " ".join(re.sub(r"^(?:[-=]+$|[-!] )", "", text, flags=re.MULTILINE).split())
    title = "Report on estate-before-and-after "
    assert html.removeprefix(title) == plain


@pytest.mark.parametrize("case", CASES)
def test_text_fits_a_sheet(case: str, folder: Path) -> None:
    """No line is wider than 80 columns; a form feed parts the two sheets."""
    page = written(case, folder, "--text")
    assert max(map(len, page.splitlines())) <= 80
    assert page.count("\f") == 1


def test_every_word_of_confidence_has_its_sentence() -> None:
    """Whatever word a fault that is told may have, the customer reads what it means."""
    told = [word for least, word in CONFIDENCE if least >= 40]
    assert list(t.OF_TEN) == told


@pytest.mark.parametrize(
    ("ratio", "words"),
    [(0.04, "less than a tenth"), (0.1, "a tenth"), (0.2, "a fifth"), (0.25, "a quarter"),
     (0.31, "a third"), (0.5, "half"), (0.66, "two thirds"), (0.8, "three quarters"),
     (0.95, "a little")],
)  # fmt: skip
def test_shares_are_fractions(ratio: float, words: str) -> None:
    """A fall is told as a fraction."""
    assert words in share_said(Measured(ratio))


def test_a_closed_case_says_what_was_confirmed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What was confirmed is told as found, once, with the work and that no price is known."""
    end = (
        "- {at: 2031-06-03T16:00+02:00, by: tech-1, outcome: {faults: [sensor-offset], "
        "cured by: [zero-sensor], proved by: recheck}}"
    )
    facts = f"dp@rest: 18, dp@idle: 24, {HOT}"
    path = made(tmp_path, READ[0] % facts, WORK % "zero-sensor", end)
    assert main(["report", path, "--text"]) == 0
    flat = " ".join(capsys.readouterr().out.split())
    customer = flat.split("For the file")[0]
    assert customer.count("Found and confirmed:") == 1
    assert "It was found by hand and confirmed." in customer
    assert "no price is entered here" in customer
    assert "outcome: sensor-offset; cured by zero-sensor; proved by recheck" in flat


def test_what_did_not_help_is_not_called_help(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Before and after within noise: not shown; refused: not compared fairly."""
    for later, words in (
        (f"dp@idle: 19, {HOT}", "it is not shown that it helped"),
        ("dp@idle: 9, coolant@idle: 20 C", "could not be compared fairly"),
        (f"dp@idle: 60, {HOT}", "it is worse than it was"),
        (f"dp@idle: 6, {HOT}", "It helped in part"),
    ):
        first = READ[0] % f"dp@idle: 20, {HOT}"
        path = made(tmp_path, first, WORK % "road-run", READ[1] % later)
        assert main(["report", path, "--customer", "--text"]) == 0
        assert words in " ".join(capsys.readouterr().out.split())


def test_what_could_not_be_read_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`cannot` and `do not know` stand under what was not checked, on both sheets."""
    none = (
        "- {at: 2031-06-02T09:10+02:00, by: tech-1, round: arrival, "
        "none: {dp@2500: cannot, oil-grade: do not know}}"
    )
    path = made(tmp_path, READ[0] % "dp@idle: 20", none)
    assert main(["report", path, "--text"]) == 0
    flat = " ".join(capsys.readouterr().out.split())
    assert flat.count("at 2,500 rpm: could not be read") == 2
    assert flat.count("Engine oil grade: not known") == 2


def test_price_of_the_shop(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """With a labour rate and parts the customer reads from what to what, in the shop's money."""
    from sootsayer.report.cost import amount

    assert (amount(119.6), amount(9.5), amount(0.0)) == ("120", "9.5", "0")
    (tmp_path / "shop.yaml").write_text(
        "format: 1\nname: Corner Garage\ncurrency: EUR\nlabour rate: 90\n", encoding="utf-8"
    )
    (tmp_path / "packs").mkdir()
    (tmp_path / "packs" / "shop-own.yaml").write_text(
        "pack: shop-own\nformat: 1\ntitle: Own work\nuses: [pressure-sensing]\n"
        "basis: {kind: common practice}\nremedies:\n  shop-learn:\n    label: Sensor learned in\n"
        '    does: "Learn the zero with the engine stopped"\n    cures: {sensor-offset: usually}\n'
        "    minutes: 20\n    parts: {from: 5, to: 10}\n    verify by: [dp@rest]\n"
        "    recheck: [{after km: 50}]\n"
        '    tell the customer: "Come by after the next long drive"\n',
        encoding="utf-8",
    )
    path = made(tmp_path, READ[0] % "dp@rest: 18", WORK % "shop-learn")
    assert main(["report", path, "--customer", "--text", "--shop", str(tmp_path)]) == 0
    flat = " ".join(capsys.readouterr().out.split())
    assert "Corner Garage. Visit made" in flat
    assert "Sensor learned in: usually 35 to 40 EUR." in flat
    assert "Come by after the next long drive" in flat
    assert "After about 50 km, to measure again." in flat


def test_written_never_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A file that is there stays as it is, exit code 2 and what to do; both sheets need no word."""
    out = tmp_path / "r.html"
    out.write_text("mine", encoding="utf-8")
    assert main(["report", USUAL, "-o", str(out)]) == 2
    assert out.read_text(encoding="utf-8") == "mine"
    assert "nothing was written" in capsys.readouterr().err
    assert main(["report", USUAL, "--customer", "--file"]) == 2
