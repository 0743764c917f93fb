"""`sootsayer completion`: what Tab offers, in the shells that are on this machine."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

from sootsayer.commands.completing.table import KINDS, OF_ID, Word, table
from sootsayer.commands.completion import SHELLS as ALL
from sootsayer.commands.main import COMMANDS, main, parser
from sootsayer.rulebook.shipped import shipped_cases, shipped_rules
from tests.commands.reference import commands

TABLE = table(parser())
PACK = """\
pack: shop-own
findings:
  shop-soot-at-clamp:
    says: There is soot at the clamp
"""


def shop(folder: Path) -> Path:
    """A shop's folder with a case and a pack of its own, and two files that mean harm."""
    mine = folder / "my shop"
    for name in ("cases", "packs"):
        (mine / name).mkdir(parents=True)
    (mine / "shop.yaml").write_text("format: 1\n", encoding="utf-8")
    (mine / "packs" / "shop-own.yaml").write_text(PACK, encoding="utf-8")
    for name in ("2031-zz-a", "people", "2031-zz-$(touch pwned)", "2031-zz-\x1b[31m"):
        (mine / "cases" / f"{name}.yaml").write_text("", encoding="utf-8")
    return mine


def printed(shell: str, capsys: pytest.CaptureFixture[str]) -> str:
    assert main(["completion", shell]) == 0
    return capsys.readouterr().out


def test_every_word_of_the_command_line_is_in_the_table() -> None:
    """Every command, action and option can be completed, where it may stand."""
    for name, each in commands().items():
        path = name.removeprefix("sootsayer").strip()
        here = {word.word for word in TABLE if word.path == path}
        options = {option for action in each._actions for option in action.option_strings}
        assert options <= here
    assert set(COMMANDS) == {w.word for w in TABLE if (w.path, w.what) == ("", "command")}


def test_every_kind_of_value_is_decided_on() -> None:
    """No argument takes its kind by accident: what help names is in a list, and used."""
    names = {str(each.metavar) for parsed in commands().values() for each in parsed._actions}
    assert set(KINDS) <= names
    assert {word.value.rstrip("*") for word in TABLE} >= {"case", "id", "pack", "shop", "file"}
    assert Word("judge", "place", "CASE", "case", "path of a case file, or an id") in TABLE
    assert set(OF_ID) <= {each.dest for parsed in commands().values() for each in parsed._actions}


@pytest.mark.parametrize("shell", ALL)
def test_the_script_holds_the_table_and_the_folders(
    shell: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Each script is whole: no gap is left in its template, and nothing in it starts Python."""
    text = printed(shell, capsys)
    assert not re.search(r"@[A-Z]+@", text)
    assert str(shipped_rules()) in text
    assert str(shipped_cases()) in text
    assert all(word.line().split("'")[0] in text for word in TABLE)
    for folder in (shipped_rules(), shipped_cases()):  # which may stand below a python3.11
        text = text.replace(str(folder), "")
    assert "python" not in text.lower()


def test_ids_of_the_packs_are_found_by_their_place() -> None:
    """What the scripts take for an id by its indentation is one: the packs keep to it."""
    from sootsayer.console.handbook import everything
    from sootsayer.rulebook.compiled import load_rulebook

    template = Path(main.__code__.co_filename).parent / "completing" / "template.bash"
    sections = re.search(r"id\) _sootsayer_ids '(.*?)'", template.read_text("utf-8"))
    assert sections is not None
    found, inside = set(), False
    for pack in shipped_rules().glob("*.yaml"):
        for line in pack.read_text("utf-8").splitlines():
            if re.match("[a-z]", line):
                inside = re.match(f"({sections[1]}):", line) is not None
            elif inside and (each := re.match("  ([a-z0-9][a-z0-9-]*):", line)):
                found.add(each[1])
    every = set(everything(load_rulebook([shipped_rules()]).model))
    assert found <= every
    rest = {each for each in every - found if not re.fullmatch(r"[PU][0-9A-F]{4}|\d+", each)}
    assert len(rest) < 20, rest  # points


def test_bash_offers_no_name_that_could_do_harm(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A file whose name is a command or holds an escape is not offered, and nothing runs."""
    script = tmp_path / "script"
    script.write_text(printed("bash", capsys), encoding="utf-8")
    mine = shop(tmp_path)
    asked = (
        'source "$1"; COMP_WORDS=(sootsayer judge 2031-); COMP_CWORD=2; _sootsayer; '
        'printf "%s\\n" "${COMPREPLY[@]}"'
    )
    done = subprocess.run(
        ["bash", "--norc", "-c", asked, "bash", str(script)],
        cwd=mine / "cases", capture_output=True, text=True, check=True, timeout=60,
    )  # fmt: skip
    assert done.stdout == "2031-zz-a\n"
    assert not list(tmp_path.rglob("pwned"))


def test_an_unknown_shell_is_told_which_there_are(capsys: pytest.CaptureFixture[str]) -> None:
    """Another shell is wrong usage, with those that there are."""
    assert main(["completion", "tcsh"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert all(shell in err for shell in ALL)
    assert "sootsayer completion --help" in err
