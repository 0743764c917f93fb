"""`sootsayer ask` as a command: answers from a file, new cases, copies, two people, refusals."""

from __future__ import annotations

import errno
import io
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from sootsayer.commands.main import main
from sootsayer.documents import holding
from sootsayer.documents.holding import held
from tests.commands.asking.support import HEADER, RULES

AT = ["--at", "2031-03-14T09:00+01:00"]


@pytest.fixture(autouse=True)
def little(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """On the little rulebook, in a folder of its own, without a shop."""
    monkeypatch.setattr("sootsayer.commands.opened.shipped_rules", lambda: RULES)
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)
    monkeypatch.chdir(tmp_path)


Asked = Callable[..., tuple[int, str, str]]


@pytest.fixture
def ask(capsys: pytest.CaptureFixture[str]) -> Asked:
    """Exit code, output and complaints of asking with a file of answers."""

    def run(*arguments: str, answers: str) -> tuple[int, str, str]:
        Path("answers.txt").write_text(answers, encoding="utf-8")
        code = main(["ask", *arguments, "--answers", "answers.txt", *AT])
        out, err = capsys.readouterr()
        return code, " ".join(out.split()), " ".join(err.split())

    return run


@pytest.fixture
def van() -> Path:
    Path("van.yaml").write_text(HEADER, encoding="utf-8")
    return Path("van.yaml")


def test_answers_from_a_file(ask: Asked, van: Path) -> None:
    """One answer a line; blank lines and comments are passed over; each is an entry."""
    code, out, err = ask("van.yaml", answers="# at the counter\n\nno\nlow\ntrip-length 6 km\n")
    assert (code, err) == (0, "")
    assert "fire-signs [yes, no] > no" in out
    lines = van.read_text(encoding="utf-8").splitlines()[4:]
    assert [line.partition("facts: ")[2] for line in lines] == [
        "{fire-signs: no}}", "{oil-level: low}}", "{trip-length: 6 km}}",
    ]  # fmt: skip


def test_it_ends_with_verdict_unproven_and_next_command(ask: Asked, van: Path) -> None:
    """The end says what is known, what is not proven, and what to type next."""
    _, out, _ = ask(str(van), answers="no\ndone\n")
    assert "May it be driven? That is not yet known." in out
    assert "Not proven: Pressure sensor." in out
    assert "Not known, for driving: The oil is not above the maximum." in out
    assert "Next: sootsayer" in out


def test_an_answer_that_is_not_taken_stops_a_file(ask: Asked, van: Path) -> None:
    """What follows would answer other questions: it stops, names the line, keeps what was."""
    code, _, err = ask("van.yaml", answers="no\nperhaps\nlow\n")
    assert code == 2
    assert "answers.txt:2: this answer was not taken" in err
    assert "low, between marks, above max" in err
    assert len(van.read_text(encoding="utf-8").splitlines()) == 5


