"""Law 12 for each text of each input: on no screen, page or JSON does it stand raw.

Every text and key of every kind of file is exchanged for one that would steer a terminal, reorder
what is read, be an order to rich, HTML, a template or a spreadsheet. Where the field takes it,
every command that could show it is run; where not, what is told of it is looked at.
"""

from __future__ import annotations

import copy
import json
import os
import re
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from sootsayer.documents.nodes import plain
from sootsayer.documents.yaml_source import parse_document
from sootsayer.ledger.canonical import canonical
from sootsayer.ledger.seal import NOTHING_BEFORE, line_of
from tests.fuzz.running import Ended, run
from tests.fuzz.trees_spoiled import at, paths, yaml_text
from tests.fuzz.world import AT, CASES, CLOSED, FIRST, HEAD, SECOND, World, lay, world

MARK = "[bold]mk[/bold]"
# YAML holds no escapes; what it may hold is here. The = is for spreadsheets, should one be written.
HOSTILE = (
    f'=1+1 {MARK} <script>alert(1)</script> "><img src=x> \u202ekm\u2066 \u200b\U000e0041 '
    "{0} {says} %s :smile:"
)
# JSON and logs hold anything.
STEERING = HOSTILE + " \x1b[2J\x9b31m\x1b]0;x\x07\r\x08\x00\u2028"
LATE = ("--at", AT)


@pytest.fixture(scope="module", name="made")
def one_world(tmp_path_factory: pytest.TempPathFactory) -> Iterator[World]:
    with pytest.MonkeyPatch.context() as patch:
        for name in ("SOOTSAYER_SHOP", "SOOTSAYER_LANGUAGE"):
            patch.delenv(name, raising=False)
        yield world(tmp_path_factory.mktemp("made") / "world", patch)


@pytest.fixture(name="here")
def working_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "work").mkdir()
    monkeypatch.chdir(tmp_path / "work")
    monkeypatch.setenv("NO_COLOR", "1")
    return tmp_path / "work"


def well(ended: Ended) -> Ended:
    """Nothing raw; what was marked up stands as it was typed; JSON is plain ASCII."""
    assert not ended.wrong, (ended.arguments, ended.wrong, ended.err[-500:])
    is_page = ended.out.lower().startswith("<!doctype")
    for said in (ended.out, ended.err):
        closed_to_markup(said, is_page)
    if "--json" in ended.arguments:
        assert ended.out.isascii(), ended.arguments
    return ended


def closed_to_markup(said: str, is_page: bool) -> None:
    """Neither rich nor a browser took an order from it."""
    if is_page:
        assert "<script" not in said.lower()
        assert "<img" not in said
    shown = re.sub(r"\s+", "", said)  # lines are folded
    assert "+1mk" not in shown, said
    assert "\N{SMILING FACE WITH OPEN MOUTH}" not in shown


def pages_written(folder: Path) -> Iterator[str]:
    """Pages and pictures that were written, checked alike. Raises for one that is no XML."""
    for path in folder.iterdir():
        if path.suffix in (".html", ".svg", ".xml"):
            text = path.read_text("utf-8")
            assert not re.search(
                "[\x00-\x08\x0b-\x1f\x7f-\x9f\u200b\u202a-\u202e\u2066-\u2069]", text
            )
            closed_to_markup(text, is_page=True)
            if path.suffix != ".html":
                ElementTree.fromstring(text)
            yield path.name


def tree_of(data: bytes) -> Any:
    return plain(parse_document(data, "f").root)


def texts_in(tree: Any) -> list[tuple[Any, ...]]:
    return [path for path in paths(tree) if isinstance(at(tree, path), str)]


def with_text(tree: Any, path: Sequence[Any], text: str) -> Any:
    tree = copy.deepcopy(tree)
    at(tree, tuple(path[:-1]))[path[-1]] = text
    return tree


def with_key(tree: Any, path: Sequence[Any], key: str) -> Any | None:
    tree = copy.deepcopy(tree)
    holder = at(tree, tuple(path[:-1]))
    if not isinstance(holder, dict):
        return None
    holder[key] = holder.pop(path[-1])
    return tree


