"""A small world to break things in: a rulebook with one of everything, cases, a shop, a ledger.

The rulebook stands where the shipped one does, so that an input costs milliseconds; all else is the
program as it is.
"""

from __future__ import annotations

import io
import os
import shutil
from collections.abc import Callable, Sequence
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from datetime import UTC, datetime, tzinfo
from pathlib import Path

import pytest

from sootsayer.commands import clock, opened
from sootsayer.commands import main as program
from sootsayer.commands.usage import Parser
from sootsayer.rulebook import shipped
from sootsayer.rulebook.compiled import Rulebook

ROOT = Path(__file__).parents[2]
GOLDEN = ROOT / "tests" / "rulebook"
AT = "2031-03-14T12:00+01:00"
ENTRY = "- {at: 2031-03-14T09:%02d+01:00, by: tech-1, "
HEAD = """\
case: %s
format: 1
story: "Invented: a van in two rounds."
vehicle: {label: 2.0 L panel van, engine litres: 2.0, cylinders: 4, filter litres: 2.8, odometer km: 84012, fitted: {additive: no, reductant: unknown}}
limits: {dp-raised: 10 mbar}
entries:
"""  # noqa: E501
FIRST = (
    ENTRY % 2 + "round: arrival, source: customer, facts: {power-loss: gradual, attempts: 4}}\n"
    + ENTRY % 5 + "round: arrival, source: scan, facts: {dp@rest: 12 hPa, dp@idle: 2.4 kPa, "
    "air@idle: 60, exhaust-heat@idle: 180}, "
    "codes: {read: complete, list: [P2463], monitors: run}}\n"
    + ENTRY % 7 + "round: arrival, source: gauge, facts: {dp@2500: 0.75 psi, outside: 1000}}\n"
    + ENTRY % 8 + "round: arrival, none: {ash: cannot, air@2500: do not know, size: not fitted}}\n"
    + ENTRY % 9 + "corrects: 2, facts: {dp@idle: 25 hPa}}\n"
    + ENTRY % 10 + "round: arrival, facts: {oil-smells: no}}\n"
)  # fmt: skip
SECOND = (
    ENTRY % 30 + "work: zero-sensor}\n"
    + ENTRY % 31 + 'note: "The plug was green inside: dried."}\n'
    + ENTRY % 40 + "round: after-zero, source: scan, facts: {dp@rest: 0, dp@idle: 7, air@idle: 61, "
    "dp@2500: 30, exhaust-heat@idle: 175}}\n"
)  # fmt: skip
CLOSED = (
    ENTRY % 50 + "outcome: {faults: [sensor-stuck], cured by: [zero-sensor], proved by: recheck}}\n"
)
CASES = {
    "van": HEAD % "van" + FIRST,
    "two-rounds": HEAD % "two-rounds" + FIRST + SECOND,
    "closed": HEAD % "closed" + FIRST + SECOND + CLOSED,
    "short": "case: short\nformat: 1\nvehicle: {label: van}\nentries:\n" + ENTRY % 2 + "note: x}\n",
}
OWN = HEAD % "own" + FIRST + SECOND
PEOPLE = (
    'format: 1\npeople:\n  "van": {name: "A. Customer", plate: "XX 000", chassis number: "0000"}\n'
)


class Still(datetime):
    """A clock that stands, so that an input is the same at any time."""

    @classmethod
    def now(cls, tz: tzinfo | None = None) -> Still:
        return cls(2031, 3, 14, 11, 0, tzinfo=tz or UTC)

    def astimezone(self, tz: tzinfo | None = None) -> Still:
        return super().astimezone(tz or UTC)


@dataclass(frozen=True, slots=True)
class World:
    """What there is to spoil: names to bytes, each as its folder holds it."""

    pack: bytes
    shop: bytes
    shop_pack: bytes
    words: bytes
    cases: dict[str, bytes]
    people: bytes
    logs: tuple[bytes, ...]
    ledger: dict[str, bytes]
    kept: dict[str, bytes]
    own: bytes
    judged: str


