"""Lines typed into real shells, with Tab pressed behind them."""

from __future__ import annotations

import os
import re
import shutil
import sys
from pathlib import Path

import pytest

if sys.platform == "win32":  # no terminals there that pexpect could open
    pytest.skip("needs a terminal of its own", allow_module_level=True)

import pexpect

# How a shell is begun so that nothing of the user's own comes in, and what it is told first.
START = {
    "bash": ["bash", "--norc", "--noprofile", "-i"],
    "zsh": ["zsh", "-f", "-i"],
    "fish": ["fish", "--no-config", "-i"],
}
# The program's name stands for a function that says what it was given: nothing is judged.
PREPARED = {
    "bash": "bind 'set bell-style none'; sootsayer() {{ echo \"GIVEN[$*]\"; }}; source {script}",
    "zsh": 'autoload -Uz compinit; compinit -u -D; sootsayer() {{ print -r -- "GIVEN[$*]"; }}; '
    "source {script}",
    "fish": 'function sootsayer; echo "GIVEN[$argv]"; end; source {script}',
}
SHELLS = [
    pytest.param(
        shell, marks=pytest.mark.skipif(shutil.which(shell) is None, reason=f"{shell} is missing")
    )
    for shell in START
]
WAIT = 20


class Typist:
    """A shell in which somebody types in the folder `where`."""

    def __init__(self, shell: str, script: Path, where: Path, home: Path) -> None:
        kept = {name: os.environ[name] for name in ("PATH", "LANG") if name in os.environ}
        environment = kept | {"HOME": str(home), "TERM": "dumb", "PS1": "$ ", "NO_COLOR": "1"}
        command, *options = START[shell]
        self.shell = pexpect.spawn(
            command, options, cwd=str(where), env=environment, encoding="utf-8",
            timeout=WAIT, dimensions=(24, 200),
        )  # fmt: skip
        self.shell.delaybeforesend = 0.1
        self.shell.sendline(PREPARED[shell].format(script=script) + "; echo REA''DY")
        self.shell.expect("READY")

    def tab(self, typed: str) -> str:
        """What stands on the line after Tab, as the program would be given it."""
        self.shell.send(typed + "\t")
        self.shell.delaybeforesend = 0.3
        self.shell.send("\n")
        self.shell.expect(r"GIVEN\[([^\]\r\n]*)\]")
        found = self.shell.match
        assert isinstance(found, re.Match)
        return str(found[1]).strip()

    def close(self) -> None:
        self.shell.close(force=True)
