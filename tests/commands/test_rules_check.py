"""`sootsayer rules check`: what it prints, writes and returns."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from pathlib import Path
from threading import Thread
from xml.etree import ElementTree

import pytest

from sootsayer.commands.main import main
from sootsayer.commands.rules_watch import watched
from sootsayer.rulebook.shipped import shipped_rules
from tests.rulebook.review.small import rule, small

Capture = pytest.CaptureFixture[str]

OWN = """\
pack: shop-own
format: 1
title: Our own
uses: [pressure-sensing]
basis: {kind: shop, source: Twelve cases of 2031}
limits:
  shop-rest-odd: {label: A reading at rest that is odd, default: 9 mbar}
"""


@pytest.fixture(autouse=True)
def no_shop(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """No shop but one that is named."""
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)
    monkeypatch.chdir(tmp_path)


def alone(folder: Path, text: str, *options: str, name: str = "small") -> int:
    """The exit code of checking a rulebook that is this pack."""
    (folder / f"{name}.yaml").write_text(text, encoding="utf-8")
    return main(["rules", "check", "--alone", str(folder), *options])


def shop(folder: Path, **packs: str) -> str:
    """A shop with these packs (underlines for hyphens); its folder."""
    (folder / "shop.yaml").write_text("format: 1\n", encoding="utf-8")
    (folder / "packs").mkdir(exist_ok=True)
    for name, text in packs.items():
        (folder / "packs" / f"{name.replace('_', '-')}.yaml").write_text(text, encoding="utf-8")
    return str(folder)


def test_the_shipped_rules(capsys: Capture) -> None:
    """The shipped rules have no error, and the page says what was looked into."""
    assert main(["rules", "check"]) == 0
    out = capsys.readouterr().out
    assert "Each rule can be true, and can be false" in out
    assert " 0 errors" in out or "Nothing is wrong." in out


def test_the_shipped_rules_take_under_two_seconds() -> None:
    """All in one run, in under two seconds of one processor: of a process of its own, since what
    other tests left in this one, collecting it and all, would be counted too."""
    script = (
        "import sys, time; from sootsayer.commands.main import main; code = main(sys.argv[1:]); "
        "print(code, time.process_time(), file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script, "rules", "check", "--json"],
        capture_output=True, text=True, check=True, encoding="utf-8",
    )  # fmt: skip
    code, seconds = done.stderr.split()[-2:]
    assert json.loads(done.stdout)
    assert int(code) == 0
    assert float(seconds) < 2


def test_an_error_with_place_and_mended_line(tmp_path: Path, capsys: Capture) -> None:
    """A misspelt id: file, line and column, the line, the mended line; exit code 1."""
    text = small(rule("odd", "{dpp: {above: 3}}"))
    assert alone(tmp_path, text) == 1
    out = capsys.readouterr().out
    number = text[: text.index("  odd")].count("\n") + 1
    column = rule("odd", "{dpp: 1}").index("dpp") + 1
    assert f"{tmp_path}/small.yaml:{number}:{column}: error: there is no signal or finding" in out
    assert "  + odd: {says: One more, when: {dp: {above: 3}}" in out
    assert "→ did you mean" in out


def test_a_proof_that_fails(tmp_path: Path, capsys: Capture) -> None:
    """A proof that does not come out says what the rule says, and shows the proof as it would."""
    assert (
        alone(
            tmp_path,
            small().replace("{given: {dp: 41}, then: true}", "{given: {dp: 40}, then: true}"),
        )
        == 1
    )
    out = capsys.readouterr().out
    assert 'this proof of "high" does not come out: it says true, the rule says false' in out


def test_warnings_and_notes_are_no_no(tmp_path: Path, capsys: Capture) -> None:
    """A warning leaves the exit code 0."""
    assert alone(tmp_path, small(rule("twin", "{dp: {above: 40}}"))) == 0
    assert "0 errors, 1 warning, 0 notes." in capsys.readouterr().out


def test_what_cannot_be_read_at_all(tmp_path: Path, capsys: Capture) -> None:
    """A pack that is no YAML, or is not there, gives exit code 2, and is told first."""
    (tmp_path / "a.yaml").write_text("pack: [", encoding="utf-8")
    assert alone(tmp_path, small(rule("odd", "{dp: {above: 200}}"))) == 2
    assert capsys.readouterr().out.startswith(f"{tmp_path}/a.yaml:1:")
    assert main(["rules", "check", "--alone", "nowhere"]) == 2


def test_json(tmp_path: Path, capsys: Capture) -> None:
    """--json has remarks, decisions and coverage, each with what shows it."""
    assert alone(tmp_path, small(rule("twin", "{dp: {above: 40}}")), "--json") == 0
    told = json.loads(capsys.readouterr().out)
    (remark,) = told["remarks"]
    assert (remark["concern"], remark["weight"], remark["thing"]) == (
        "rules say different things", "warning", "twin",
    )  # fmt: skip
    shown = [each for each in told["decisions"] if each["thing"] == "high"]
    assert {"can be true", "can be false"} <= {each["claim"] for each in shown}
    assert {each["decided"] for each in shown} == {"proven", "disproven"}
    high = {each["outcome"]: each["proofs"] for each in told["coverage"] if each["rule"] == "high"}
    assert high == {"true": 1, "false": 1, "unknown": 1}


def test_junit(tmp_path: Path, capsys: Capture) -> None:
    """--junit writes a suite a concern; an error is a failure, and hostile text stays text."""
    bad = small(rule("odd", "{dp: {above: 200}}")).replace("One more", '"<b> & ]]> more"')
    assert alone(tmp_path, bad, "--junit", "out.xml") == 1
    suites = ElementTree.parse("out.xml").getroot()
    assert suites.get("failures") == "2"
    failed = [test for test in suites.iter("testcase") if test.find("failure") is not None]
    assert [each.get("classname") for each in failed] == [
        "proofs come out", "rules can be true and false",
    ]  # fmt: skip
    capsys.readouterr()


def test_coverage_lists_what_is_missing(capsys: Capture) -> None:
    """--coverage counts cases too, and lists what neither shows."""
    assert main(["rules", "check", "--coverage"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "are shown by proofs and cases" in out
    assert "never shown" in out


def test_a_shops_pack_beside_the_rules_in_force(tmp_path: Path, capsys: Capture) -> None:
    """A pack named on the line is read beside the shipped rules, and only it is spoken of."""
    pack = (
        "pack: shop-noise\nformat: 1\ntitle: Noise\nbasis: {kind: memory}\nsignals:\n"
        "  shop-noise-heard: {label: Noise, kind: yes-no}\nfindings:\n"
        "  shop-it-bangs: {says: It bangs, when: {shop-noise-heard: yes}, proofs: "
        "[{given: {shop-noise-heard: yes}, then: true}, {given: {shop-noise-heard: no}, "
        "then: false}, {given: {}, then: unknown}]}\n"
    )
    (tmp_path / "shop-noise.yaml").write_text(pack, encoding="utf-8")
    assert main(["rules", "check", "shop-noise.yaml"]) == 0
    out = capsys.readouterr().out
    assert 'no check yields "shop-it-bangs": nothing gives shop-noise-heard' in out
    assert "1 warning" in out


def test_words_that_a_shops_pack_lacks(tmp_path: Path, capsys: Capture) -> None:
    """A shop that speaks English is not asked to translate what it has learned; one that speaks
    French is told what is still English."""
    folder = shop(tmp_path, shop_own=OWN)
    assert main(["rules", "check", "--shop", folder, "--json"]) == 0
    assert not [r for r in json.loads(capsys.readouterr().out)["remarks"] if r["thing"] == "fr"]
    assert main(["rules", "check", "--shop", folder, "--json", "--language", "fr"]) == 0
    told = [r for r in json.loads(capsys.readouterr().out)["remarks"] if r["thing"] == "fr"]
    assert [each["weight"] for each in told] == ["note"]


def test_an_override_whose_number_moved(tmp_path: Path, capsys: Capture) -> None:
    """After an upgrade that moved the number beneath, the check stops and shows both."""
    limit = next(
        line for line in (shipped_rules() / "pressure-sensing.yaml").read_text().splitlines()
        if "dp-rest-max:" in line
    )  # fmt: skip
    assert "default: 5 mbar" in limit
    pack = (
        "pack: shop-own\nformat: 1\ntitle: Ours\nuses: [pressure-sensing]\nbasis: {kind: memory}\n"
        "overrides:\n- {of: dp-rest-max, at: default, was: 4 mbar, now: 6 mbar, why: Our gauge}\n"
    )
    assert main(["rules", "check", "--shop", shop(tmp_path, shop_own=pack)]) == 1
    out = capsys.readouterr().out
    assert "the number beneath has moved: this replaces 4 mbar, and the pack says 5 mbar" in out
    assert "  + - {of: dp-rest-max, at: default, was: 5 mbar, now: 6 mbar, why: Our gauge}" in out


def test_a_pack_that_takes_anothers_name(tmp_path: Path, capsys: Capture) -> None:
    """What is true comes first, not buried: the name is taken, and the shipped pack stands."""
    taken = small().replace("pack: small", "pack: soot")
    assert main(["rules", "check", "--shop", shop(tmp_path, soot=taken)]) == 1
    first = capsys.readouterr().out.splitlines()[0]
    assert first.startswith(f'{tmp_path}/packs/soot.yaml:1:1: error: the pack "soot" is in two')
    assert f"{shipped_rules() / 'soot.yaml'}" in first


def test_two_packs_with_one_id(tmp_path: Path, capsys: Capture) -> None:
    """Two files that say they are one pack: that comes first, not what is missing because of it."""
    (tmp_path / "other.yaml").write_text(small(), encoding="utf-8")
    uses = (
        "pack: user\nformat: 1\ntitle: A user\nuses: [small]\nbasis: {kind: memory}\nfindings:\n"
        + rule("one", "{dp: {above: 1}}")
    )
    (tmp_path / "user.yaml").write_text(uses + "\n", encoding="utf-8")
    assert alone(tmp_path, small()) == 1
    out = capsys.readouterr().out
    assert "in two files" in out.split("\n\n")[0]
    assert "there is no" not in out


def test_a_link_that_leads_to_itself(tmp_path: Path, capsys: Capture) -> None:
    """A pack that is a link to itself, and a folder within itself, are told; nothing hangs."""
    (tmp_path / "loop.yaml").symlink_to(tmp_path / "loop.yaml")
    (tmp_path / "below").symlink_to(tmp_path)
    assert alone(tmp_path, small()) == 2
    assert "this link points at itself" in capsys.readouterr().out
    assert main(["rules", "check", "loop.yaml"]) == 2


def test_an_unwritable_junit_file(tmp_path: Path, capsys: Capture) -> None:
    """A file that cannot be written is said so, with what to do."""
    assert alone(tmp_path, small(), "--junit", str(tmp_path / "no" / "out.xml")) == 2
    assert "cannot be written" in capsys.readouterr().err


def test_wrong_usage(capsys: Capture) -> None:
    """No action, and --alone without packs, say what to write."""
    assert main(["rules"]) == 2
    assert "name one of: check, show, new, backtest, rates" in capsys.readouterr().err
    assert main(["rules", "check", "--alone"]) == 2
    assert "name a pack file" in capsys.readouterr().err


def test_watch(tmp_path: Path, capsys: Capture) -> None:
    """--watch does it again when a pack is saved."""
    pack = tmp_path / "a.yaml"
    pack.write_text("one", encoding="utf-8")
    done: list[str] = []

    def save() -> None:
        while not done:
            time.sleep(0.05)
        time.sleep(0.3)
        pack.write_text("three", encoding="utf-8")
        os.utime(pack)

    saver = Thread(target=save)
    saver.start()

    def look() -> int:
        done.append(pack.read_text())
        return 0

    code = watched(look, lambda: [tmp_path], most=2)
    saver.join()
    assert (code, done) == (0, ["one", "three"])
    assert f"{pack} has changed" in capsys.readouterr().out


def test_watch_ends_while_it_checks(tmp_path: Path) -> None:
    """Ctrl-C in the middle of a check ends the watching, not only that check."""

    def interrupted() -> int:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        watched(interrupted, lambda: [tmp_path], most=2)


@pytest.mark.slow
def test_a_hundred_thousand_rules(tmp_path: Path, capsys: Capture) -> None:
    """A hundred thousand rules are read, proven and reviewed."""
    head = small()
    for number in range(20):
        rules = "\n".join(
            rule(f"r{number}-{i}", f"{{dp: {{above: {i % 97}}}, air: {{below: {i + 1}}}}}")
            for i in range(5000)
        )
        text = (
            f"pack: p{number}\nformat: 1\ntitle: P\nuses: [small]\nbasis: {{kind: memory}}\n"
            f"findings:\n{rules}\n"
        )
        (tmp_path / f"p{number}.yaml").write_text(text, encoding="utf-8")
    assert alone(tmp_path, head, "--json") in (0, 1)
    told = json.loads(capsys.readouterr().out)
    assert told["counted"]["findings"] == 100_003