def world(place: Path, patch: pytest.MonkeyPatch) -> World:
    """The world, in a new folder; the program takes its rules and cases for the shipped ones."""
    place.mkdir()
    rules, cases = place / "rules", place / "cases"
    shutil.copytree(ROOT / "rules" / "schema", rules / "schema")
    words = GOLDEN / "golden_words" / "words"
    shutil.copytree(words, rules / "words")
    pack = (GOLDEN / "golden" / "one-of-everything.yaml").read_text("utf-8")
    # Without it `rules check` calls an interlock one that nothing clears, and no lesson is kept.
    pack = pack.replace("gives: [dp@idle, dp@2500]", "gives: [dp@idle, dp@2500, air@idle]")
    (rules / "one-of-everything.yaml").write_text(pack, encoding="utf-8")
    cases.mkdir()
    for name, text in CASES.items():
        (cases / f"{name}.yaml").write_text(text, encoding="utf-8")
    patch.setattr(shipped, "_shipped", lambda name: place / name)
    patch.setenv("SOOTSAYER_CACHE", str(place / "cache"))
    patch.setattr(clock, "datetime", Still)
    _parsers_kept(patch)
    judged = said_of(["judge", "van"])  # keeps the compiled rulebook
    _rulebook_kept(place, patch)
    return World(
        pack=(rules / "one-of-everything.yaml").read_bytes(),
        shop=(GOLDEN / "golden_shop" / "shop.yaml").read_bytes(),
        shop_pack=(GOLDEN / "golden_shop" / "packs" / "shop-own.yaml").read_bytes(),
        words=(rules / "words" / "xx" / "one-of-everything.yaml").read_bytes(),
        cases={name: text.encode() for name, text in CASES.items()},
        people=PEOPLE.encode(),
        logs=_logs(),
        ledger=_ledger(place),
        kept=_files(place / "cache"),
        judged=judged,
        own=OWN.encode(),
    )


def _rulebook_kept(place: Path, patch: pytest.MonkeyPatch) -> None:
    """The rulebook that nothing is done to is opened once, as a run that goes on would."""
    load = opened.load_rulebook
    book = load([place / "rules"])

    def loaded(folders: Sequence[Path]) -> Rulebook:
        return book if list(folders) == [place / "rules"] else load(folders)

    patch.setattr(opened, "load_rulebook", loaded)


def rulebook_opened_each_time(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(opened, "load_rulebook", _LOAD)


def _parsers_kept(patch: pytest.MonkeyPatch) -> None:
    """The command line in English is described once and not for each input: half of what a refused
    file costs. Fuzzed command lines have it made each time."""
    made = program.parser()
    patch.setattr(program, "parser", lambda *_: made)


def parser_made_each_time(patch: pytest.MonkeyPatch) -> None:
    patch.setattr(program, "parser", _PARSER)


_LOAD: Callable[[Sequence[Path]], Rulebook] = opened.load_rulebook
_PARSER: Callable[..., Parser] = program.parser


def _logs() -> tuple[bytes, ...]:
    """A shortened log of each form: semicolons with decimal commas, commas, tabs, no head."""
    lines = (ROOT / "cases" / "logs" / "panel-van-drive.csv").read_text("utf-8").splitlines()
    head, rows = lines[:4], lines[4:44]
    german = "\n".join([*head, *rows]) + "\n"
    commas = "\n".join(
        ["Time [s],Engine speed [rpm],Differential pressure [mbar],Air [kg/h]"]
        + [f"{n},{800 + n % 3},{14 + n % 4}.5,{48 + n % 5}" for n in range(30)]
    )
    tabs = german.replace(";", "\t").replace(",", ".")
    return german.encode(), (commas + "\n").encode(), tabs.encode(), german.encode("utf-16")


def _ledger(place: Path) -> dict[str, bytes]:
    """Two verdicts and an outcome, kept by the program itself."""
    folder, copied = place / "ledger", place / "own.yaml"
    copied.write_text(OWN, encoding="utf-8")
    common = ["--by", "tech-1", "--ledger", str(folder)]
    for arguments in (
        ["records", "keep", "van", *common],
        ["records", "keep", str(copied), *common],
        ["records", "outcome", "2", "--faults", "sensor-stuck", "--cured-by", "zero-sensor",
         "--proved-by", "recheck", "--case", str(copied), *common],
    ):  # fmt: skip
        said_of(arguments)
    copied.unlink()
    return _files(folder)


def said_of(arguments: Sequence[str]) -> str:
    """What the program says where nothing is spoiled."""
    said = io.StringIO()
    with redirect_stdout(said), redirect_stderr(said):
        code = program.main(arguments)
    assert code == 0, said.getvalue()
    return said.getvalue()


def _files(folder: Path) -> dict[str, bytes]:
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not path.name.endswith(".sqlite")
    }


def lay(folder: Path, files: dict[str, bytes]) -> None:
    """These files and nothing else in the folder."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    for name, data in files.items():
        path = folder / name
        if os.sep in name:
            path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
