"""Pages that show commands: those of the how-to pages run, those of all pages can be typed."""

from __future__ import annotations

import json
import os
import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from sootsayer.commands.leaving import Stop
from sootsayer.commands.main import main, parser
from tests.commands.reference import commands

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"
PAGES = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted(DOCS.rglob("*.md"))]
# A block of commands, or a file that the page has the reader write.
PART = re.compile(
    r"```console\n(?P<commands>.*?)```|<!-- file: (?P<file>\S+) -->\n```\w+\n(?P<text>.*?)```",
    re.DOTALL,
)
PLAYED = {
    "complete-with-tab": [0],
    "set-up-a-shop": [0, 0, 0, 0, 0],
    "override-a-number": [0, 0, 0, 0],
}
OUTCOME = "- {at: 2031-03-25T08:00+01:00, by: tech-1, outcome: {faults: [front-hose-leaks]}}\n"
BLOCK = re.compile(r"```(?:console|text|sh|yaml)?\n(.*?)```", re.DOTALL)
TYPED = re.compile(r"^(?:\$ )?(sootsayer(?: .*)?)$", re.MULTILINE)


def play(page: str) -> list[int]:
    """Does what the page says in the working folder; the exit codes of its commands."""
    codes = []
    for part in PART.finditer(page):
        if part["file"]:
            file = Path(part["file"])
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(part["text"], encoding="utf-8")
            continue
        for line in part["commands"].splitlines():
            command, *words = shlex.split(line.removeprefix("$ "))
            if command == "mkdir":
                for word in words:
                    Path(word).mkdir()
                codes.append(0)
            else:
                assert command == "sootsayer"
                codes.append(main(words))
    return codes


@pytest.mark.parametrize("name", PLAYED)
def test_the_commands_of_a_page_run(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In an empty folder, one after another, with the files that the page shows."""
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)
    monkeypatch.chdir(tmp_path)
    if name == "override-a-number":  # it begins where the other page ends
        play((DOCS / "how-to" / "set-up-a-shop.md").read_text("utf-8"))
    assert play((DOCS / "how-to" / f"{name}.md").read_text("utf-8")) == PLAYED[name]


def test_a_shop_set_up_by_the_page_is_used(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Its own limit and its numbers are in force, and its currency stands on the plan."""
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)
    monkeypatch.chdir(tmp_path)
    play((DOCS / "how-to" / "set-up-a-shop.md").read_text("utf-8"))
    play((DOCS / "how-to" / "override-a-number.md").read_text("utf-8"))
    capsys.readouterr()
    assert main(["judge", "keys-through-the-door", "--shop", "my-shop", "--json"]) == 0
    verdict = json.loads(capsys.readouterr().out)
    own = {limit["id"]: limit["from"] for limit in verdict["limits"] if limit["from"] == "shop"}
    assert own == {"soot-in-place-max": "shop"}
    assert {each["of"] for each in verdict["overrides"]} == {"dp-rest-max", "front-hose-leaks"}
    assert main(["plan", "ash-after-motorway", "--shop", "my-shop", "--more"]) == 0
    assert "EUR" in capsys.readouterr().out


@pytest.mark.skipif(shutil.which("sh") is None, reason="no sh here")
def test_the_script_of_the_ci_page_runs(tmp_path: Path) -> None:
    """It passes on a shop whose packs are right, writes its XML, and fails after a slip."""
    page = (DOCS / "how-to" / "check-packs-in-ci.md").read_text("utf-8")
    script = next(part["text"] for part in PART.finditer(page) if part["file"])
    overrides = (DOCS / "how-to" / "override-a-number.md").read_text("utf-8")
    pack = next(part["text"] for part in PART.finditer(overrides) if part["file"])
    shop, bin_ = tmp_path / "shop", tmp_path / "bin"
    for folder in (shop / "packs", shop / "cases", bin_):
        folder.mkdir(parents=True)
    (shop / "shop.yaml").write_text("format: 1\n")
    (shop / "packs" / "shop-numbers.yaml").write_text(pack, encoding="utf-8")
    closed = (ROOT / "cases" / "hose-mended.yaml").read_text("utf-8") + OUTCOME
    (shop / "cases" / "hose-mended.yaml").write_text(closed, encoding="utf-8")
    (shop / "check-shop.sh").write_text(script, encoding="utf-8")
    program = bin_ / "sootsayer"
    program.write_text(f'#!/bin/sh\nexec {shlex.quote(sys.executable)} -m sootsayer "$@"\n')
    program.chmod(0o755)
    environment = {**os.environ, "PATH": f"{bin_}{os.pathsep}{os.environ['PATH']}"}
    environment.pop("SOOTSAYER_SHOP", None)

    def run() -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            ["sh", "check-shop.sh"], cwd=shop, env=environment,
            capture_output=True, text=True, check=False, timeout=300,
        )  # fmt: skip

    done = run()
    assert done.returncode == 0, done.stdout + done.stderr
    assert "<testsuite" in (shop / "rules-check.xml").read_text("utf-8")
    (shop / "packs" / "shop-numbers.yaml").write_text(pack.replace("was: 5", "was: 4"), "utf-8")
    assert run().returncode == 1


def shown() -> list[tuple[str, str]]:
    """Every command line of this program in a block of the documentation, with its page."""
    found = []
    for page in PAGES:
        if "handbook" in page.parts or page.name == "commands.md":  # made from the program itself
            continue
        name = page.relative_to(ROOT).as_posix()
        for block in BLOCK.findall(page.read_text("utf-8")):
            lines = [re.split(r" {2,}| [|>#;] ", line)[0] for line in TYPED.findall(block)]
            found += [(name, line) for line in lines]
    return found


def test_commands_are_shown() -> None:
    """The test below looks at many lines of many pages."""
    assert len(shown()) > 40
    assert len({page for page, _ in shown()}) > 10


@pytest.mark.parametrize(("page", "line"), sorted(set(shown())))
def test_a_command_that_a_page_shows_can_be_typed(page: str, line: str) -> None:
    """Its command, action and options are the program's: no page tells of one that is gone."""
    words = shlex.split(line)[1:]
    try:
        parser().parse_args(words)
    except Stop as refused:
        pytest.fail(f"{page}: {line}: {refused.what}")
    except SystemExit:  # argparse leaves so after --help; what is wrong raises Stop
        assert "--help" in words or "--version" in words


EXIT_CODES = (DOCS / "reference" / "exit-codes.md").read_text("utf-8")
EXAMPLES = re.findall(r"^\| `sootsayer ?(.*?)` \| (\d) \|", EXIT_CODES, re.MULTILINE)


@pytest.mark.parametrize(("line", "code"), EXAMPLES)
def test_exit_codes_are_as_the_page_says(
    line: str, code: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each example of the page ends with the code beside it."""
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)
    monkeypatch.chdir(tmp_path)
    assert main(shlex.split(line)) == int(code)


def test_the_page_of_exit_codes_names_what_says_no() -> None:
    """There are examples of both, and every command whose help speaks of a no is on the page."""
    assert {code for _, code in EXAMPLES} == {"0", "2"}
    said = EXIT_CODES.split("## When the answer is no")[1].split("##")[0]
    saying = {
        name.removeprefix("sootsayer ")
        for name, each in commands().items()
        if re.search(r"\b1 where|exit code is 1|code 1", " ".join((each.epilog or "").split()))
    }
    assert saying
    assert {name for name in saying if f"`{name}`" not in said} == set()
