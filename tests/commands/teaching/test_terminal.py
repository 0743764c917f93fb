"""A lesson in a real terminal of 80 by 24, with the shipped rules."""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path

import pytest

pytest.importorskip("pexpect")
if sys.platform == "win32":
    pytest.skip("needs a terminal of Unix", allow_module_level=True)

import pexpect

import sootsayer
from tests.commands.teaching.support import NEW_LOOK
from tests.rulebook.review.small import rule, small

PROMPT = r"(?<!-)> $"
SOURCE = str(Path(sootsayer.__file__).parents[1])


def begun(folder: Path) -> pexpect.spawn:
    """The program in a terminal, in an empty folder."""
    kept = {k: v for k, v in os.environ.items() if not k.startswith("SOOTSAYER")}
    return pexpect.spawn(
        sys.executable, ["-m", "sootsayer", "rules", "new"], cwd=str(folder),
        env=kept | {"PYTHONPATH": SOURCE, "NO_COLOR": "1"}, dimensions=(24, 80),
        encoding="utf-8", timeout=60,
    )  # fmt: skip


def told(child: pexpect.spawn, lines: list[str]) -> list[str]:
    """What the screen says up to each prompt, and after the last answer."""
    parts = []
    for line in lines:
        child.expect(PROMPT)
        parts.append(child.before)
        child.sendline(line)
    child.expect(pexpect.EOF)
    return [*parts, child.before]


def test_from_nothing_to_a_proven_rule(tmp_path: Path) -> None:
    """Each question fits on the screen with all that led to it; the program takes seconds."""
    began = time.monotonic()
    child = begun(tmp_path)
    answers = NEW_LOOK.replace("\nleak\n", "\nfront hose\n1\n").splitlines()
    answers[-1:] = ["", "show", ""]  # the folder as proposed, the file, and yes
    parts = told(child, ["?", *answers])
    child.close()
    assert child.exitstatus == 0
    assert all(len(part.splitlines()) <= 24 for part in parts[:-3])
    lines = [line for part in parts for line in part.splitlines() if "{" not in line]
    assert max(map(len, lines)) <= 80
    assert "\x1b" not in "".join(parts)
    assert "0 errors, 0 warnings" in parts[-1]
    assert "From the first question to a proven rule: under a minute." in parts[-1]
    assert (tmp_path / "my-shop" / "packs" / "shop-soot-at-clamp.yaml").is_file()
    assert time.monotonic() - began < 60


def test_ctrl_c_writes_nothing(tmp_path: Path) -> None:
    """Ctrl-C leaves with 130, and nothing was written."""
    child = begun(tmp_path)
    child.expect(PROMPT)
    child.sendline("There is soot at the clamp")
    child.expect(PROMPT)
    child.sendintr()
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 130
    assert "Nothing was written." in child.before
    assert list(tmp_path.iterdir()) == []


def test_watching_ends_with_ctrl_c(tmp_path: Path) -> None:
    """`rules check --watch` checks again when a pack is saved, and Ctrl-C ends it with 130."""
    pack = tmp_path / "small.yaml"
    pack.write_text(small(), encoding="utf-8")
    child = pexpect.spawn(
        sys.executable, ["-m", "sootsayer", "rules", "check", "--alone", str(tmp_path), "--watch"],
        env=os.environ | {"PYTHONPATH": SOURCE}, dimensions=(24, 80), encoding="utf-8", timeout=60,
    )  # fmt: skip
    child.expect("Nothing is wrong")
    child.expect("Watching 1 pack")
    pack.write_text(small(rule("odd", "{dp: {above: 200}}")), encoding="utf-8")
    child.expect("has changed")
    child.expect('"odd" can never be true')
    child.expect("0 notes")
    child.sendintr()
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 130
