"""Every page in a language made of English: what stays in plain letters was never given to `say`.

The pages are driven as a person drives them. What may stand in plain letters: ids, units, names of
files, options and commands, codes, digests, and what somebody wrote in a case.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from sootsayer.commands.main import COMMANDS
from sootsayer.rulebook.shipped import shipped_cases
from tests.words.drawing import CASE, ROUNDS, Page, written
from tests.words.pseudo import left_over, other, template, words_in

LOG = shipped_cases() / "logs" / "panel-van-drive.csv"


@pytest.mark.parametrize(
    "arguments",
    [
        ["judge", CASE], ["judge", ROUNDS, "--more"], ["plan", CASE], ["plan", ROUNDS, "--more"],
        ["compare", ROUNDS], ["report", ROUNDS, "--text"], ["ask", CASE, "--sheet"],
        *(["why", CASE, thing] for thing in (
            "sensor-offset", "dp-not-zero-at-rest", "restriction", "dp-sensor", "dp@idle", "P2453",
            "parked-regeneration", "zero-sensor", "dp-rest-max", "read-dp-at-rest",
            "oil-is-above-max",
        )),
    ],
    ids=" ".join,
)  # fmt: skip
def test_pages_on_a_case(arguments: list[str], page: Page) -> None:
    """What is drawn of a case, but for what stands in the case."""
    page(*arguments, known=written(arguments[1]))


TYPED = frozenset({
    "list", "make", "check", "show", "new", "rates", "backtest", "keep", "verify", "replay",
    "explain", "outcome", "export", "comma", "point", "bash", "zsh", "fish", "powershell", "eval",
    "compinit", "config", "completions", "PowerShell", "PROFILE", "Out-String",
    "Invoke-Expression",
})  # fmt: skip
"""Actions, choices of options, and what is typed into a shell."""


@pytest.mark.parametrize("arguments", [[], *([name] for name in COMMANDS)], ids=" ".join)
def test_help(arguments: list[str], page: Page) -> None:
    """Every help, but for what is typed."""
    page(*arguments, "--help", known=TYPED | {*COMMANDS})


@pytest.mark.parametrize(
    "thing",
    [None, "soot-overload", "restriction-at-2500", "dp", "restriction", "parked-regeneration"],
)
def test_the_handbook(thing: str | None, page: Page) -> None:
    """The pages of the rules, but for sources, which stand as they were published."""
    arguments = ["rules", "show", *([] if thing is None else [thing]), "--no-cases"]
    page(*arguments, known=frozenset({"physics", "quantities.py"}))


def test_records(page: Page) -> None:
    """A ledger from its first record to what an assessor reads, made in that language."""
    known = written(ROUNDS)
    arguments = ["--by", "tech-1", "--as-advised", "--as-of", "6"]
    page("records", "keep", ROUNDS, *arguments, known=known)
    page("records", "verify", known=known | {"records"})
    page("records", "replay", "1", known=known)
    page("records", "explain", "1", known=known)
    page("records", "export", "copy", known=known | {"verify"})


def test_a_log(page: Page, tmp_path: Path) -> None:
    """A log shown, but for the heads of its columns and the ids of what they hold."""
    heads = words_in(LOG) | {"time", "road-speed", "pedal", "engine-speed"}
    shutil.copy(LOG, tmp_path / "drive.csv")  # a long path is cut, and its end not known again
    page("readings", "drive.csv", known=heads | {"drive", "csv"})


def test_the_questionnaire(page: Page, tmp_path: Path) -> None:
    """A conversation with answers, commands and slips, but for what was typed."""
    typed = ["no", "none", "?", "??", "show", "answers", "open", "facts", "sheet"]
    typed += ["oil-level low", "dp@idle 24 mbar", "codes P2463 complete", "no", "done"]
    (tmp_path / "answers.txt").write_text("\n".join(typed) + "\n", encoding="utf-8")
    (tmp_path / "new.yaml").write_text(
        "case: new\nformat: 1\nvehicle: {label: van}\nentries:\n", encoding="utf-8"
    )
    known = frozenset(word for line in typed for word in line.split()) | {"new", "van", "plan"}
    arguments = ["ask", "new.yaml", "--answers", "answers.txt", "--at", "2031-03-14T09:00+01:00"]
    page(*arguments, known=known)


@pytest.mark.parametrize(
    ("arguments", "known"),
    [
        (["judge"], ""), (["judge", "nowhere"], ""), (["judge", "no.yaml"], ""),
        (["why", CASE, "nothing"], ""), (["compare", CASE], "arrival"), (["jugde", CASE], "judge"),
        (["judge", CASE, "--colour"], "--colour"), (["judge", CASE, "--at", "now"], ""),
        (["judge", CASE, "--as-of", "99"], ""), (["judge", "broken.yaml"], "vehicle case"),
        (["readings", "broken.yaml"], "case vehicle"), (["rules", "rates", "--cases", "none"], ""),
        (["records", "replay", "9"], ""), (["rules", "show", "nothing"], ""),
    ],
)  # fmt: skip
def test_what_is_wrong(arguments: list[str], known: str, page: Page, tmp_path: Path) -> None:
    """Complaints, but for what was typed and the line that is quoted."""
    (tmp_path / "broken.yaml").write_text("case: broken\nvehicle\n", encoding="utf-8")
    page(*arguments, code=2, known=frozenset({*COMMANDS, *known.split(), "broken"}))


def test_text_that_was_never_said_is_found() -> None:
    """A word in plain letters on a page is seen, and so is one in a slot of a template."""
    line = template("{count} checks are open: {label}").format(count=3, label="oil level")
    assert [word for word, _ in left_over(line, frozenset({"oil-level"}))] == ["oil", "level"]
    assert list(left_over(template("all is said"), frozenset())) == []


def test_it_is_longer_and_keeps_its_slots() -> None:
    """40 % longer, no letter as it was, slots and braces untouched."""
    text = "write {{{slot}: {word}}} where it stands"
    made = template(text)
    assert len(made) > 1.4 * len(text)
    assert made.format(slot="dp", word="5").count("{dp: 5}") == 1
    assert not set("writehsands") & set(made.replace("{slot}", "").replace("{word}", ""))
    assert other("a b") == "⟦á ƀ~⟧"
