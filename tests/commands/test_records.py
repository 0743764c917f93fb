"""`sootsayer records`: what is printed, asked and returned."""

from __future__ import annotations

import io
import json
import re
import sys
from pathlib import Path

import html5lib
import pytest

from sootsayer.commands.main import main
from sootsayer.ledger.adding import add
from sootsayer.ledger.chain import check
from sootsayer.ledger.folder import ledger_in
from sootsayer.ledger.reading import find, records
from tests.ledger.golden_ledger import case_text, use_frozen
from tests.ledger.making import body, ledger_of

CASE = "sensor-offset"
SCREEN = 80


@pytest.fixture(autouse=True)
def in_an_empty_folder(
    tmp_path: Path, tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where there is no shop, the ledger is `records` here; with a small rulebook."""
    use_frozen(monkeypatch, tmp_path_factory.mktemp("program"))
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)


def run(*arguments: str) -> int:
    return main(["records", *arguments])


def kept_one(*more: str) -> str:
    """A record of a demonstration case; its digest."""
    assert run("keep", CASE, "--by", "tech-1", "--as-advised", *more) == 0
    return check(ledger_in(Path("records"))).head


def test_the_digest_on_the_job_sheet_verifies(capsys: pytest.CaptureFixture[str]) -> None:
    """What keep prints can be typed off the paper, spaces and all, months later."""
    kept_one()
    out = capsys.readouterr().out
    assert "Kept as record 1, by tech-1" in out
    assert "Decided: as advised." in out
    paper = re.search(r"(?m)^  ((?:[0-9a-f]{8} ?){8})$", out)
    assert paper is not None
    kept_one()
    assert run("verify", "--head", paper[1].upper()) == 0
    told = capsys.readouterr().out
    assert "the ledger is whole" in told
    assert "that of record 1; 1 record came after it." in told
    assert max(map(len, (out + told).splitlines())) <= SCREEN


def test_verify_tells_what_is_wrong_with_1(capsys: pytest.CaptureFixture[str]) -> None:
    """A changed record is named, and the exit code is 1; so it is for a digest of elsewhere."""
    kept_one()
    kept_one()
    path = Path("records/ledger.jsonl")
    whole = path.read_bytes()
    path.write_bytes(whole.replace(b"tech-1", b"tech-2", 1))
    assert run("verify") == 1
    assert "Line 1: record 1 was changed" in capsys.readouterr().out
    assert run("verify", "--json") == 1
    assert json.loads(capsys.readouterr().out)["flaw"]["wrong"] == "changed"
    path.write_bytes(whole)
    assert run("verify", "--head", "0123456789abcdef") == 1
    assert "another ledger, its end" in " ".join(capsys.readouterr().out.split())
    path.write_bytes(whole[:-1])
    assert run("verify") == 1
    assert "sets it aside" in capsys.readouterr().out


def test_a_torn_line_is_set_aside_and_said(capsys: pytest.CaptureFixture[str]) -> None:
    """The next keep mends the ledger and says so."""
    kept_one()
    with Path("records/ledger.jsonl").open("ab") as stream:
        stream.write(b'{"body":{"at"')
    kept_one()
    assert "(13 bytes) was set aside" in capsys.readouterr().out
    assert Path("records/ledger.jsonl.torn").read_bytes() == b'{"body":{"at"\n'
    assert run("verify") == 0


def test_a_clock_that_went_back_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    """A record before it of tomorrow: kept all the same, and the clock is doubted."""
    ledger = ledger_of(Path("records"), 0)
    add(ledger, body(1, at="2999-01-01T00:00Z"))
    kept_one()
    assert "The record before is dated 2999-01-01" in capsys.readouterr().out
    assert run("verify") == 0
    assert "Record 2 is dated before the one before it" in capsys.readouterr().out


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def at_terminal(monkeypatch: pytest.MonkeyPatch, *typed: str) -> None:
    monkeypatch.setattr(sys, "stdin", Terminal("".join(f"{line}\n" for line in typed)))
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True, raising=False)


def test_it_asks_what_was_decided_otherwise_and_why(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """At a terminal the advice is shown and the question asked until there is nothing more."""
    at_terminal(monkeypatch, "sensor replaced", "none could be had to test", "hose too", "", "")
    assert run("keep", CASE, "--by", "tech-1") == 0
    out = capsys.readouterr().out
    assert out.index("May it be driven?") < out.index("Decided otherwise than advised?")
    decided = find(ledger_in(Path("records")), "1").body["decided"]
    assert decided == [
        {"what": "sensor replaced", "why": "none could be had to test"},
        {"what": "hose too", "why": ""},
    ]


@pytest.mark.parametrize(
    ("typed", "options", "decided"),
    [
        ([""], [], []),
        ([], ["--as-advised"], []),
        ([], ["--otherwise", "x", "--why", "y"], [{"what": "x", "why": "y"}]),
    ],
)
def test_as_advised_and_what_the_options_say(
    typed: list[str], options: list[str], decided: object, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Enter means as advised; with the options nothing is asked."""
    at_terminal(monkeypatch, *typed)
    assert run("keep", CASE, "--by", "tech-1", *options) == 0
    assert find(ledger_in(Path("records")), "1").body["decided"] == decided


def test_where_nobody_can_be_asked_that_is_kept() -> None:
    """Not asked is not the same as advised."""
    assert run("keep", CASE, "--by", "tech-1") == 0
    assert find(ledger_in(Path("records")), CASE).body["decided"] is None


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("keep", CASE), "--by"),
        (("keep", CASE, "--by", "Jo Sample"), "a record holds no names"),
        (("keep", CASE, "--by", "tech-1", "--why", "x"), "one --why behind each"),
        (
            ("keep", CASE, "--by", "tech-1", "--as-advised", "--otherwise", "x", "--why", "y"),
            "leave",
        ),
        (("keep", "nothing", "--by", "tech-1"), "there is no case"),
        (("keep", CASE, "--by", "tech-1", "--as-of", "99"), "no entry 99"),
        (("keep", CASE, "--by", "tech-1", "--ledger", "file/records"), "no records can be kept"),
        (("keep", CASE, "--by", "tech-1", "--ledger", ""), "no folder"),
        (("keep", CASE, "--by", "tech-1", "--ledger", "a\0b"), "has a NUL in it"),
        (("verify",), "there is no ledger.jsonl"),
        (("verify", "--head", "12"), "no digest"),
        (("verify", "--head", "x" * 64), "no digest"),
        (("replay",), "there is no ledger.jsonl"),
        (("explain", "1"), "there is no ledger.jsonl"),
        (("export", "out"), "there is no ledger.jsonl"),
        (("outcome", "1", "--by", "tech-1"), "there is no ledger.jsonl"),
        (("list", "--ledger", "nowhere"), "there is no ledger.jsonl"),
        (("list", "--since", "yesterday"), "is no day"),
        (("list", "--until", "2031-02-30"), "is no day"),
        ((), "no action is named"),
        (("keeep",), "invalid choice"),
    ],
)
def test_wrong_usage_is_told(
    arguments: tuple[str, ...], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """What is wrong and what to do, exit 2, and nothing is made."""
    Path("file").write_text("x")
    assert run(*arguments) == 2
    out, err = capsys.readouterr()
    assert said in err
    assert "→" in err
    assert "Traceback" not in err
    assert out == ""
    assert [path.name for path in Path.cwd().iterdir()] == ["file"]


@pytest.mark.parametrize("wanted", ["9", "0", "-1", "", "deadbeef", "nobody", "\x1b[31m", "1" * 99])
def test_a_record_that_is_not_there(wanted: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Any other ID says which there are."""
    kept_one()
    for action in (("replay", "--", wanted), ("explain", "--", wanted)):
        assert run(*action) == 2
    err = capsys.readouterr().err
    assert "name a record by its number, 1 to 1" in err
    assert "\x1b" not in err


def test_a_record_by_number_digest_and_case(capsys: pytest.CaptureFixture[str]) -> None:
    """The same record, however it is named; the newest of a case."""
    first, second = kept_one(), kept_one()
    capsys.readouterr()
    for wanted, number in (("1", 1), (first[:12], 1), (second, 2), (CASE, 2)):
        assert run("replay", wanted, "--json") == 0
        assert json.loads(capsys.readouterr().out)["record"] == number


def test_replay_of_one_and_of_all(capsys: pytest.CaptureFixture[str]) -> None:
    """One with its table, all with their counts; 1 where a verdict is not given again."""
    kept_one()
    kept_one()
    shop = Path("shop")
    shop.mkdir()
    setting = "limits:\n  dp-rest-max: {value: 30 mbar, source: our own}\n"
    (shop / "shop.yaml").write_text("format: 1\n" + setting)
    capsys.readouterr()
    there = ("--ledger", "records", "--shop", "shop")
    assert run("replay", "1", *there) == 0
    one = capsys.readouterr().out
    assert "the same, byte for byte" in one
    assert re.search(r"Highest reading at rest +5 +30\n +made so by the shop's limit", one)
    assert run("replay", *there) == 0
    told = capsys.readouterr().out
    assert "2 verdicts: the same, byte for byte" in told
    assert re.search(r"\[dp-rest-max\] \(new: 30 mbar\) +2\n", told)
    assert max(map(len, (one + told).splitlines())) <= SCREEN
    body = find(ledger_in(Path("records")), "1").body
    add(ledger_in(Path("records")), {**body, "verdict": {**body["verdict"], "left_out": 0.5}})
    assert run("replay") == 1
    assert "1 is NOT the same: 3" in capsys.readouterr().out


def own_case() -> Path:
    """A copy of the demonstration case, which may be written into."""
    path = Path("mine.yaml")
    path.write_bytes(case_text().replace(b"case: frozen-case", b"case: mine"))
    return path


def test_an_outcome_goes_into_the_case_and_then_into_the_ledger(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """The case gets its entry, the ledger a record that points back; a second time nothing."""
    path = own_case()
    before = path.read_text("utf-8")
    assert run("keep", "mine.yaml", "--by", "tech-1", "--as-advised") == 0
    told = ("outcome", "mine", "--by", "tech-2", "--case", "mine.yaml")
    found = ("--faults", "sensor-offset", "--cured-by", "zero-sensor", "--proved-by", "recheck")
    assert run(*told, *found) == 0
    assert "Head of the records, for the job sheet (record 2)" in capsys.readouterr().out
    after = path.read_text("utf-8")
    assert after.startswith(before)
    added = after.removeprefix(before)
    assert added.count("\n") == 1
    assert (
        "outcome: {faults: [sensor-offset], cured by: [zero-sensor], proved by: recheck}" in added
    )
    second = find(ledger_in(Path("records")), "2")
    first = find(ledger_in(Path("records")), "1")
    assert second.body["of"] == {"number": 1, "digest": first.line.digest}
    assert second.body["outcome"]["faults"] == ["sensor-offset"]
    assert run(*told) == 0
    assert "has this outcome already" in capsys.readouterr().out
    assert len(list(records(ledger_in(Path("records"))))) == 2
    assert run(*told, "--faults", "none") == 2
    assert "another outcome already" in capsys.readouterr().err
    assert run("verify") == 0


def test_a_closed_case_gets_only_its_record() -> None:
    """Killed between entry and record, or closed by hand: the record can still be added."""
    path = own_case()
    assert run("keep", "mine.yaml", "--by", "tech-1", "--as-advised") == 0
    closed = "- {at: 2031-04-03T09:00+02:00, by: tech-1, outcome: {faults: [sensor-offset]}}\n"
    path.write_text(path.read_text("utf-8") + closed, "utf-8")
    before = path.read_bytes()
    assert run("outcome", "1", "--by", "tech-1", "--case", "mine.yaml") == 0
    assert path.read_bytes() == before
    assert find(ledger_in(Path("records")), "2").kind == "outcome"


def test_an_outcome_goes_behind_a_torn_line(capsys: pytest.CaptureFixture[str]) -> None:
    """A case whose last writer was killed takes its outcome: the torn line is set aside."""
    path = own_case()
    assert run("keep", "mine.yaml", "--by", "tech-1", "--as-advised") == 0
    before, torn = path.read_bytes(), b"- {at: 2031-04-03T09:00+02:00, by: t,"
    path.write_bytes(before + torn)
    found = ("--faults", "none", "--proved-by", "recheck", "--cured-by", "")
    code = run("outcome", "1", "--by", "tech-1", "--case", "mine.yaml", *found)
    assert code == 0, capsys.readouterr().err
    assert path.read_bytes().startswith(before + b"- {at: ")
    assert Path("mine.yaml.torn").read_bytes() == torn + b"\n"


@pytest.mark.parametrize(
    ("change", "options", "said"),
    [
        (("case: mine", "case: other"), ("--faults", "none"), 'is case "other"'),
        (("- {at: 2031-03-14T09:12", "#"), ("--faults", "none"), "had 5 when the record was kept"),
        (None, ("--faults", "nonsense-fault"), "nonsense-fault"),
        (None, ("--faults", "Not An Id"), "Not An Id"),
        (None, (), "what was found is not said"),
    ],
)
def test_an_outcome_that_cannot_be(
    change: tuple[str, str] | None,
    options: tuple[str, ...],
    said: str,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Another case, a shorter one, a fault that is none: nothing is written anywhere."""
    path = own_case()
    assert run("keep", "mine.yaml", "--by", "tech-1", "--as-advised") == 0
    if change is not None:
        path.write_text(path.read_text("utf-8").replace(*change), "utf-8")
    case, ledger = path.read_bytes(), Path("records/ledger.jsonl").read_bytes()
    assert run("outcome", "1", "--by", "tech-1", "--case", "mine.yaml", *options) == 2
    assert said in capsys.readouterr().err
    assert (path.read_bytes(), Path("records/ledger.jsonl").read_bytes()) == (case, ledger)


def test_a_demonstration_case_is_not_written_into(capsys: pytest.CaptureFixture[str]) -> None:
    """The cases that came with the program stay as they came."""
    kept_one()
    assert run("outcome", "1", "--by", "tech-1", "--faults", "none") == 2
    assert "demonstration case" in capsys.readouterr().err


def test_explain_on_screen_and_as_a_page(capsys: pytest.CaptureFixture[str]) -> None:
    """Plain text fits 80 columns; HTML is written once and never over another file."""
    kept_one()
    capsys.readouterr()
    assert run("explain", "1") == 0
    out = capsys.readouterr().out
    assert max(map(len, out.splitlines())) <= SCREEN
    for part in ("Entry 1, ", "What was advised", "Cautions", "That was not", "As advised."):
        assert part in out or part == "That was not"
    assert run("explain", "1", "-o", "page.html") == 0
    page = Path("page.html").read_text("utf-8")
    html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(page)
    assert run("explain", "1", "-o", "page.html") == 2
    assert run("explain", "1", "-o", "page.txt") == 0
    assert Path("page.txt").read_text("utf-8") == out


def test_list_says_where_there_is_nothing_yet(capsys: pytest.CaptureFixture[str]) -> None:
    """A shop that kept nothing yet has no error."""
    assert run("list") == 0
    assert "No record was kept yet in records." in capsys.readouterr().out


def test_list_as_a_table_and_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    """Newest first, within the screen; as JSON with ids and digests."""
    digest = kept_one()
    kept_one("--as-of", "1")
    capsys.readouterr()
    assert run("list") == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line.split()[0] for line in lines] == ["No.", "2", "1"]
    assert "sensor-offset" in lines[2]
    assert max(map(len, lines)) <= SCREEN
    assert run("list", "--fault", "sensor-offset", "--json") == 0
    told = json.loads(capsys.readouterr().out)
    assert [r["number"] for r in told["records"]] == [1]
    assert told["records"][0]["digest"] == digest


def test_the_report_carries_the_head(capsys: pytest.CaptureFixture[str]) -> None:
    """With a ledger the sheet for the file names its head; without one nothing is said; of one
    that does not hold, that."""
    assert main(["report", CASE, "--file", "--text"]) == 0
    assert "Records" not in capsys.readouterr().out
    digest = kept_one()
    capsys.readouterr()
    assert main(["report", CASE, "--file", "--text"]) == 0
    told = " ".join(capsys.readouterr().out.split())
    assert f"Records, head (record 1): {digest}" in told
    Path("records/ledger.jsonl").write_bytes(b"x\n")
    assert main(["report", CASE, "--file", "--text"]) == 0
    assert "the last one does not hold" in capsys.readouterr().out
