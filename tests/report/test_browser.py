"""The report in a real browser: silent, asking for nothing, not too wide, two pages in print."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.report.browser import HARNESS, MISSING, WHERE, console, pages_of, run, serving
from tests.report.making import USUAL, written

pytestmark = [pytest.mark.browser, pytest.mark.skipif(WHERE is None, reason=MISSING)]

BAD = """<!DOCTYPE html><html lang="en"><head><title>x</title></head><body>
<p style="width:2000px">wide</p><img src="/asked-for.png" alt="">
<script>console.log("spoke")</script>
</body></html>"""


@pytest.fixture(name="folder", scope="module")
def one_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("browser")


def seen(page: str) -> tuple[list[list[int]], list[str], list[str]]:
    """Of each frame its width, how wide the page is, how many elements stand out of it and how
    many things it asked for; the paths that the server was asked for; console messages."""
    with serving({"/harness": HARNESS, "/page": page}) as server:
        done = run("--virtual-time-budget=8000", "--dump-dom", server.url("/harness"))
        found = re.search(r"<title>seen ([^<]*)</title>", done.stdout)
        assert found is not None, done.stderr[-2000:]
        frames = [[int(part) for part in frame.split(":")] for frame in found.group(1).split()]
        return sorted(frames), server.asked, console(done.stderr)


def test_the_browser_sees_what_is_wrong() -> None:
    """A page that is too wide, asks for a picture and speaks to the console is seen to do so."""
    frames, asked, said = seen(BAD)
    assert [frame[0] for frame in frames] == [360, 1280]
    assert all(frame[1] >= 2000 and frame[2] > 0 and frame[3] == 1 for frame in frames)
    assert "/asked-for.png" in asked
    assert any("spoke" in line for line in said)


SEEN = (USUAL, "blocked-by-short-trips", "three-at-once", "asked-to-remove", "ash-after-motorway")
PRINTED = (
    (USUAL, "A4"),
    (USUAL, "letter"),
    ("ash-after-motorway", "A4"),
    ("broken-core", "letter"),
)


@pytest.mark.parametrize("case", SEEN)
def test_silent_alone_and_not_too_wide(case: str, folder: Path) -> None:
    """At 360 and 1,280 px: no overflow, no request but for the page itself, no console message."""
    frames, asked, said = seen(written(case, folder))
    assert [frame[0] for frame in frames] == [360, 1280]
    for width, wide, sticking_out, resources in frames:
        assert wide <= width
        assert sticking_out == 0
        assert resources == 0
    assert set(asked) == {"/harness", "/page"}
    assert said == []


@pytest.mark.parametrize(("case", "paper"), PRINTED)
def test_two_pages_in_print(case: str, paper: str, folder: Path) -> None:
    """A usual case prints on two pages, one for the customer and one for the file."""
    page = written(case, folder).replace("</style>", f"@page {{ size: {paper} }}</style>")
    pdf = folder / f"{case}-{paper}.pdf"
    with serving({"/page": page}) as server:
        done = run("--no-pdf-header-footer", f"--print-to-pdf={pdf}", server.url("/page"))
        assert server.asked == ["/page"], done.stderr[-2000:]
    assert pages_of(pdf) == 2
    assert console(done.stderr) == []


def test_a_sheet_alone_prints_on_one_page(folder: Path) -> None:
    """--customer and --file each print on one page."""
    for option in ("--customer", "--file"):
        pdf = folder / f"{option}.pdf"
        with serving({"/page": written(USUAL, folder, option)}) as server:
            run("--no-pdf-header-footer", f"--print-to-pdf={pdf}", server.url("/page"))
        assert pages_of(pdf) == 1