CASE = {
    name: text.replace("by: tech-1, note", "by: tech-1, round: arrival, note")
    for name, text in {**CASES, "own": HEAD % "own" + FIRST + SECOND}.items()
}
ON_A_CASE: tuple[tuple[str, ...], ...] = (
    ("judge", "c.yaml"), ("judge", "c.yaml", "--more"), ("judge", "c.yaml", "--json"),
    ("why", "c.yaml", "soot-overload"), ("why", "c.yaml", "dp@idle"), ("why", "c.yaml", "drive-on"),
    ("why", "c.yaml", "restriction", "--json"), ("why", "c.yaml", "dp-raised"),
    ("why", "c.yaml", "zero-sensor"), ("why", "c.yaml", "read-dp-running"), ("why", "c.yaml",
    "dp-sensor"),
    ("plan", "c.yaml"), ("plan", "c.yaml", "--more"), ("plan", "c.yaml", "--json"),
    ("compare", "c.yaml"), ("compare", "c.yaml", "--json"), ("compare", "c.yaml", "--picture",
    "c.svg"),
    ("report", "c.yaml"), ("report", "c.yaml", "--text"), ("report", "c.yaml", "--customer"),
    ("report", "c.yaml", "--file", "-o", "c.html"), ("ask", "c.yaml", "--sheet"),
)  # fmt: skip
OTHERWISE: tuple[tuple[str, ...], ...] = (
    ("cases", "list", "--all"), ("cases", "list", "--all", "--json"), ("cases", "list",
    "--demonstration"),
    ("records", "keep", "c.yaml", "--by", "tech-1", "--ledger", "l"), ("records", "verify",
    "--ledger", "l"),
    ("records", "list", "--all", "--ledger", "l"), ("records", "list", "--json", "--ledger", "l"),
    ("records", "explain", "1", "--ledger", "l"), ("records", "explain", "1", "-o", "e.html",
    "--ledger", "l"),
    ("records", "replay", "1", "--more", "--ledger", "l"), ("records", "replay", "--json",
    "--ledger", "l"),
    ("records", "export", "x", "--ledger", "l"), ("rules", "backtest", "packs", "--cases", "cases"),
    ("rules", "rates", "--cases", "cases"), ("rules", "rates", "--cases", "cases", "--json"),
)  # fmt: skip
ON_RULES: tuple[tuple[str, ...], ...] = (
    ("rules", "check"), ("rules", "check", "--json"), ("rules", "check", "--junit", "r.xml"),
    ("rules", "check", "--coverage"), ("rules", "show"), ("rules", "show", "soot-overload"),
    ("rules", "show", "dp"), ("rules", "show", "tried-too-often"), ("rules", "show", "drive-on"),
    ("rules", "show", "drive-hot"), ("rules", "show", "dp-rest-max"), ("rules", "show",
    "restriction"),
    ("rules", "show", "resistance"), ("rules", "show", "read-dp-running"), ("rules", "show",
    "dp-sensor"),
    ("rules", "show", "short-trips", "--json"), ("rules", "show", "shop-hose-rubs"),
)  # fmt: skip
TALKED = "??\n? dp@idle\nshow\nsheet\nwhy soot-overload\nwhy dp\ndp@idle 8\nslip\nall later\ndone\n"


def everything_run(folder: Path, at_: Sequence[str] = LATE) -> dict[str, str]:
    """Every command on what lies in the folder; what each said by its words."""
    said = {}
    for command in (*ON_A_CASE, *OTHERWISE, *ON_RULES):
        late = at_ if command[0] in ("judge", "why", "plan", "compare", "report", "ask") else ()
        ended = well(run([*command, *late]))
        said[" ".join(command)] = f"{ended.code} {ended.out}"
    said["ask"] = well(run(["ask", "c.yaml", *at_], TALKED)).out
    assert len(list(pages_written(folder))) >= 3
    return said


def files_of(made: World) -> dict[str, bytes]:
    return {
        "c.yaml": CASE["own"].encode(),
        "cases/closed.yaml": made.cases["closed"],
        "cases/own.yaml": CASE["own"].encode(),
        "shop.yaml": made.shop,
        "packs/shop-own.yaml": made.shop_pack,
    }


