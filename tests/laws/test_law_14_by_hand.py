"""Law 14. Rules never teach themselves: a number changes only by a person's hand.

Two ways round. What learns from cases is run over an archive that speaks against a number as
clearly as can be, and no file is touched and no verdict moves. And the source is read: nothing in
the rooms that judge or learn can write a file, but for the journal of a run, which holds no rule.
"""

from __future__ import annotations

import ast
import hashlib
from collections.abc import Iterator
from pathlib import Path

import pytest

from sootsayer.commands.main import main
from tests.laws.house_reader import imports
from tests.learning.archive.support import case_text, put

SRC = Path(__file__).parents[2] / "src" / "sootsayer"
ROOMS = ("engine", "belief", "physics", "interview", "advice", "judgement", "learning", "rulebook")
# The journal holds what was worked out of an archive, the kept rulebook what was read from packs:
# both can be thrown away, and no rule is in either that a person did not write.
WRITES = {"learning/archive/journal.py", "rulebook/kept_folder.py"}
WRITERS = ("sootsayer.documents.writing", "sootsayer.documents.holding")
METHODS = frozenset({"write_text", "write_bytes", "rename", "replace_file", "unlink", "touch"})

PACK = """\
pack: shop-odd
format: 1
title: A finding that is always seen
basis: {kind: memory}
signals:
  shop-odd:
    {label: Oddness, kind: number, unit: km, possible: [0, 9], step: 1, error: 0, lasts: visit}
checks:
  shop-look: {does: Look how odd it is, where: counter, minutes: 1, gives: [shop-odd]}
findings:
  shop-far:
    says: It is odd
    when: {shop-odd: {above: 1}}
    proofs:
    - {given: {shop-odd: 5}, then: true}
    - {given: {shop-odd: 1}, then: false}
    - {given: {}, then: unknown}
faults:
  shop-odd-fault: {label: Something odd, kind: cause, prior: 0.1}
evidence:
- {finding: shop-far, seen with: {shop-odd-fault: 0.97}, otherwise: 0.02}
"""


def writing(source: str, inside: Path) -> list[str]:
    """What in a module could write a file."""
    tree = ast.parse(source)
    found = [one.name for one in imports(tree, inside) if one.name.startswith(WRITERS)]
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute) and node.attr in METHODS:
            found.append(node.attr)
        if isinstance(node, ast.Call) and _opens_to_write(node):
            found.append("open")
    return found


def _opens_to_write(call: ast.Call) -> bool:
    name = call.func.attr if isinstance(call.func, ast.Attribute) else getattr(call.func, "id", "")
    modes = [*call.args, *(word.value for word in call.keywords if word.arg == "mode")]
    texts = [a.value for a in modes if isinstance(a, ast.Constant) and isinstance(a.value, str)]
    return name == "open" and any(set(t) <= set("rwabxt+") and set(t) & set("wax+") for t in texts)


def modules() -> Iterator[Path]:
    for room in ROOMS:
        yield from sorted((SRC / room).rglob("*.py"))


def test_nothing_that_learns_or_judges_writes() -> None:
    """No room below the commands has a way to a file, but the one journal."""
    found = {
        path.relative_to(SRC).as_posix()
        for path in modules()
        if writing(path.read_text(encoding="utf-8"), path.relative_to(SRC))
    }
    assert found == WRITES


@pytest.mark.parametrize(
    "source",
    [
        "from sootsayer.documents.writing import replace_file",
        "from pathlib import Path\nPath('x').write_text('y')",
        "open('x', 'w')",
        "from pathlib import Path\nPath('x').open(mode='r+b')",
    ],
)
def test_the_reader_sees_a_writer(source: str) -> None:
    """What writes would be found."""
    assert writing(source, Path("learning/made.py"))


def digests(folder: Path) -> dict[str, str]:
    return {
        str(path): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A shop whose closed cases all speak against a number of its own pack."""
    put(tmp_path, "shop.yaml", "format: 1\n")
    put(tmp_path, "packs/shop-odd.yaml", PACK)
    for i in range(24):
        text = case_text(f"case-{i}", (f"shop-odd: {i % 2 * 8}",), [])
        put(tmp_path, f"cases/case-{i}.yaml", text)
    return tmp_path


def test_no_run_changes_a_number(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Rates say what they found and propose it; files and verdicts stay as they were."""
    rules = SRC.parents[1] / "rules"
    before = digests(shop), digests(rules)
    judged = ["judge", str(shop / "cases/case-0.yaml"), "--shop", str(shop), "--json"]
    assert main(judged) == 0
    verdict = capsys.readouterr().out
    at = ["--shop", str(shop), "--processes", "1"]
    for argv in (
        ["rules", "rates", *at],
        ["rules", "rates", "--diff", *at],
        ["rules", "rates", "--json", *at],
        ["rules", "backtest", "shop-odd", *at],
    ):
        assert main(argv) == 0
        out = capsys.readouterr().out
        if "--diff" in argv:
            assert "of: shop-far, at: otherwise, was: 0.02, now: 0.5" in out
            assert "12 of 24" in out
    assert main(judged) == 0
    assert capsys.readouterr().out == verdict
    assert (digests(shop), digests(rules)) == before
