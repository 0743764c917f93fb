"""A demonstration visit in French, from the questions to the report, as a technician types it.

After a wanted change: `python -m tests.words.visit_pages`, then read the difference
(`git diff tests/words/visit`) as a technician would who speaks French, and commit it with the
change.
"""

from __future__ import annotations

import contextlib
import io
import os
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path
from unittest import mock

from sootsayer.catalogue import speaking
from sootsayer.commands.main import main

PAGES = Path(__file__).parent / "visit"
LOG = Path(__file__).parents[2] / "cases" / "logs" / "panel-van-drive.csv"
AT = ("--at", "2031-03-14T09:00+01:00")
CASE = """\
case: fourgon
format: 1
vehicle: {label: Fourgon 2.0 L, engine litres: 2.0, cylinders: 4, filter litres: 2.8}
entries:
"""
# Questions in their order first, then facts by name and by what they are called in French.
ANSWERS = """\
non
aucun
entre les repères
ne sait pas
plus tard
longueur habituelle d'un trajet 6 km
dp au ralenti 12,5 mbar
dp@rest 1 mbar ; dp@2500 112 mbar ; régime moteur à 2 500 tr/min 2 500 tr/min
outil : air à 2500 520 mg/coup
soot-shown 37 g ; soot-measured 41 g ; km-since-burn 1 380 km
codes P2463
oui
oui
impossible : pas d'outil
changer trip-length 5,5 km
oublier trip-length
longueur habituelle d'un trajet 6 km
note durite amont un peu molle
?
??
réponses
pourquoi short-trip-duty
fini
"""
COMMANDS = {
    "ask": ("ask", "fourgon.yaml", "--answers", "réponses.txt", *AT),
    "judge": ("judge", "fourgon.yaml", *AT),
    "why": ("why", "fourgon.yaml", "short-trip-duty", *AT),
    "plan": ("plan", "fourgon.yaml", *AT),
    "compare": ("compare", "estate-before-and-after"),
    "readings": ("readings", "trajet.csv"),
    "report": ("report", "fourgon.yaml", *AT),
}
WIDTHS = (80, 50)


class Terminal(io.StringIO):
    """A stream that says it is a terminal; so a page is as wide as the terminal is."""

    def isatty(self) -> bool:
        return True

    @property
    def encoding(self) -> str:  # type: ignore[override]
        return "utf-8"


def pages(width: int) -> dict[str, str]:
    """What each command of the visit prints on a terminal of this width, the errors too."""
    with tempfile.TemporaryDirectory() as folder, _inside(Path(folder), width):
        Path("fourgon.yaml").write_text(CASE, encoding="utf-8")
        Path("réponses.txt").write_text(ANSWERS, encoding="utf-8")
        Path("trajet.csv").write_bytes(LOG.read_bytes())
        return {name: _printed(*words, "--language", "fr") for name, words in COMMANDS.items()}


@contextlib.contextmanager
def _inside(folder: Path, width: int) -> Iterator[None]:
    """In this folder, with a plain terminal of this width and no shop of the machine."""
    plain: Mapping[str, str] = {"COLUMNS": str(width), "NO_COLOR": "1", "TERM": "dumb"}
    kept = {name: value for name, value in os.environ.items() if not name.startswith("SOOTSAYER_")}
    before = Path.cwd()
    with mock.patch.dict(os.environ, {**kept, **plain}, clear=True), speaking("en"):
        os.chdir(folder)
        try:
            yield
        finally:
            os.chdir(before)


def _printed(*words: str) -> str:
    out = Terminal()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(out):
        code = main(list(words))
    return f"{out.getvalue()}[{code}]\n"


def file_of(name: str, width: int) -> Path:
    """Where a page is kept."""
    return PAGES / (f"{name}.txt" if width == WIDTHS[0] else f"{name}-{width}.txt")


def refresh() -> None:
    """Write every page as it is now."""
    PAGES.mkdir(exist_ok=True)
    for old in PAGES.glob("*.txt"):
        old.unlink()
    for width in WIDTHS:
        for name, text in pages(width).items():
            file_of(name, width).write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    refresh()