def one_by_one(tree: Any) -> Iterator[tuple[tuple[Any, ...], bytes]]:
    """The document with the hostile text in place of each text, then of each key."""
    for path in texts_in(tree):
        yield path, yaml_text(with_text(tree, path, HOSTILE))
    for path in paths(tree):
        changed = with_key(tree, path, HOSTILE)
        if changed is not None:
            yield (*path, "the key"), yaml_text(changed)


def all_that_take_it(tree: Any, taken: Sequence[tuple[Any, ...]]) -> bytes:
    for path in taken:
        if path[-1] != "the key":
            tree = with_text(tree, path, HOSTILE)
    return yaml_text(tree)


def walked(
    here: Path, files: dict[str, bytes], name: str, commands: Sequence[Sequence[str]]
) -> dict[str, str]:
    """Each text of one file alone, with one command after another in turn; then all that are taken
    at once, with every command."""
    tree, taken = tree_of(files[name]), list[tuple[Any, ...]]()
    for number, (path, data) in enumerate(one_by_one(tree)):
        lay(here, {**files, name: data})
        os.chdir(here)
        if well(run(commands[number % len(commands)])).code != 2:
            taken.append(path)
    lay(here, {**files, name: all_that_take_it(tree, taken)})
    os.chdir(here)
    assert taken
    return everything_run(here)


SHORTLY: tuple[Sequence[str], ...] = tuple(
    (*each, *LATE) for each in ON_A_CASE if each[0] != "compare"
)


def test_every_text_of_a_case(made: World, here: Path) -> None:
    """Label, story, notes, values as typed, what proved it: it is shown as typed."""
    said = walked(here, files_of(made), "c.yaml", SHORTLY)
    for command in ("judge c.yaml --more", "report c.yaml --text", "records explain 1 --ledger l"):
        assert MARK in re.sub(r"\s+", "", said[command]), command
    assert "&lt;script&gt;" in said["report c.yaml"]


def test_every_text_of_a_closed_case(made: World, here: Path) -> None:
    """The same of a case with its outcome."""
    files = {**files_of(made), "c.yaml": (CASE["own"] + CLOSED).encode()}
    said = walked(here, files, "c.yaml", SHORTLY[:1])
    assert MARK in re.sub(r"\s+", "", said["report c.yaml --text"])


def test_every_text_of_a_shops_settings(made: World, here: Path) -> None:
    """Name, currency, units, sources of limits."""
    walked(
        here, files_of(made), "shop.yaml", (("plan", "c.yaml", *LATE), ("report", "c.yaml", *LATE))
    )


def test_every_text_of_a_shops_pack(made: World, here: Path) -> None:
    """Labels, reasons, sources, notes of a shop's own pack."""
    said = walked(
        here, files_of(made), "packs/shop-own.yaml", (("judge", "c.yaml", "--more", *LATE),)
    )
    assert MARK in re.sub(r"\s+", "", said["rules show shop-hose-rubs"])


def test_every_text_of_a_translation(made: World, here: Path) -> None:
    """Whatever a translation says is text."""
    words = json.loads(json.dumps(tree_of(made.words)))
    for path in [each for each in paths(words) if each[-1] == "text"]:
        words = with_text(words, path, HOSTILE)
    files = {**files_of(made), "words/xx/one-of-everything.yaml": yaml_text(words)}
    lay(here, files)
    os.chdir(here)
    shown = "".join(
        well(run([*each, *(LATE if each in ON_A_CASE else ()), "--language", "xx"])).out
        for each in (*ON_A_CASE, *ON_RULES)
    )
    assert list(pages_written(here))
    assert re.sub(r"\s+", "", shown).count(MARK) > 50


def hostile_pack(made: World) -> tuple[bytes, int]:
    """The pack with one of everything, hostile in all its texts that are no ids or numbers."""
    tree, count = tree_of(made.pack), 0
    free = {"says", "when not", "does", "caution", "label", "how", "asks", "conditions", "note",
    "title",
            "oil afterwards", "tell the customer", "why", "apart because"}  # fmt: skip
    lists = {"steps", "stop when", "consumes", "resets", "then", "shown as"}
    for path in texts_in(tree):
        inside = len(path) > 1 and path[-2] in lists and path[-1] != "then"
        if (path[-1] in free and "asks" not in path[:-1]) or inside:
            # Of a list each its own: the same name twice is refused.
            text = f"{HOSTILE} {path[-1]}" if inside else HOSTILE
            tree, count = with_text(tree, path, text), count + 1
    return yaml_text(tree), count