def test_no_terminal_and_no_answers(van: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit 2, one sentence, and the case is untouched."""
    assert main(["ask", "van.yaml"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 2  # the sentence and what to do
    assert "no terminal" in err
    assert van.read_text(encoding="utf-8") == HEADER
    assert [file.name for file in Path().iterdir()] == ["van.yaml"]


def test_a_new_case(ask: Asked) -> None:
    """Its header is asked, and what is not known is left out or `unknown`."""
    code, out, err = ask(
        "--new", answers="2.0 L panel van\n2,0\n4\n-\n180000\nno\nyes\n-\nno\nlow\n"
    )
    assert (code, err) == (0, "")
    text = Path("cases/2031-03-14-a.yaml").read_text(encoding="utf-8")
    assert text.startswith(
        'case: 2031-03-14-a\nformat: 1\nvehicle: {label: "2.0 L panel van", engine litres: 2, '
        "cylinders: 4, odometer km: 180000, fitted: {additive: no, reductant: yes, "
        "low-pressure recirculation: unknown}}\nentries:\n- {at: "
    )
    assert "Case 2031-03-14-a begun" in out
    ask("--new", answers="Another\n-\n-\n-\n-\n-\n-\n-\n")
    assert Path("cases/2031-03-14-b.yaml").exists()
    code, out, _ = ask("2031-03-14-a", answers="done\n")  # found by its id
    assert code == 0
    assert "2 entries" in out


def test_a_new_case_at_a_path(ask: Asked, van: Path) -> None:
    """It goes where it was named, and never over a file that is there."""
    header = "A van\n-\n-\n-\n-\n-\n-\n-\n"
    assert ask("--new", "here/own.yaml", answers=header)[0] == 2  # there is no such folder
    assert ask("--new", "own", answers=header)[0] == 0
    assert Path("own.yaml").read_text(encoding="utf-8").startswith("case: own\n")
    code, _, err = ask("--new", "van.yaml", answers=header)
    assert code == 2
    assert "there already" in err or "already" in err
    assert van.read_text(encoding="utf-8") == HEADER


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("", "end before"),
        ("-", "needs to say"),
        ("A van\nmany", "no number"),
        ("A van\n50 L", "30"),
    ],
)
def test_a_new_case_that_is_not_described(ask: Asked, typed: str, says: str) -> None:
    """What cannot be a header is told, and no file is left behind."""
    code, _, err = ask("--new", answers=typed)
    assert code == 2
    assert says in err
    assert not Path("cases").exists()


def test_a_demonstration_case_is_never_written(ask: Asked) -> None:
    """Without --copy it is refused; with it a copy of its own is asked."""
    code, _, err = ask("quiet-healthy-van", answers="done\n")
    assert code == 2
    assert "--copy" in err


def test_a_copy_of_a_demonstration_case(ask: Asked, monkeypatch: pytest.MonkeyPatch) -> None:
    """With --copy its text is copied under an id of its own, and the copy is asked."""
    demo = Path("demo")
    demo.mkdir()
    (demo / "shown.yaml").write_text("# invented\n" + HEADER, encoding="utf-8")
    monkeypatch.setattr("sootsayer.commands.ask_case.shipped_cases", lambda: demo)
    code, out, err = ask("shown", "--copy", answers="no\n")
    assert (code, err) == (0, "")
    assert "Copied to cases/2031-03-14-a.yaml" in out.replace("\\", "/")
    copy = Path("cases/2031-03-14-a.yaml").read_text(encoding="utf-8")
    assert copy.startswith("# invented\ncase: 2031-03-14-a\nformat: 1\n")
    assert "fire-signs: no" in copy
    assert (demo / "shown.yaml").read_text(encoding="utf-8") == "# invented\n" + HEADER


def test_a_closed_case_is_not_asked(ask: Asked, van: Path) -> None:
    """After its outcome only a new case takes answers."""
    line = "- {at: 2031-03-14T09:00+01:00, by: tech-1, outcome: {faults: [sensor-offset]}}\n"
    van.write_text(HEADER + line, encoding="utf-8")
    code, _, err = ask("van.yaml", answers="no\n")
    assert code == 2
    assert "closed by its outcome" in err


@contextmanager
def somebody(path: Path) -> Iterator[None]:
    with held(path, "tech-7", "2031-03-14 08:55"):
        yield


def test_the_second_is_told(ask: Asked, van: Path) -> None:
    """Who has it open, since when; nothing is written."""
    with somebody(van):
        code, _, err = ask("van.yaml", answers="no\n")
    assert code == 2
    assert "tech-7 has this case open since 2031-03-14 08:55" in err
    assert van.read_text(encoding="utf-8") == HEADER


def test_the_second_may_take_over(ask: Asked, van: Path) -> None:
    """Then it writes, and the first finds out before the next write."""
    with held(van, "tech-7", "2031-03-14 08:55") as first:
        assert ask("van.yaml", "--take-over", "--by", "tech-2", answers="no\n")[0] == 0
        assert len(van.read_text(encoding="utf-8").splitlines()) == 5
        del first
    assert ask("van.yaml", answers="low\n")[0] == 0


def at_terminal(monkeypatch: pytest.MonkeyPatch, typed: str) -> None:
    """As if a person sat there and typed this."""
    monkeypatch.setattr("sootsayer.commands.ask_typing.at_a_terminal", lambda: True)
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(typed.encode()), "utf-8"))


@pytest.mark.parametrize(
    ("typed", "entries", "says"),
    [
        ("read\nno\nshow\ndone\n", 0, "This session only reads"),
        ("take\nno\ndone\n", 1, "Taken over. tech-7 is told"),
        ("\n", 0, "Only one can write"),
    ],
)
def test_the_second_chooses_at_a_terminal(
    van: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    typed: str,
    entries: int,
    says: str,
) -> None:
    """Read only, take over, or leave."""
    at_terminal(monkeypatch, typed)
    with somebody(van):
        assert main(["ask", "van.yaml", *AT]) == 0
    assert says in " ".join(capsys.readouterr().out.split())
    assert len(van.read_text(encoding="utf-8").splitlines()) == 4 + entries


def test_the_first_is_told_when_it_is_taken_over(
    van: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Its next answer is not written but stays on the screen, with who has the case now."""
    real = holding.still_holds

    def taken(path: Path, mine: holding.Holder) -> holding.Holder | None:
        if "fire-signs" in path.read_text(encoding="utf-8"):
            return holding.Holder("tech-8", "2031-03-14 09:01", "ff")
        return real(path, mine)

    monkeypatch.setattr("sootsayer.commands.ask_shell.still_holds", taken)
    at_terminal(monkeypatch, "no\nlow\ndone\n")
    assert main(["ask", "van.yaml", *AT]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "tech-8 has taken over this case" in out
    assert "facts: {oil-level: low}" in out
    assert "oil-level" not in van.read_text(encoding="utf-8")


@pytest.mark.parametrize("encoding", ["ascii", "cp437", "cp1252"])
def test_any_code_page(van: Path, monkeypatch: pytest.MonkeyPatch, encoding: str) -> None:
    """Where the terminal's encoding has none of our signs, plainer ones stand for them."""
    screen = io.BytesIO()
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(screen, encoding, write_through=True))
    Path("a").write_text("note ça va – 漢\nno\n?\n??\nsheet\nshow\ndone\n", encoding="utf-8")
    assert main(["ask", str(van), "--answers", "a", *AT]) == 0
    assert "note ça va" not in screen.getvalue().decode("ascii", "replace")
    assert "May it be driven?" in screen.getvalue().decode(encoding)


def test_by_and_source(ask: Asked, van: Path) -> None:
    """Who enters is said once, and kept from the last entry of the case."""
    ask("van.yaml", "--by", "tech-9", answers="no\n")
    ask("van.yaml", answers="low\n")
    assert van.read_text(encoding="utf-8").count("by: tech-9") == 2
    assert ask("van.yaml", "--by", "Jo Smith", answers="no\n")[0] == 2


@pytest.mark.parametrize(
    ("number", "says"), [(errno.ENOSPC, "the disk is full"), (errno.EROFS, "read-only")]
)
def test_what_cannot_be_written_stays_on_the_screen(
    ask: Asked, van: Path, monkeypatch: pytest.MonkeyPatch, number: int, says: str
) -> None:
    """Said at once, with the very line to copy; the case is as it was."""
    written = os.write

    def full(descriptor: int, data: bytes) -> int:
        if b"fire-signs" in data:
            raise OSError(number, os.strerror(number))
        return written(descriptor, data)

    monkeypatch.setattr("sootsayer.documents.writing.os.write", full)
    code, out, _ = ask("van.yaml", answers="no\n")
    assert code == 2
    assert says in out
    assert (
        "- {at: 2031-03-14T09:00+01:00, by: tech-1, round: arrival, facts: {fire-signs: no}}" in out
    )
    assert van.read_text(encoding="utf-8") == HEADER


def test_where_nothing_can_be_written_at_all(
    ask: Asked, van: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A read-only folder is told before the first question."""

    def no(*_: object, **__: object) -> object:
        raise PermissionError(errno.EROFS, os.strerror(errno.EROFS))

    monkeypatch.setattr(holding, "locked", no)
    code, out, _ = ask(str(van), answers="no\n")
    assert code == 2
    assert "Nothing can be written here: the disk is read-only." in out
    assert "fire-signs: no" in out


def test_a_case_that_grew_meanwhile(ask: Asked, van: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another program's entry is read, told, and kept; the answer follows it."""
    from sootsayer.casework.append import append_entries as real

    other = "- {at: 2031-03-14T08:59+01:00, by: tech-2, note: meanwhile}\n"

    def late(path: Path, lines: tuple[str, ...], *, was: bytes | None = None) -> None:
        if other not in path.read_text(encoding="utf-8"):
            with path.open("a", encoding="utf-8") as stream:
                stream.write(other)
        real(path, lines, was=was)

    monkeypatch.setattr("sootsayer.commands.ask_shell.append_entries", late)
    code, out, _ = ask("van.yaml", answers="no\n")
    assert code == 0
    assert "The case grew meanwhile: 1 entry by another hand" in out
    assert "fire-signs no: written, entry 2" in out
    assert "note: meanwhile" in van.read_text(encoding="utf-8")


def test_a_torn_last_line_is_told_and_moved(ask: Asked, van: Path) -> None:
    """A line that broke off is left out, and the first answer moves it aside."""
    van.write_text(HEADER + "- {at: 2031-03-14T08:59+01:00, by: te", encoding="utf-8")
    code, out, _ = ask("van.yaml", answers="no\n")
    assert code == 0
    assert "had broken off" in out
    assert Path("van.yaml.torn").exists()


def test_a_file_that_is_no_case(ask: Asked) -> None:
    """It is refused with its place, like everywhere."""
    Path("x.yaml").write_text("case: 1,\n", encoding="utf-8")
    code, _, err = ask("x.yaml", answers="no\n")
    assert code == 2
    assert "x.yaml:1" in err


def test_answers_that_are_no_text(van: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Bytes that are no UTF-8, a file that is not there: a sentence, exit 2."""
    Path("bad.txt").write_bytes(b"\xff\xfe\x00n")
    assert main(["ask", "van.yaml", "--answers", "bad.txt"]) == 2
    assert main(["ask", "van.yaml", "--answers", "none.txt"]) == 2
    err = capsys.readouterr().err
    assert "UTF-8" in err
    assert "none.txt" in err
    assert van.read_text(encoding="utf-8") == HEADER


def test_the_sheet_is_printed_without_a_terminal(
    van: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """One page of 80 columns with blanks, in the order of one walk; nothing is written."""
    assert main(["ask", "van.yaml", "--sheet", *AT]) == 0
    out = capsys.readouterr().out
    lines = out.splitlines()
    assert max(map(len, lines)) <= 80
    assert len(lines) <= 62
    order = ["Ask and look", "Key on, engine stopped", "Held speed", "Hands on"]
    assert [line for line in lines if line in order] == order
    assert "dp@rest ________ mbar" in out
    assert "[ ] sound" in out
    assert van.read_text(encoding="utf-8") == HEADER


def test_answers_in_the_order_of_the_sheet(ask: Asked, van: Path) -> None:
    """--from-sheet takes them one after another."""
    answers = "no\nlow\nnone\n6\ncodes none all, monitors run\n3\n1\n24\n59\nsound\ndone\n"
    code, _, err = ask("van.yaml", "--from-sheet", answers=answers)
    assert (code, err) == (0, "")
    assert "dp@2500: 59 mbar" in van.read_text(encoding="utf-8")
