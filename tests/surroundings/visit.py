"""A visit from the first question to the outcome, by every main command, each a process of its own.

`steps` are the commands in an order in which each finds what the ones before have made. What they
say and write is compared between surroundings in which nothing of it should differ.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import sootsayer
from sootsayer.rulebook.shipped import shipped_cases

ROOT = Path(__file__).parents[2]
SOURCE = str(Path(sootsayer.__file__).parents[1])
AT = ("--at", "2031-03-14T09:00+01:00")
LATER = ("--at", "2031-03-14T11:00+01:00")
HEADER = "2.0 L panel van\n2,0\n4\n-\n180000\nno\nyes\n-\n-\n-\n"
HEADER = "2.0 L panel van\n2,0\n4\n-\n180000\nno\nyes\n-\n-\n-\n"
ANSWERS = HEADER + "dp@rest 18 mbar\nnote Ventil klemmt, heiß\n"
MORE = "oil-level between marks\n"
LESSON = """\
There is soot at the clamp
new
1
Soot at the clamp of the front hose
Look at the clamp with a lamp
3
4
Let the exhaust cool first; gloves
yes
front-hose-leaks
usually
none
rarely
3
shop-soot-at-clamp
yes
"""


@dataclass(frozen=True, slots=True)
class Step:
    """One command; `{shop}` in its arguments is the shop's folder. `writes`: files, as its task."""

    name: str
    arguments: tuple[str, ...]
    code: int = 0
    writes: bool = False
    by_the_clock: bool = False  # what it says holds the moment, so that no two runs say the same


VAN = "{shop}/cases/van.yaml"
PACK = "{shop}/packs/shop-soot-at-clamp.yaml"
DRAWN = ("--cases", "{shop}/drawn", "--synthetic")
STEPS = (
    Step("ask", ("ask", "--new", VAN, "--answers", "{shop}/answers.txt", *AT), writes=True),
    Step("ask by the clock", ("ask", "{shop}/cases/clock.yaml", "--answers", "{shop}/more.txt"),
         writes=True, by_the_clock=True),
    Step("judge by the clock", ("judge", "{shop}/cases/clock.yaml"), by_the_clock=True),
    Step("judge", ("judge", VAN, *LATER)),
    Step("judge --json", ("judge", VAN, "--json", *LATER)),
    Step("why", ("why", VAN, "drive-on", *LATER)),
    Step("plan", ("plan", VAN, *LATER)),
    Step("plan --new-shop", ("plan", "--new-shop", "{shop}/new-shop.yaml"), writes=True),
    Step("readings", ("readings", "{shop}/drive.csv", VAN, "--all", "--by", "tech-1", *LATER,
                      "--picture", "{shop}/drive.svg"), writes=True),
    Step("compare", ("compare", "{shop}/cases/estate.yaml", "--picture", "{shop}/compare.svg"),
         writes=True),
    Step("report", ("report", VAN, "-o", "{shop}/report.html", *LATER), writes=True),
    Step("records keep", ("records", "keep", VAN, "--by", "tech-1", "--as-advised", *LATER),
         writes=True, by_the_clock=True),
    Step("records verify", ("records", "verify"), by_the_clock=True),
    Step("records list", ("records", "list", "--json"), by_the_clock=True),
    Step("records replay", ("records", "replay"), by_the_clock=True),
    Step("records explain", ("records", "explain", "1", "-o", "{shop}/page.html"), writes=True,
         by_the_clock=True),
    Step("records outcome", ("records", "outcome", "1", "--by", "tech-1", "--faults", "none",
                             "--cured-by", "none", "--proved-by", "recheck"),
         writes=True, by_the_clock=True),
    Step("records export", ("records", "export", "{shop}/copy"), writes=True, by_the_clock=True),
    Step("cases list", ("cases", "list", "--all"), by_the_clock=True),
    Step("cases make", ("cases", "make", "--n", "2", "--seed", "1", "--processes", "1",
                        "--out", "{shop}/drawn"), writes=True),
    Step("rules check", ("rules", "check", "--junit", "{shop}/check.xml"), writes=True,
         by_the_clock=True),
    Step("rules show", ("rules", "show", "soot-overload", "--no-cases")),
    Step("rules new", ("rules", "new", "--answers", "{shop}/lesson.txt"), writes=True,
         by_the_clock=True),
    Step("rules rates", ("rules", "rates", *DRAWN)),
    Step("rules backtest", ("rules", "backtest", PACK, *DRAWN)),
)  # fmt: skip
BY_NAME = {step.name: step for step in STEPS}


@dataclass(frozen=True, slots=True)
class Ended:
    """How a command ended."""

    code: int
    out: bytes
    err: bytes


