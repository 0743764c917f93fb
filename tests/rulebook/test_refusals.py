"""Everything that is wrong with a pack is said: what, where, and what would be right."""

from __future__ import annotations

from pathlib import Path

import pytest

from sootsayer.documents.problems import Refused
from sootsayer.rulebook.compiled import load_rulebook
from tests.rulebook.bad_packs import FIRST_LINE, GOLDEN, HEAD, examples, problems_of, said

EXAMPLES = examples()


def test_examples_are_there() -> None:
    """The table of bad packs is read, and each says something."""
    assert len(EXAMPLES) > 80
    assert all(expected for _, expected in EXAMPLES.values())


@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_a_bad_pack_is_refused_in_plain_words(name: str, tmp_path: Path) -> None:
    """Each bad pack is refused with exactly these problems, each at its place."""
    text, expected = EXAMPLES[name]
    assert [said(each, tmp_path) for each in problems_of(tmp_path, {"bad": text})] == expected


def test_problems_quote_their_line(tmp_path: Path) -> None:
    """A problem carries the line it stands in."""
    line = "  most: {label: Most, default: much}"
    (problem,) = problems_of(tmp_path, {"bad": f"{HEAD}limits:\n{line}\n"})
    assert (problem.line, problem.place.line) == (line, FIRST_LINE + 1)


def test_all_problems_come_in_one_run(tmp_path: Path) -> None:
    """Problems of shape, of names and of numbers, in several packs, are all said at once."""
    texts = [text for text, _ in EXAMPLES.values() if text.startswith(HEAD)]
    packs = {
        f"bad-{number}": text.replace("pack: bad", f"pack: bad-{number}")
        for number, text in enumerate(texts)
        if "limits:\n  most" in text
    }
    packs["odd"] = f"{HEAD.replace('pack: bad', 'pack: odd')}limits:\n  odd: {{default: 3}}\n"
    packs["torn"] = "pack: torn\nformat: [1\n"
    found = {Path(each.place.file).stem for each in problems_of(tmp_path, packs)}
    assert {"torn", "odd"} < found
    assert found == set(packs)


def test_wrong_shape_is_said_once(tmp_path: Path) -> None:
    """Where the schema has refused an item, nothing more is said of it or of what names it."""
    body = "limits:\n  most: {label: Most, default: [3]}\n" + (
        "checks:\n  look: {does: Look, where: nowhere, minutes: 1, gives: [dp@rest]}\n"
        "interlocks:\n"
        "  calm: {says: Calm, when not: Rough, holds when: {dp@rest: {below: most}}, "
        "if unknown ask: [look]}\n"
    )
    lines = [each.place.line for each in problems_of(tmp_path, {"bad": HEAD + body})]
    assert lines == [FIRST_LINE + 1, FIRST_LINE + 3]


def test_an_unreadable_pack_blames_no_other(tmp_path: Path) -> None:
    """A pack that uses one that cannot be read is not blamed for the names in it."""
    packs = {
        "base": "pack: base\nformat: 1\ntitle: [\n",
        "other": "pack: other\nformat: 1\ntitle: Other\nuses: [base]\n"
        "actions:\n  go: {does: Go, hurts if wrong: [people], needs: [gone], caution: Take care}\n",
    }
    found = problems_of(tmp_path, packs, beside=False)
    assert {Path(each.place.file).stem for each in found} == {"base"}


def test_two_files_cannot_be_one_pack(tmp_path: Path) -> None:
    """One pack in two folders is refused, and both files are named."""
    golden = (GOLDEN / "one-of-everything.yaml").read_text(encoding="utf-8")
    (problem,) = problems_of(tmp_path, {"one-of-everything": golden})
    named = f"{problem.place.file} {problem.what}"
    assert f"{tmp_path}/one-of-everything.yaml" in named
    assert f"{GOLDEN}/one-of-everything.yaml" in named


def test_a_folder_without_packs_is_refused(tmp_path: Path) -> None:
    """A folder that is empty, or not there, is a problem and no traceback."""
    with pytest.raises(Refused) as refused:
        load_rulebook([tmp_path, tmp_path / "nowhere"])
    assert [each.what for each in refused.value.problems] == [
        "there is no pack in it",
        "there is no such folder",
    ]
