"""Law 10. The same case, rulebook, shop settings and moment give the same bytes, everywhere.

Run as a program (`python -m tests.laws.test_law_10_same_bytes`) it writes the frozen verdict anew.
"""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

from sootsayer.casework.case_file import read_case
from sootsayer.commands.opened import as_text
from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict_json import as_json
from sootsayer.rulebook.compiled import load_rulebook
from sootsayer.rulebook.shipped import shipped_cases

GOLDEN = Path(__file__).parent / "golden"
FROZEN_AT = datetime(2031, 3, 14, 8, 20, tzinfo=UTC)
NAME = "leaking-front-hose"
AT = "2031-05-19T10:24+02:00"

# What machines differ in. "." is the folder in which a copy of the case lies.
WORLDS: dict[str, dict[str, str]] = {
    "hash 1, far east, C": {"PYTHONHASHSEED": "1", "TZ": "Pacific/Kiritimati", "LC_ALL": "C"},
    "hash 2, far west, UTF-8 mode": {
        "PYTHONHASHSEED": "2",
        "TZ": "Pacific/Pago_Pago",
        "LC_ALL": "C.UTF-8",
        "PYTHONUTF8": "1",
    },
    "hash 3, no locale, ASCII": {
        "PYTHONHASHSEED": "3",
        "TZ": "",
        "LANG": "",
        "PYTHONIOENCODING": "ascii",
        "PYTHONOPTIMIZE": "1",
        "COLUMNS": "40",
        "TERM": "dumb",
    },
}
# Both bytes in one process: the program's own for a demonstration case, and the frozen verdict's.
PROGRAM = """
import sys
from sootsayer.commands.main import main
sys.path.insert(0, {root!r})
code = main(["judge", {case!r}, "--json", "--at", {at!r}])
from tests.laws.test_law_10_same_bytes import frozen_text
sys.stdout.write(frozen_text())
sys.exit(code)
"""


def frozen_text() -> str:
    """The verdict on the frozen case, as the program prints it; the program's version left out."""
    book = load_rulebook([GOLDEN / "rules"])
    verdict = judge(read_case(GOLDEN / "case.yaml", book.model), book, now=FROZEN_AT, planning=True)
    return as_text(as_json(replace(verdict, program="any")))


def frozen_bytes_come_out_again() -> None:
    """The stored verdict of the frozen case, byte for byte."""
    assert frozen_text().encode() == (GOLDEN / "verdict.json").read_bytes()


def bytes_of(case: str, folder: Path, world: dict[str, str]) -> bytes:
    """What is printed in another process, in another world, for a case and the frozen one."""
    kept = {k: v for k, v in os.environ.items() if k in ("PATH", "PYTHONPATH", "SYSTEMROOT")}
    # The folders that this process finds its modules in, wherever the other one is run.
    paths = [world["PLANTED"]] if "PLANTED" in world else []  # a break, to see that it is seen
    paths += [str(Path(p).resolve()) for p in kept.get("PYTHONPATH", "").split(os.pathsep) if p]
    kept["PYTHONPATH"] = os.pathsep.join(paths)
    root = str(Path(__file__).parents[2])
    ended = subprocess.run(
        [sys.executable, "-c", PROGRAM.format(root=root, case=case, at=AT)],
        cwd=folder, env={**kept, **world}, capture_output=True, check=False, timeout=120,
    )  # fmt: skip
    assert (ended.returncode, ended.stderr) == (0, b""), ended.stderr.decode()
    return ended.stdout


def judged_twice_is_judged_once() -> None:
    """Within a process too: judged again later, the frozen case gives the same bytes."""
    assert frozen_text() == frozen_text()


def worlds_agree(folder: Path, worlds: list[dict[str, str]]) -> bytes:
    """The same bytes in every world: by the case's id, and by a copy's path from another folder."""
    (folder / "copy").mkdir(parents=True)
    copy = folder / "copy" / "my case.yaml"
    copy.write_bytes((shipped_cases() / f"{NAME}.yaml").read_bytes())
    places = [(NAME, folder), ("my case.yaml", copy.parent), (str(copy), Path("/"))]
    found = [bytes_of(*places[n % 3], world) for n, world in enumerate(worlds)]
    assert len(set(found)) == 1
    return found[0]


def test_same_bytes_in_every_world(tmp_path: Path) -> None:
    """Hash seeds, time zones, locales, encodings and folders change no byte of the JSON."""
    found = worlds_agree(tmp_path, list(WORLDS.values()))
    assert found.isascii()
    assert found.count(b'"format": 1') == 2
    assert found.endswith((GOLDEN / "verdict.json").read_bytes())


def test_same_bytes_from_a_kept_rulebook(tmp_path: Path) -> None:
    """A rulebook that was just read, one that was kept, and none kept at all: the same bytes."""
    keeping = {"SOOTSAYER_CACHE": str(tmp_path / "kept")}
    worlds_agree(tmp_path, [{"SOOTSAYER_CACHE": "off"}, keeping, keeping])
    assert len(list((tmp_path / "kept").glob("rulebook-*.json"))) == 1


def test_frozen_verdict_comes_out_again() -> None:
    """A frozen rulebook and case give the bytes that were stored with them."""
    frozen_bytes_come_out_again()
    judged_twice_is_judged_once()


def test_frozen_verdict_holds_what_could_vary() -> None:
    """The frozen case is about something: a zero, a near reading, codes, hiders, a family."""
    text = (GOLDEN / "verdict.json").read_text("utf-8")
    for part in ('"corrected"', '"zero": 12.0', '"borderline": true', "P2463", '"vehicle"'):
        assert part in text, part
    assert text.count('"confidence"') == 7


if __name__ == "__main__":
    (GOLDEN / "verdict.json").write_bytes(frozen_text().encode())
