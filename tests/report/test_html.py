"""The HTML: valid, whole in itself, readable, and closed to whatever a case holds."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from sootsayer.commands.main import main
from sootsayer.report.style import CSS, PAIRS
from tests.report.making import CASES, USUAL, made, written

html5lib = pytest.importorskip("html5lib")

HOSTILE = [
    "<script>alert(1)</script>",
    "</title></style></svg><img src=x onerror=alert(1)>",
    "&lt;b&gt; &amp; &#60;i&#62; &quot;",
    '" onmouseover="alert(1)" x=\'',
    "{case} {0} %s {{",
    "javascript:alert(1)//]]>--><!--",
]
ENTRY = (
    "- {at: 2031-06-02T09:00+02:00, by: tech-1, round: arrival, source: scan, "
    "facts: {dp@rest: 1, dp@idle: 40, air@idle: 48 kg/h, exhaust-temperature@idle: 150 C, "
    "coolant@idle: 85 C}}"
)
LATER = ENTRY.replace("T09", "T12").replace("arrival", "later").replace("dp@idle: 40", "dp@idle: 9")


@pytest.fixture(name="folder", scope="module")
def one_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("reports")


def parsed(page: str) -> Any:
    """The tree; raises for anything that HTML5 calls a parse error."""
    return html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(page)


def test_the_validator_can_fail() -> None:
    """The strict parser refuses what is no HTML."""
    with pytest.raises(html5lib.html5parser.ParseError):
        parsed("<!DOCTYPE html><title>x</title><p><b>a</p></b><table><p>")


@pytest.mark.parametrize("case", CASES)
def test_valid_and_whole_in_itself(case: str, folder: Path) -> None:
    """Valid HTML5, under 300 kB, without script, and without a name of anything to fetch."""
    page = written(case, folder)
    tree = parsed(page)
    assert len(page.encode()) < 300_000
    names = {element.tag for element in tree.iter() if isinstance(element.tag, str)}
    assert not names & {"script", "iframe", "object", "embed", "img", "form", "base", "audio"}
    for element in tree.iter():
        for key, value in element.attrib.items():
            assert not str(key).startswith("on")
            if str(key).split("}")[-1] in {"src", "href", "srcset", "action", "data"}:
                assert value == "data:,"
    assert not re.search(r"url\(|@import|expression\(", page)


@pytest.mark.parametrize("options", [(), ("--customer",), ("--file",)])
def test_a_screen_reader_finds_its_way(options: tuple[str, ...], folder: Path) -> None:
    """Language, title, one main part, articles named by their heading, headings in order, tables
    with caption and scope, pictures with a name."""
    tree = parsed(written(USUAL, folder, *options))
    assert tree.get("lang") == "en"
    assert tree.findtext("head/title")
    assert len(tree.findall(".//main")) == 1
    ids = [element.get("id") for element in tree.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    articles = tree.findall(".//article")
    assert len(articles) == (2 if not options else 1)
    for article in articles:
        levels = [e.tag for e in article.iter() if re.fullmatch(r"h[1-6]", str(e.tag))]
        assert levels[0] == "h1"
        assert set(levels[1:]) == {"h2"}
        assert article.get("aria-labelledby") in ids
    for table in tree.findall(".//table"):
        assert table.findtext("caption")
        assert all(head.get("scope") in {"col", "row"} for head in table.iter("th"))
    pictures = [e for e in tree.iter() if str(e.tag).endswith("svg")]
    assert len(pictures) == (0 if options == ("--customer",) else 1)
    for svg in pictures:
        assert svg.get("role") == "img"
        assert any(str(e.tag).endswith("title") and e.text for e in svg)


@pytest.mark.parametrize("text", HOSTILE)
def test_texts_of_a_case_stay_texts(text: str, tmp_path: Path, folder: Path) -> None:
    """Label, story, note and story come out as the text that they are, and change no markup."""
    quoted = "'" + text.replace("'", "''") + "'"
    note = f"- {{at: 2031-06-02T09:05+02:00, by: tech-1, note: {quoted}}}"
    hostile = parsed(_report(tmp_path, "a", quoted, note, quoted))
    plain_note = "- {at: 2031-06-02T09:05+02:00, by: tech-1, note: 'n'}"
    plain = parsed(_report(tmp_path, "b", "'n'", plain_note, "'n'"))
    shape = [[str(e.tag) for e in tree.iter()] for tree in (hostile, plain)]
    assert shape[0] == shape[1]
    said = " ".join(hostile.itertext())
    assert said.count(text) >= 4  # heading, line below, story, note
    del folder


def _report(folder: Path, name: str, label: str, note: str, story: str) -> str:
    path = made(folder, ENTRY, note, LATER, label=label, story=story)
    out = folder / f"{name}.html"
    assert main(["report", path, "-o", str(out)]) == 0
    return out.read_text(encoding="utf-8")


def test_direction_and_control_characters_are_written_out(tmp_path: Path) -> None:
    """What could turn the order of reading round, hide text or steer a printer is made visible."""
    note = "- {at: 2031-06-02T09:05+02:00, by: tech-1, note: 'paid\u202e051\u202c \u200bhere'}"
    page = _report(tmp_path, "c", "van", note, "'plain'")
    assert "\u202e" not in page
    assert "\u200b" not in page
    assert "\\u202e051\\u202c" in page
    assert not re.search("[\x00-\x08\x0b-\x1f\x7f-\x9f]", page)


def luminance(colour: str) -> float:
    """Relative luminance (WCAG 2.2, definition)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio (WCAG 2.2, definition): 1 to 21."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_is_the_published_one() -> None:
    """Black on white is 21, and #767676 on white the well-known first grey that passes 4.5."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.01)
    assert contrast("#777777", "#ffffff") < 4.5


def test_text_stands_out() -> None:
    """Every text colour on every ground that it stands on: at least 4.5 to 1 (WCAG 2, 1.4.3)."""
    for ink, paper in PAIRS:
        assert contrast(ink, paper) >= 4.5, (ink, paper)
    used = set(re.findall(r"#[0-9a-f]{6}", CSS))
    assert used == {colour for pair in PAIRS for colour in pair}


def test_pictures_stand_out(folder: Path) -> None:
    """Ink and accent of the pictures as well; rules and shades carry no text."""
    svg = re.search(r"<svg.*?</svg>", written(USUAL, folder), re.DOTALL)
    assert svg is not None
    texts = re.findall(r"<text[^>]*>", svg.group())
    assert texts
    assert not any("fill=" in text for text in texts)  # all in the ink of the picture
    ink = re.search(r'fill="(#[0-9a-f]{6})" role', svg.group())
    assert ink is not None
    assert contrast(ink.group(1), "#ffffff") >= 4.5
