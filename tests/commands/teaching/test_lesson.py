"""`sootsayer rules new`: from answers to a proven pack, and what is said on the way."""

from __future__ import annotations

import io
import sys
from pathlib import Path

import pytest

from sootsayer.commands.main import main
from sootsayer.learning.checked import check_rulebook
from tests.commands.teaching.support import NEW_LOOK, NUMBER, case, set_up, taught

Capture = pytest.CaptureFixture[str]


@pytest.fixture
def own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shop with three closed cases; the rules in force are the small rulebook."""
    return set_up(tmp_path, monkeypatch)


def said(capsys: Capture) -> str:
    return " ".join(capsys.readouterr().out.split())


def test_a_new_look(tmp_path: Path, own: Path, capsys: Capture) -> None:
    """A look that nobody asked for before: a signal, a check with its caution, a proven rule."""
    assert taught(tmp_path, NEW_LOOK, "--shop", "own") == 0
    out = said(capsys)
    assert "Proofs made: 3. They come out" in out
    assert "Checked with the rules in force: 0 errors, 0 warnings." in out
    text = (own / "packs" / "shop-soot-at-clamp.yaml").read_text(encoding="utf-8")
    assert '    caution: "Let the exhaust cool first; gloves"' in text
    assert "  seen with: {leak: usually}\n  otherwise: rarely\n" in text
    checked = check_rulebook([tmp_path / "rules", own / "packs"])
    assert [each.problem.what for each in checked.remarks] == []
    assert checked.rulebook is not None
    assert "shop-soot-at-clamp" in checked.rulebook.model.findings


def test_a_number(tmp_path: Path, own: Path, capsys: Capture) -> None:
    """Proofs at the threshold, a step beside it, and what the named cases read; then the replay."""
    assert taught(tmp_path, NUMBER, "--shop", "own") == 0
    out = said(capsys)
    assert "c1: 13 mbar, so the rule says yes. c2: 12 mbar, so the rule says no." in out
    assert "It would have changed 2 of 3 verdicts." in out
    assert "c1: of the kind condition blocked leads instead of none, as was confirmed." in out
    text = (own / "packs" / "shop-aft-high.yaml").read_text(encoding="utf-8")
    proofs = [line.strip() for line in text.splitlines() if "given" in line]
    assert proofs == [
        "- {given: {aft: 11}, then: false}",
        "- {given: {aft: 12}, then: false}",
        "- {given: {aft: 13}, then: true}",
        "- {given: {aft: 13}, then: true} # c1",
        "- {given: {aft: 12}, then: false} # c2",
        "- {given: {}, then: unknown}",
    ]
    assert 'basis: {kind: shop, source: "cases c1, c2"}' in text
    assert "shop-aft-high-limit: {label:" in text


def test_a_change_for_the_worse_is_told(tmp_path: Path, own: Path, capsys: Capture) -> None:
    """A verdict that the rule would turn away from what was confirmed is told as that."""
    case(own, "c4", "{aft: 30}", "leak")
    worse = NUMBER.replace("c1, c2", "c1")
    assert taught(tmp_path, worse, "--shop", "own") == 0
    assert "It would have changed 3 of 4 verdicts." in said(capsys)


def test_one_reading_counts_once(tmp_path: Path, own: Path, capsys: Capture) -> None:
    """Where the reading decides another rule already, it asks why this one counts apart."""
    answers = NUMBER.replace("pressure behind", "dp").replace("above 12", "above 60")
    answers = answers.replace("\n1\nabove", "\nabove").replace("c1, c2", "none\nsix cases")
    answers = answers.replace("shop-aft-high", "A burst is another thing\nshop-aft-high")
    assert taught(tmp_path, answers, "--shop", "own") == 0
    out = said(capsys)
    assert "The same reading decides high too (Pressure is high)." in out
    assert "It differs from high: with dp 41 only one of them is so." in out
    text = (own / "packs" / "shop-aft-high.yaml").read_text(encoding="utf-8")
    assert 'apart because: "A burst is another thing"' in text


def test_a_new_fault(tmp_path: Path, own: Path, capsys: Capture) -> None:
    """A fault that the program did not know gets an id, a kind and a prior."""
    answers = NEW_LOOK.replace("\nleak\n", "\nnew\nHose rubs on the shield\n3\n3 of 100\n")
    assert taught(tmp_path, answers, "--shop", "own") == 0
    text = (own / "packs" / "shop-soot-at-clamp.yaml").read_text(encoding="utf-8")
    assert 'label: "Hose rubs on the shield", kind: cause, prior: 3 of 100}' in text
    assert "seen with: {shop-hose-rubs-shield: usually}" in text
    assert "0 errors" in said(capsys)


def test_a_shop_is_made_where_there_is_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    """From nothing: the folder is asked for, and made with its settings to fill in."""
    set_up(tmp_path, monkeypatch, shop=False)
    answers = NEW_LOOK.replace("clamp\nyes\n", "clamp\nmy place\nyes\n")
    assert taught(tmp_path, answers) == 0
    shop = tmp_path / "my place"
    assert (shop / "packs" / "shop-soot-at-clamp.yaml").is_file()
    assert "format: 1" in (shop / "shop.yaml").read_text(encoding="utf-8")
    assert "There is no closed case in my place/cases yet" in said(capsys)
    monkeypatch.chdir(shop)
    assert main(["rules", "check", "--alone", str(tmp_path / "rules"), "packs"]) == 0


@pytest.mark.parametrize(
    ("wrong", "right", "complaint"),
    [
        ("soot", "There is soot at the clamp", "a sentence has at least two words"),
        ("there is no such word zzz", None, "nothing is called anything like"),
        ("9", "1", "none of them"),
        ("Let the exhaust cool first; gloves", "none", "none is not enough"),
    ],
)
def test_wrong_answers_in_a_file(
    tmp_path: Path, own: Path, capsys: Capture, wrong: str, right: str | None, complaint: str
) -> None:
    """A wrong answer ends it with its line in the file, exit code 2, and nothing is written."""
    lines = NEW_LOOK.splitlines()
    if complaint.startswith("none is not"):
        lines[7] = "none"
    elif right is None:
        lines[1] = wrong
    else:
        lines[lines.index(right)] = wrong
    assert taught(tmp_path, "\n".join(lines), "--shop", "own") == 2
    err = capsys.readouterr().err
    assert "answers.txt:" in err
    assert complaint in err
    assert "nothing was written" in err
    assert not (own / "packs").exists()


def test_answers_that_end_too_soon(tmp_path: Path, own: Path, capsys: Capture) -> None:
    """A file without the last answers ends with exit code 2, and nothing is written."""
    for count in range(len(NEW_LOOK.splitlines())):
        answers = "\n".join(NEW_LOOK.splitlines()[:count])
        assert taught(tmp_path, answers, "--shop", "own") == 2
        assert "the answers end before the last question" in capsys.readouterr().err
        assert not (own / "packs").exists()


def test_nobody_to_ask(own: Path, capsys: Capture) -> None:
    """Without a terminal and without answers it says so: exit code 2."""
    assert main(["rules", "new", "--shop", str(own)]) == 2
    assert "give --answers FILE" in capsys.readouterr().err


def test_nothing_is_written_over(tmp_path: Path, own: Path, capsys: Capture) -> None:
    """A name that a file has already is not taken; the one proposed is another."""
    (own / "packs").mkdir()
    there = own / "packs" / "shop-soot-at-clamp.yaml"
    text = "pack: shop-soot-at-clamp\nformat: 1\ntitle: Mine\nbasis: {kind: memory}\n"
    there.write_text(text, encoding="utf-8")
    assert taught(tmp_path, NEW_LOOK, "--shop", "own") == 2
    assert '"shop-soot-at-clamp" is taken' in capsys.readouterr().err
    assert there.read_text(encoding="utf-8") == text


def test_back_and_stop(tmp_path: Path, own: Path, capsys: Capture) -> None:
    """back asks the question before again; stop leaves, and nothing is written."""
    answers = NUMBER.replace("above 12\n", "above 12\nback\nabove 50\n")
    assert taught(tmp_path, answers.replace("c1, c2", "c3"), "--shop", "own") == 0
    text = (own / "packs" / "shop-aft-high.yaml").read_text(encoding="utf-8")
    assert "default: 50 mbar" in text
    assert taught(tmp_path, "Something is seen\nstop\n", "--shop", "own") == 0
    assert "Left. Nothing was written." in said(capsys)


def test_back_out_of_the_middle_of_a_question(tmp_path: Path, own: Path, capsys: Capture) -> None:
    """back after half of a question begins that question anew."""
    answers = NEW_LOOK.replace("3\n4\nLet", "3\nback\nnew\n1\nAnother\nLook again\n3\n5\nLet")
    assert taught(tmp_path, answers, "--shop", "own") == 0
    text = (own / "packs" / "shop-soot-at-clamp.yaml").read_text(encoding="utf-8")
    assert 'label: "Another"' in text
    capsys.readouterr()


@pytest.mark.parametrize(
    "hostile",
    [
        'It says "]: {a: b} # no',
        "It has 'quotes' and \\ and %s {x}",
        "- {given: {}, then: true}",
        "yes: no & *anchor !tag",
        "Über die Maßen heiß, 排气",
    ],
)
def test_whatever_is_typed_stays_text(
    tmp_path: Path, own: Path, capsys: Capture, hostile: str
) -> None:
    """Text that looks like YAML or a template stays text in the pack."""
    answers = NEW_LOOK.replace("There is soot at the clamp", hostile)
    answers = answers.replace("Look at the clamp with a lamp", hostile)
    assert taught(tmp_path, answers, "--shop", "own") == 0
    checked = check_rulebook([tmp_path / "rules", own / "packs"])
    assert checked.rulebook is not None
    assert checked.rulebook.model.findings["shop-soot-at-clamp"].says == hostile.rstrip(".")
    capsys.readouterr()


@pytest.mark.usefixtures("own")
def test_an_escape_is_not_taken(
    tmp_path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Characters that could steer a screen are refused, in a file and in what is piped."""
    answers = NEW_LOOK.replace("There is soot at the clamp", "There is \x1b[31m soot")
    assert taught(tmp_path, answers, "--shop", "own") == 2
    captured = capsys.readouterr()
    assert "answers.txt:1:10: the control character U+001B stands here" in captured.err
    assert "\x1b" not in captured.out + captured.err
    monkeypatch.setattr(sys, "stdin", io.StringIO(answers))
    assert main(["rules", "new", "--answers", "-", "--shop", "own"]) == 2
    captured = capsys.readouterr()
    assert "characters that cannot be seen" in captured.err
    assert "\x1b" not in captured.out + captured.err


def test_a_folder_that_cannot_be_written(tmp_path: Path, own: Path, capsys: Capture) -> None:
    """A packs folder that is a file is told, exit code 2, no traceback."""
    (own / "packs").write_text("", encoding="utf-8")
    assert taught(tmp_path, NEW_LOOK, "--shop", "own") == 2
    assert "cannot be written" in capsys.readouterr().err