def yard(folder: Path) -> Path:
    """A new shop with a case, one from before and after the work, a log and files of answers."""
    for name in ("cases", "packs"):
        (folder / name).mkdir(parents=True)
    (folder / "shop.yaml").write_text("format: 1\nname: Hof Süd\n", encoding="utf-8")
    for name, text in (("answers", ANSWERS), ("more", MORE), ("lesson", LESSON)):
        (folder / f"{name}.txt").write_text(text, encoding="utf-8")
    header = "case: clock\nformat: 1\nvehicle: {label: 2.0 L panel van}\nentries:\n"
    (folder / "cases" / "clock.yaml").write_text(header, encoding="utf-8")
    shutil.copy(shipped_cases() / "logs" / "panel-van-drive.csv", folder / "drive.csv")
    estate = (shipped_cases() / "estate-before-and-after.yaml").read_bytes()
    (folder / "cases" / "estate.yaml").write_bytes(estate)
    return folder


def plain(home: Path, **more: str | None) -> dict[str, str]:
    """An environment with nothing in it but what starts Python, a home, and `more`; None takes
    a variable out."""
    kept = {name: os.environ[name] for name in ("PATH", "SYSTEMROOT") if name in os.environ}
    base = {"PYTHONPATH": SOURCE, "HOME": str(home), "PYTHONUTF8": "1", "TZ": "UTC"}
    if "SOOTSAYER_CACHE" in os.environ:
        base["SOOTSAYER_CACHE"] = os.environ["SOOTSAYER_CACHE"]
    return {name: value for name, value in {**kept, **base, **more}.items() if value is not None}


def ended(
    arguments: Sequence[str], environment: Mapping[str, str], cwd: Path, launch: Sequence[str] = ()
) -> Ended:
    """The program with these arguments; `launch` stands before Python where something must be
    done first. It ends well: no traceback, no fault of the program, a next action with each no."""
    command = [*launch, sys.executable, "-m", "sootsayer", *arguments]
    done = subprocess.run(
        [os.fsencode(part) for part in command], cwd=cwd, env=dict(environment),
        stdin=subprocess.DEVNULL, capture_output=True, timeout=240, check=False,
    )  # fmt: skip
    said = ascii(done.stderr.decode("utf-8", "replace"))
    assert "Traceback" not in said, (arguments, said)
    assert "a fault of sootsayer" not in said, (arguments, said)
    assert b"\x1b" not in done.stdout + done.stderr, (arguments, said)
    assert done.returncode in (0, 1, 2), (arguments, done.returncode, said)
    if done.returncode == 2:
        assert "\\u2192" in said or "->" in said, (arguments, said)
    # The machine's clock is told to the minute, and goes on between two runs.
    told = re.sub(rb"clock says [0-9: -]+,", b"clock says now,", done.stderr)
    return Ended(done.returncode, done.stdout, told)


def visited(
    shop: Path, environment: Mapping[str, str], *, here: str = ".", cwd: Path | None = None,
    launch: Sequence[str] = (), steps: Sequence[Step] = STEPS,
) -> dict[str, Ended]:  # fmt: skip
    """Every step, which must end as the table says; `here` is how its arguments name the shop."""
    told = {}
    for step in steps:
        arguments = [part.replace("{shop}", here) for part in step.arguments]
        if here != ".":
            arguments += ["--shop", here]
        done = ended(arguments, environment, cwd or shop, launch)
        assert done.code == step.code, (step.name, ascii(done.err.decode("utf-8", "replace")))
        told[step.name] = done
    return told


def written(shop: Path) -> dict[str, bytes]:
    """Every file of the shop that holds no moment of the clock; of the ledger what it says."""
    found = {}
    for path in sorted(shop.rglob("*")):
        name = path.relative_to(shop).as_posix()
        if path.is_file() and not name.startswith((".", "copy/", "records/.")):
            found[name] = path.read_bytes()
    for name in ("cases/clock.yaml", "page.html", "records/index.sqlite"):
        found.pop(name, None)
    if "records/ledger.jsonl" in found:
        found["records/ledger.jsonl"] = _without_the_clock(found["records/ledger.jsonl"])
    if "cases/van.yaml" in found:
        lines = found["cases/van.yaml"].splitlines()
        found["cases/van.yaml"] = b"\n".join(line for line in lines if b"outcome:" not in line)
    return found


def _without_the_clock(ledger: bytes) -> bytes:
    told = []
    for line in ledger.splitlines():
        body = json.loads(line)
        told.append(json.dumps(_less(body), sort_keys=True))
    return "\n".join(told).encode()


def _less(told: object) -> object:
    if isinstance(told, dict):
        clock = ("at", "digest", "previous", "of")
        return {name: _less(value) for name, value in told.items() if name not in clock}
    return [_less(each) for each in told] if isinstance(told, list) else told
