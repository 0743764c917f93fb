"""Bad input, the whole list, through the command line: a message of the usual form, exit 2.

Each message says what, where (file:line:column, quoting the line) and what would be right; a
file is left as it was.
"""

from __future__ import annotations

import errno
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from sootsayer.commands.main import main
from sootsayer.console.judge_texts import TORN
from sootsayer.documents.problems import Refused
from sootsayer.documents.report_problems import problem_lines
from sootsayer.rulebook.compiled import load_rulebook, shipped_rules

HEADER = """\
case: x
format: 1
vehicle: {label: 2.0 L panel van, cylinders: 4, fitted: {additive: no}}
entries:
"""
ENTRY = "- {at: 2031-03-14T09:02+01:00, by: tech-1, round: arrival, source: scan, "
WHOLE = HEADER + ENTRY + "facts: {dp@idle: 24}}\n"
BIDI = "\u202e"


def entry(rest: str) -> bytes:
    """A case with one entry that ends so."""
    return f"{HEADER}{ENTRY}{rest}\n".encode()


def header(old: str, new: str) -> bytes:
    """A case whose header has something else in it."""
    assert old in WHOLE
    return WHOLE.replace(old, new).encode()


# What YAML 1.1 makes into something else, or is close to: what is said, and what to do.
TRAPS = {
    "no, of three words": (entry("facts: {power-loss: no}}"), 'no choice "no"', "none"),
    "off, of three words": (entry("facts: {power-loss: off}}"), 'no choice "off"', "gradual"),
    "on, for yes": (entry("facts: {oil-smells-of-fuel: on}}"), 'not "on"', "write yes or no"),
    "off, for no": (entry("facts: {oil-smells-of-fuel: off}}"), 'not "off"', "write yes or no"),
    "off, in the header": (header("additive: no", "additive: off"), '"off"', "yes, no or unknown"),
    "no, for a number": (header("cylinders: 4", "cylinders: no"), '"no"', "a whole number"),
    "1:30, sixty to one": (entry("facts: {trip-length: 1:30}}"), "a time", "write one number"),
    "08, in the header": (header("cylinders: 4", "cylinders: 08"), '"08"', "with digits"),
    "0x1F": (entry("facts: {dp@idle: 0x1F}}"), '"0x1F" is written as programs', "its digits"),
    "0o17": (entry("facts: {dp@idle: 0o17}}"), '"0o17" is written as programs', "its digits"),
    "1e3": (entry("facts: {dp@idle: 1e3}}"), '"1e3" is written as programs', "its digits"),
    "1_000": (entry("facts: {dp@idle: 1_000}}"), "more than one separator", "one decimal point"),
    ".inf": (entry("facts: {dp@idle: .inf}}"), '".inf" is no number', "write a number"),
    ".nan": (entry("facts: {dp@idle: .NaN}}"), '".NaN" is no number', "write a number"),
    "~": (entry("facts: {dp@idle: ~}}"), '"~" is no number', "write a number"),
    "null": (entry("facts: {dp@idle: null}}"), '"null" is no number', "write a number"),
    "nothing": (entry("facts: {dp@idle: }}"), "has no value", "write a value after the colon"),
    "0,9 between braces": (entry("facts: {dp@idle: 0,9}}"), "the comma", "write dp@idle: 0.9"),
    "0,05 alone": (header("entries:", "story: 0,05\nentries:"), "decimal comma", "write 0.05"),
    "1,500": (entry('facts: {dp@idle: "1,500"}}'), "two ways", "write 1500 or 1.5"),
    "a comma in a text": (entry("note: Key on, engine off}"), "the comma", '"Key on, engine off"'),
    "a merge key": (header("{label", "{<<: {a: 1}, label"), "merge key", "write the keys out"),
    "an anchor": (header("label: 2.0", "label: &a 2.0"), "YAML anchor", "quote the text"),
    "a tag": (header("label: 2.0", "label: !!str 2.0"), "YAML tag", ""),
    "a key twice": (header("format: 1", "format: 1\nformat: 1"), '"format"', ""),
    "a second document": ((WHOLE + "---\n" + WHOLE).encode(), "", ""),
}
SIGNS = {
    "UTF-16 with a mark": (WHOLE.encode("utf-16"), "UTF-16, not UTF-8", "as UTF-8"),
    "UTF-16, little end first": (WHOLE.encode("utf-16-le"), "UTF-16, not UTF-8", "as UTF-8"),
    "UTF-16, big end first": (WHOLE.encode("utf-16-be"), "UTF-16, not UTF-8", "as UTF-8"),
    "UTF-32": (WHOLE.encode("utf-32"), "UTF-32, not UTF-8", "as UTF-8"),
    "Latin-1": (entry("note: 85 °C}").replace("°".encode(), b"\xb0"), "0xB0 is not", "as UTF-8"),
    "half a character": (entry('note: "a\\ud800"}'), "half a character", "remove it"),
    "its bytes": (entry('note: "a!"}').replace(b"!", b"\xed\xa0\x80"), "0xED is not", "as UTF-8"),
    "a NUL": (entry('note: "a\0"}'), "NUL", "a text file"),
    "an escape": (entry('note: "\x1b[2J"}'), "stands here", "delete it"),
    "a bidi mark": (entry(f"facts: {{power-loss: gr{BIDI}adual}}}}"), r"gr\u202eadual", "gradual"),
    "a tab": ((HEADER + "-\t{at: 1}\n").encode(), "a tab stands here", "spaces"),
}
LAYOUT = {
    "an entry indented": ((HEADER + "  " + ENTRY + "note: a}\n").encode(), "indented", "`- {`"),
    "behind an empty list": (header("entries:\n", "entries: []\n"), "level", "neighbours"),
    "an empty list": ((HEADER[:-1] + " []\n").encode(), "beside `entries:`", "a line of its own"),
    "a list beside": ((HEADER[:-1] + " [{}]\n").encode(), "beside `entries:`", "line of its own"),
    "a key behind": ((WHOLE + "story: late\n").encode(), "after the entries", "above `entries:`"),
    "several lines": ((HEADER + "- at: 1\n  by: t\n").encode(), "not written on one line", "{at:"),
    "an unknown format": (header("format: 1", "format: 2"), "format 2", "use a version"),
}
EVERYTHING = TRAPS | SIGNS | LAYOUT


