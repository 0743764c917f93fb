"""Writes into the README what its commands print: `python tests/refresh_readme.py`.

A screen stands between `<!-- screen: ARGUMENTS -->` and `<!-- /screen -->`, as a text block.
"""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
import tempfile
from functools import cache
from pathlib import Path

import sootsayer

README = Path(__file__).parents[1] / "README.md"
WIDTH = 88
_SCREEN = re.compile(
    r"(<!-- screen: (?P<arguments>[^\n]+?) -->\n```text\n)(?P<text>.*?)(```\n<!-- /screen -->)",
    re.DOTALL,
)
_RUN = "import sys; from sootsayer.commands.main import main; sys.exit(main())"


@cache
def printed(arguments: str) -> str:
    """What `sootsayer ARGUMENTS` prints to no terminal, spaces at line ends left out.

    Runs in an empty folder, so that no shop's own settings take part. Raises
    CalledProcessError, with what it said, where the command fails.
    """
    plain = {"NO_COLOR": "1", "COLUMNS": str(WIDTH), "PYTHONIOENCODING": "utf-8"}
    # The very package that is imported here, though the command runs in another folder.
    plain["PYTHONPATH"] = str(Path(sootsayer.__file__).resolve().parents[1])
    kept = {k: v for k, v in os.environ.items() if not k.startswith("SOOTSAYER_")}
    with tempfile.TemporaryDirectory() as empty:
        done = subprocess.run(
            [sys.executable, "-c", _RUN, *shlex.split(arguments)],
            cwd=empty,
            env=kept | plain,
            stdin=subprocess.DEVNULL,
            capture_output=True,
            encoding="utf-8",
            check=False,
        )
    if done.returncode != 0:
        sys.stderr.write(done.stderr)
        done.check_returncode()
    return "".join(line.rstrip() + "\n" for line in done.stdout.strip("\n").splitlines())


def screens(text: str) -> dict[str, str]:
    """Arguments to the screen that the text shows for them."""
    return {found["arguments"]: found["text"] for found in _SCREEN.finditer(text)}


def refreshed(text: str) -> str:
    """The text with every screen as its command prints it now."""
    return _SCREEN.sub(lambda m: m[1] + printed(m["arguments"]) + m[4], text)


if __name__ == "__main__":
    README.write_text(refreshed(README.read_text(encoding="utf-8")), encoding="utf-8")
