"""Runs the commands of the pages under docs/tutorial, and writes what they print into them.

After a wanted change: `python -m tests.commands.tutorial`, then read the difference as a newcomer
would, and commit it with the change.
"""

from __future__ import annotations

import contextlib
import io
import os
import re
import tempfile
from pathlib import Path

from sootsayer.commands.main import main

TUTORIAL = Path(__file__).parents[2] / "docs" / "tutorial"
FIRST_VEHICLE, PAGE = TUTORIAL / "first-vehicle.md", TUTORIAL / "first-rule.md"
BLOCK = re.compile(r"```text\n\$ (.*?)\n(.*?)```", re.DOTALL)
ANSWER = re.compile(r"^> (.*)$", re.MULTILINE)
EDIT = re.compile(r"\$ sed -i 's/(.*)/(.*)/' (\S+)")
TYPED = re.compile(r"^(?:[a-z][^>\n]*)?> (.*)$", re.MULTILINE)  # behind a prompt that has a name
# Commands on one case are run at this moment, so that no page changes with the clock.
ON_A_CASE = ("ask", "why", "plan", "report")
MOMENT = "2031-03-14T09:02+01:00"
SECONDS = re.compile(r"^\d+\.\d s\.$", re.MULTILINE)


def played(page: str) -> str:
    """The page with what its commands print now, each run where the one before left off."""
    before = Path.cwd()
    shop = os.environ.pop("SOOTSAYER_SHOP", None)
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        try:
            return BLOCK.sub(lambda found: _block(found[1], found[2]), page)
        finally:
            os.chdir(before)
            if shop is not None:
                os.environ["SOOTSAYER_SHOP"] = shop


def _block(command: str, was: str) -> str:
    words = command.split()
    if words[0] == "sed":
        _, pattern, file = words[1], command.split("'")[1], words[-1]
        old, new = pattern.removeprefix("s/").removesuffix("/").split("/")
        path = Path(file)
        text = path.read_text(encoding="utf-8")
        assert old in text
        path.write_text(text.replace(old, new), encoding="utf-8")
        return f"```text\n$ {command}\n```"
    for asking, typed in ((["rules", "new"], ANSWER), (["ask"], TYPED)):
        if words[1 : 1 + len(asking)] == asking:
            answers = Path(tempfile.mkdtemp()) / "answers.txt"
            answers.write_text("\n".join(each or "-" for each in typed.findall(was)), "utf-8")
            words += ["--answers", str(answers)]
    if words[1] in ON_A_CASE:
        words += ["--at", MOMENT]
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        assert main(words[1:]) in (0, 1, 2), command
    printed = SECONDS.sub("0.3 s.", out.getvalue())
    return f"```text\n$ {command}\n{printed}```"


def refresh() -> None:
    for page in (FIRST_VEHICLE, PAGE):
        page.write_text(played(page.read_text(encoding="utf-8")), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    refresh()