def refused(path: Path, capsys: pytest.CaptureFixture[str]) -> str:
    """What judging a file that must be refused says; it is left as it was, and alone."""
    before = path.read_bytes()
    assert main(["judge", str(path)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert path.read_bytes() == before
    assert [each.name for each in path.parent.iterdir()] == [path.name]
    usual_form(err, path.name)
    return err


def usual_form(err: str, name: str) -> None:
    """What, where, and what would be right; nothing that a terminal would act on."""
    first, *rest = err.splitlines()
    assert re.search(rf"{re.escape(name)}:\d+:\d+: \S", first), err
    assert any(re.match(r"  → \S", line) for line in rest), err
    assert "Traceback" not in err
    assert all(sign.isprintable() or sign == "\n" for sign in err), ascii(err)
    assert not re.search("[\u202a-\u202e\u2066-\u2069\u200e\u200f]", err)


@pytest.mark.parametrize("name", EVERYTHING)
def test_bad_case_is_refused(name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Each trap, sign and slip of form is told as such, with its place and what would be right."""
    data, what, instead = EVERYTHING[name]
    path = tmp_path / "x.yaml"
    path.write_bytes(data)
    err = " ".join(refused(path, capsys).split())
    assert what in err
    assert instead in err.partition("→")[2]


@pytest.mark.parametrize("cut", range(1, len(ENTRY) + 20, 9))
def test_a_torn_line_is_left_out_and_told(
    cut: int, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Wherever a last line broke off, the case is judged without it, and that is said."""
    path = tmp_path / "x.yaml"
    line = ENTRY + "facts: {dp@idle: 99}}"
    path.write_text(HEADER + line[:cut], encoding="utf-8")
    assert main(["judge", str(path), "--as-of", "0"]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert str(TORN) in " ".join(out.split())


def test_what_looks_like_a_trap_and_is_none(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """yes and no where they are meant, dates and ratios in texts, 08 as eight are understood."""
    path = tmp_path / "x.yaml"
    path.write_bytes(
        entry("facts: {oil-smells-of-fuel: no, dp@idle: 08}, note: 1:30 on 2031-03-14}")
    )
    assert main(["judge", str(path), "--json", "--at", "2031-03-14T09:02+01:00"]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert '"typed": "08"' in out or "08" in out


@pytest.mark.parametrize("kind", ["to a case", "to itself", "to nothing", "to a folder"])
def test_a_case_that_is_a_link(
    kind: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A link is followed to the case; one that leads nowhere is told so."""
    folder = tmp_path / "elsewhere"
    folder.mkdir()
    real = folder / "real.yaml"
    real.write_text(WHOLE, encoding="utf-8")
    link = tmp_path / "x.yaml"
    targets = {"to a case": real, "to itself": link, "to nothing": folder / "no", "to a folder": folder}  # fmt: skip # noqa: E501
    link.symlink_to(targets[kind])
    assert main(["judge", str(link), "--as-of", "0"]) == (0 if kind == "to a case" else 2)
    _, err = capsys.readouterr()
    assert link.is_symlink()
    assert real.read_text(encoding="utf-8") == WHOLE
    if kind == "to a case":
        assert err == ""
    else:
        assert "→" in err
        assert "Traceback" not in err


PACK = "pack: shop-own\nformat: 1\ntitle: Our own\nbasis: {kind: memory}\n"
PACKS: dict[str, tuple[str | bytes, str, str]] = {
    "takes another's ids": (
        PACK + "faults:\n  soot-overload: {label: Ours, kind: condition, prior: rarely}\n",
        '"soot-overload"',
        "id",
    ),
    "owns another's finding": (
        PACK + "uses: [restriction]\nevidence:\n  - finding: restriction\n"
        "    otherwise: {low: 1, normal: 89, raised: 7, high: 2, blocked: 1}\n",
        '`otherwise` of "restriction" belongs to',
        "`seen with` only",
    ),
    "is another's twin": (PACK.replace("shop-own", "restriction"), '"restriction"', ""),
    "is in UTF-16": (PACK.encode("utf-16"), "UTF-16", "UTF-8"),
    "lists a key twice": (PACK + "title: Again\n", '"title"', ""),
}


@pytest.mark.parametrize("name", PACKS)
def test_bad_pack_is_refused(name: str, tmp_path: Path) -> None:
    """A pack that takes ids, or what belongs to another, is refused and named by its place."""
    text, what, instead = PACKS[name]
    path = tmp_path / ("restriction.yaml" if "twin" in name else "shop-own.yaml")
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    with pytest.raises(Refused) as caught:
        load_rulebook([shipped_rules(), tmp_path])
    problems = [p for p in caught.value.problems if path.name in p.place.file]
    assert problems
    said = "\n".join(problem_lines(problems))
    usual_form(said, path.name)
    assert what in said
    assert instead in said


def test_no_right_to_read(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A case that may not be read says so, and what to do."""
    path = tmp_path / "x.yaml"
    path.write_text(WHOLE, encoding="utf-8")
    if os.geteuid():
        path.chmod(0)
    else:  # root may read everything
        deny(path, monkeypatch)
    assert main(["judge", str(path)]) == 2
    err = capsys.readouterr().err
    assert "there is no right to read this file" in err
    assert "→" in err


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a device of Linux that is full")
def test_a_screen_that_is_full(tmp_path: Path) -> None:
    """Output onto a full disk ends with exit 2 and a message, in the real process."""
    path = tmp_path / "x.yaml"
    path.write_text(WHOLE, encoding="utf-8")
    with Path("/dev/full").open("w", encoding="utf-8") as full:
        done = subprocess.run(
            [sys.executable, "-m", "sootsayer", "judge", str(path), "--as-of", "0"],
            stdout=full, stderr=subprocess.PIPE, text=True, timeout=60, check=False,
        )  # fmt: skip
    assert done.returncode == 2
    assert "No space left" in done.stderr
    assert "→" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_real_process_says_the_same(tmp_path: Path) -> None:
    """The installed program, in a process of its own, refuses as the tests above have it."""
    path = tmp_path / "x.yaml"
    path.write_bytes(TRAPS["a comma in a text"][0])
    done = subprocess.run(
        [sys.executable, "-m", "sootsayer", "judge", str(path)],
        capture_output=True, text=True, timeout=60, check=False,
    )  # fmt: skip
    assert (done.returncode, done.stdout) == (2, "")
    usual_form(done.stderr, "x.yaml")
    assert 'note: "Key on, engine off"' in done.stderr


@pytest.fixture
def yard(tmp_path: Path) -> Path:
    """A shop's folder with a case and room for a pack."""
    folder = tmp_path / "yard"
    for name in ("packs", "cases", "records"):
        (folder / name).mkdir(parents=True)
    (folder / "shop.yaml").write_text("format: 1\n", encoding="utf-8")
    (folder / "cases" / "x.yaml").write_text(WHOLE, encoding="utf-8")
    return folder


@pytest.mark.parametrize("name", PACKS)
def test_a_shops_bad_pack_stops_the_verdict(
    name: str, yard: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """With a bad pack in the shop's folder no verdict is given, and the pack is named."""
    text, what, _ = PACKS[name]
    path = yard / "packs" / ("restriction.yaml" if "twin" in name else "shop-own.yaml")
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    assert main(["judge", "x", "--shop", str(yard)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert what in err
    assert path.name in err
    assert "→" in err


def two_owners(first: str, second: str) -> dict[str, str]:
    """Two packs of one shop, each with a finding of the same id."""
    signal = "signals:\n  shop-{0}-horn: {{label: Horn, kind: yes-no, lasts: visit}}\n"
    check = "checks:\n  shop-{0}-hear: {{does: Sound the horn {0}, where: hands-on, minutes: 1, gives: [shop-{0}-horn]}}\n"  # noqa: E501
    finding = "findings:\n  shop-horn-dead:\n    says: The horn is dead\n    when: {{shop-{0}-horn: no}}\n    proofs: [{{given: {{shop-{0}-horn: no}}, then: true}}, {{given: {{shop-{0}-horn: yes}}, then: false}}, {{given: {{}}, then: unknown}}]\n"  # noqa: E501
    return {
        name: PACK.replace("shop-own", f"shop-{name}") + (signal + check + finding).format(name)
        for name in (first, second)
    }


def test_two_packs_that_own_one_finding(
    yard: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """One finding in two packs is refused with both places; in one alone it is taken."""
    packs = two_owners("left", "right")
    for name, text in packs.items():
        (yard / "packs" / f"shop-{name}.yaml").write_text(text, encoding="utf-8")
        alone = tmp_path / name
        alone.mkdir()
        (alone / f"shop-{name}.yaml").write_text(text, encoding="utf-8")
        assert "shop-horn-dead" in load_rulebook([shipped_rules(), alone]).model.findings
    assert main(["judge", "x", "--shop", str(yard), "--as-of", "0"]) == 2
    err = capsys.readouterr().err
    usual_form(err, "shop-right.yaml")
    assert "shop-horn-dead" in err
    assert "shop-left.yaml" in err


@pytest.mark.parametrize("part", ["shop.yaml", "packs", "cases/x.yaml"])
def test_a_shop_folder_without_rights(
    part: str, yard: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where a part of the shop's folder may not be read that is said; nothing is passed over."""
    (yard / "packs" / "shop-own.yaml").write_text(PACK, encoding="utf-8")
    path = yard / part
    if os.geteuid():
        path.chmod(0)
    else:  # root may read everything
        deny(path, monkeypatch)
    code = main(["judge", "x", "--shop", str(yard), "--as-of", "0"])
    path.chmod(0o755)
    out, err = capsys.readouterr()
    assert (code, out) == (2, "")
    assert path.name in err
    assert "right" in err
    assert "→" in err
    assert "Traceback" not in err


def deny(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Opening or listing `path`, or what is in it, is refused as by the system."""
    opened, scanned, listed = os.open, os.scandir, os.listdir

    def check(name: object) -> None:
        if isinstance(name, str | Path) and (Path(name) == path or path in Path(name).parents):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(name))

    def denied_open(name: str | Path, *rest: int, **more: int) -> int:
        check(name)
        return opened(name, *rest, **more)

    def denied_scan(name: str | Path = ".") -> object:
        check(name)
        return scanned(name)

    def denied_list(name: str | Path = ".") -> list[str]:
        check(name)
        return listed(name)

    monkeypatch.setattr(os, "open", denied_open)
    monkeypatch.setattr(os, "scandir", denied_scan)
    monkeypatch.setattr(os, "listdir", denied_list)