def test_every_text_of_the_rulebook(
    made: World, here: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Every free text of a rulebook at once, through every command."""
    from sootsayer.rulebook import shipped
    from tests.fuzz.world import rulebook_opened_each_time

    data, count = hostile_pack(made)
    assert count > 60
    real = shipped.shipped_rules()
    rules = tmp_path / "program" / "rules"
    lay_deep = {"one-of-everything.yaml": data}
    lay_deep |= {f"schema/{p.name}": p.read_bytes() for p in (real / "schema").iterdir()}
    rules.parent.mkdir()
    lay(rules, lay_deep)
    there = real.parent
    monkeypatch.setattr(
        shipped, "_shipped", lambda name: rules if name == "rules" else there / name
    )
    rulebook_opened_each_time(monkeypatch)
    files = files_of(made)
    del files["packs/shop-own.yaml"]
    lay(here, files)
    os.chdir(here)
    said = everything_run(here)
    assert sum(MARK in re.sub(r"\s+", "", each) for each in said.values()) > 35


def test_every_text_of_a_record(made: World, here: Path) -> None:
    """A forged ledger whose seals are whole: each text of each body, with escapes in it."""
    bodies = [json.loads(line)["body"] for line in made.ledger["ledger.jsonl"].splitlines()]
    kept = {f"l/{name}": data for name, data in made.ledger.items()}
    shown = [("verify",), ("list", "--all"), ("list", "--json"), ("explain", "3"), ("explain", "2"),
             ("replay", "2"), ("replay", "--json"), ("explain", "2", "-o", "e.html")]  # fmt: skip
    number = 0
    for index, body in enumerate(bodies):
        walk = texts_in(body)
        for path in walk if len(walk) < 120 else walk[:: len(walk) // 120]:
            forged = [*bodies[:index], with_text(body, path, STEERING), *bodies[index + 1 :]]
            _laid(here, kept, forged)
            well(run(["records", *shown[number % len(shown)], "--ledger", "l"]))
            list(pages_written(here))
            number += 1
    everywhere = [_all_texts(body) for body in bodies]
    _laid(here, kept, everywhere)
    for each in shown:
        well(run(["records", *each, "--ledger", "l"]))
    assert number > 100


def _all_texts(body: Any) -> Any:
    keep = {"kind", "format", "at", "digest", "previous"}
    for path in texts_in(body):
        if path[-1] not in keep and not re.fullmatch(r"[0-9a-f]{64}", at(body, path)):
            body = with_text(body, path, STEERING)
    return body


def _laid(here: Path, kept: dict[str, bytes], bodies: Sequence[Any]) -> None:
    previous, lines = NOTHING_BEFORE, []
    for number, body in enumerate(bodies, start=1):
        line, previous = line_of(canonical(body), number, previous)
        lines.append(line + b"\n")
    lay(here, {**kept, "l/ledger.jsonl": b"".join(lines)})
    os.chdir(here)


def test_every_text_of_a_log(made: World, here: Path) -> None:
    """Names of columns, lines above them, and cells."""
    lines = made.logs[0].decode().splitlines()
    names = lines[3].split(";")
    forged = [
        *("\n".join([*lines[:n], STEERING.replace("\r", ""), *lines[n + 1 :]]) for n in range(6)),
        *("\n".join([*lines[:3], ";".join([*names[:n], STEERING.replace("\r", ""),
        *names[n + 1 :]]), *lines[4:]])
          for n in range(len(names))),
        *("\n".join([*lines[:3], ";".join([*names[:n], f"{names[n]} {HOSTILE}", *names[n + 1 :]]),
        *lines[4:]])
          for n in range(len(names))),
    ]  # fmt: skip
    shown = 0
    for text in forged:
        for command in ([], ["--json"], ["--picture", "p.svg"], ["c.yaml", "--all"]):
            lay(here, {"log.csv": text.encode("utf-8"), "c.yaml": CASE["own"].encode()})
            os.chdir(here)
            shown += MARK in re.sub(r"\s+", "", well(run(["readings", "log.csv", *command])).out)
            list(pages_written(here))
            assert (here / "c.yaml").read_text("utf-8").startswith(CASE["own"])
            assert well(run(["report", "c.yaml", *LATE])).code == 0
    assert shown > 5


NAMES = ("\x1b[2J", "\x9b31m", "a\u202eb", "[bold]mk[/bold]", "<script>alert(1)<", "a\nb", "a\rb",
"{0}",
         "$(id)", "`id`", "a b", "a'b", 'a"b', "=1+1", "-x", "é", "\udce9", "漢字")  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_every_name_of_a_file(name: str, made: World, here: Path) -> None:
    """A file may be called anything: what names it on the screen is harmless, and it is read."""
    prefix = f"./{name}"
    try:
        lay(here, {f"{name}.yaml": CASE["own"].encode(), f"{name}.csv": made.logs[0],
                   f"cases/{name}.yaml": CASE["own"].encode(), f"{name}/shop.yaml": made.shop,
                   "bad/" + name: b"case: ["})  # fmt: skip
    except OSError:
        pytest.skip("this system has no such names")
    os.chdir(here)
    for command, code in (
        (["judge", f"{prefix}.yaml", *LATE], 0), (["report", f"{prefix}.yaml", *LATE], 0),
        (["judge", f"bad/{name}"], 2), (["cases", "list"], 0), (["cases", "list", "--json"], 0),
        (["readings", f"{prefix}.csv"], 0), (["plan", f"{prefix}.yaml", "--shop", prefix, *LATE],
        0),
        (["rules", "check", f"bad/{name}"], 2), (["rules", "check", f"{prefix}.yaml"], 1),
        (["records", "keep", f"{prefix}.yaml", "--by", "tech-1", "--ledger", prefix], 0),
        (["records", "verify", "--ledger", prefix], 0), (["records", "explain", "1", "--ledger",
        prefix], 0),
        (["records", "verify", "--ledger", f"{prefix}-none"], 2), (["ask", f"{prefix}.yaml",
        "--sheet"], 0),
        (["report", f"{prefix}.yaml", "-o", f"{prefix}.html", *LATE], 0),
        (["report", f"{prefix}.yaml", "-o", f"{prefix}.html", *LATE], 2),
        (["cases", "make", "--n", "2", "--seed", "1", "--out", f"{prefix}-made", "--processes",
        "1"], 0),
        (["rules", "rates", "--cases", f"{prefix}-made", "--synthetic"], 0),
    ):  # fmt: skip
        ended = run(command)
        assert ended.code == code, (command, ended.err)
        well(ended)


def test_every_typed_word(made: World, here: Path) -> None:
    """What is typed is echoed, written and shown later: never raw."""
    lay(here, {"c.yaml": CASE["own"].encode(), "log.csv": made.logs[0]})
    os.chdir(here)
    lines = ["note " + STEERING, STEERING, "dp " + STEERING, "why " + STEERING, "work " + STEERING,
             "cannot: " + STEERING, "round " + STEERING, "by " + STEERING,
             "codes " + STEERING]  # fmt: skip
    for text in lines:
        well(run(["ask", "c.yaml", *LATE], re.sub("[\r\x00\u2028]", "", text) + "\ndone\n"))
    for command in ("judge", "report"):
        well(run([command, "c.yaml", *LATE]))
    for option in ("--by", "--at", "--shop", "--language", "--answers"):
        well(run(["ask", "c.yaml", option, STEERING]))


def test_no_file_is_made_for_a_spreadsheet() -> None:
    """Nothing here writes CSV, whose cells a spreadsheet would reckon. Who adds it begins no cell
    of text with = + - @, a tab or a carriage return (OWASP, CSV injection; from memory)."""
    source = Path(__file__).parents[2] / "src" / "sootsayer"
    writers = re.compile(r"csv\.(?:writer|DictWriter)|\.to_csv|delimiter\s*=.*write")
    found = [path for path in source.rglob("*.py") if writers.search(path.read_text("utf-8"))]
    assert found == []
