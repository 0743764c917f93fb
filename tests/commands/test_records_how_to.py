"""The how-to on records: its commands run, and the head can be signed as it says."""

from __future__ import annotations

import re
import shlex
import shutil
import subprocess
from pathlib import Path

import pytest

from sootsayer.commands.main import main
from sootsayer.commands.records import ACTIONS

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "how-to" / "keep-records.md").read_text(encoding="utf-8")
COMMANDS = re.findall(r"^\$ sootsayer (.*)$", PAGE, re.MULTILINE)
BLOCKS = re.findall(r"```sh\n(.*?)```", PAGE, re.DOTALL)


def test_commands_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """One after another, in a folder of their own, they do what they are shown for."""
    monkeypatch.chdir(tmp_path)
    assert len(COMMANDS) == 6
    for command in COMMANDS:
        assert main(shlex.split(command)) == 0, command
    assert main(shlex.split("records verify --ledger for-the-assessor")) == 0


def test_every_action_is_told_of() -> None:
    """No action is left out of the page."""
    for action in ACTIONS:
        assert f"records {action}" in PAGE


@pytest.mark.skipif(shutil.which("ssh-keygen") is None, reason="OpenSSH is not installed")
def test_the_head_can_be_signed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    """The page's own lines sign the head and check it; a changed head is refused."""
    monkeypatch.chdir(tmp_path)
    assert main(shlex.split(COMMANDS[0])) == 0
    capfd.readouterr()
    assert main(["records", "verify", "--json"]) == 0
    head = Path("head.json")
    head.write_text(capfd.readouterr().out)
    make = ["ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-f", "key"]
    subprocess.run(make, check=True, capture_output=True)
    sign, check = BLOCKS
    sign = sign.splitlines()[1].replace("~/.ssh/id_ed25519", "key")
    subprocess.run(shlex.split(sign), check=True, capture_output=True)
    public = Path("key.pub").read_text().split()
    Path("signers").write_text(f"tech-1 {public[0]} {public[1]}\n")
    words = shlex.split(check)
    command, file = words[: words.index("<")], words[-1]
    for changed, code in ((False, 0), (True, 255)):
        data = Path(file).read_bytes() + (b" " if changed else b"")
        done = subprocess.run(command, input=data, capture_output=True, check=False)
        assert (done.returncode == 0) == (code == 0)
