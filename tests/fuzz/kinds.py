"""One entry for each kind of input: what is spoiled, and by which commands it is read."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from random import Random
from typing import Any

from sootsayer.documents.nodes import plain
from sootsayer.documents.yaml_source import parse_document
from sootsayer.ledger.canonical import canonical
from sootsayer.ledger.seal import NOTHING_BEFORE, line_of, read_line
from tests.fuzz.bytes_spoiled import spoiled
from tests.fuzz.running import Attempt
from tests.fuzz.trees_spoiled import spoiled_tree, yaml_text
from tests.fuzz.typed import THINGS, command_line, line
from tests.fuzz.world import AT, World

Words = Sequence[str]
LATE = ("--at", AT)
AFTER = ("why", "case.yaml", "drive-on", *LATE)  # the cheapest that reads a case
READ: tuple[Words, ...] = (
    ("judge", "case.yaml"), ("judge", "case.yaml", "--more"), ("judge", "case.yaml", "--json"),
    ("judge", "case.yaml", "--as-of", "2"), ("why", "case.yaml", "soot-overload"), ("plan",
    "case.yaml"),
    ("plan", "case.yaml", "--more"), ("plan", "case.yaml", "--json"), ("compare", "case.yaml"),
    ("compare", "case.yaml", "--json"), ("report", "case.yaml"), ("report", "case.yaml", "--text"),
)  # fmt: skip


@cache
def _tree(data: bytes) -> Any:
    return plain(parse_document(data, "f", may_be_torn=True).root)


def _either(data: bytes, chance: Random, others: Sequence[bytes]) -> bytes:
    """Spoiled as bytes or as a document."""
    if chance.random() < 0.45:
        return spoiled(data, chance, others)
    made = yaml_text(spoiled_tree(_tree(data), chance))
    return spoiled(made, chance, others) if chance.random() < 0.05 else made


def case(chance: Random, made: World) -> Attempt:
    """A case file, read by every command that takes one."""
    good = list(made.cases.values())
    data = _either(chance.choice(good), chance, [*good, made.pack])
    way = chance.random()
    if way < 0.75:
        command = list(chance.choice(READ))
        if command[0] == "why":
            command[2] = chance.choice(THINGS)
        return Attempt({"case.yaml": data}, [[*command, *LATE]])
    if way < 0.85:
        return Attempt({"case.yaml": data}, [["ask", "case.yaml", "--sheet", *LATE]])
    if way < 0.95:
        return Attempt(
            {"cases/a.yaml": data, "cases/van.yaml": good[0]}, [["cases", "list", "--all"]]
        )
    keep = ["records", "keep", "case.yaml", "--by", "tech-1", "--ledger", "ledger"]
    return Attempt({"case.yaml": data}, [keep], appears=("ledger/",))


def pack(chance: Random, made: World) -> Attempt:
    """A pack: a shop's own beside the rulebook, or the rulebook itself alone."""
    own = chance.random() < 0.5
    others = [made.pack, made.shop_pack, made.words]
    data = _either(made.shop_pack if own else made.pack, chance, others)
    if not own:
        if data.startswith(b"pack: one-of-everything") and chance.random() < 0.6:
            # Smaller: what an input costs is mostly the reading of the pack.
            data = _smaller(chance)
        check = ["rules", "check", "one-of-everything.yaml", "--alone"]
        return Attempt({"one-of-everything.yaml": data}, [check + chance.choice(([], ["--json"]))])
    files = {"shop.yaml": made.shop, "packs/shop-own.yaml": data}
    commands: tuple[Words, ...] = (
        ("judge", "van"), ("judge", "van", "--more"), ("plan", "van"), ("why", "van",
        "soot-overload"),
        ("rules", "show", "shop-hose-rubs", "--no-cases"), ("rules", "show", "--no-cases"),
        ("report", "van"), ("ask", "van", "--sheet"), ("rules", "check", "packs"),
    )  # fmt: skip
    return Attempt(files, [chance.choice(commands)])


def _smaller(chance: Random) -> bytes:
    """A few sections of the pack with one of everything, spoiled."""
    tree = dict(_PACK_TREE[0])
    for key in list(tree):
        if (
            key not in ("pack", "format", "title", "basis", "signals", "points")
            and chance.random() < 0.5
        ):
            del tree[key]
    return yaml_text(spoiled_tree(tree, chance))


_PACK_TREE: list[Any] = []


def words(chance: Random, made: World) -> Attempt:
    """A shop's translation of a pack."""
    data = _either(made.words, chance, [made.pack])
    files = {"shop.yaml": made.shop, "words/xx/one-of-everything.yaml": data}
    commands = (("judge", "van"), ("plan", "van"), ("report", "van"), ("judge", "van", "--more"))
    return Attempt(files, [[*chance.choice(commands), "--language", "xx"]])


def log(chance: Random, made: World) -> Attempt:
    """A live-data log."""
    data = spoiled(chance.choice(made.logs), chance, made.logs)
    command = ["readings", "log.csv"]
    files = {"log.csv": data}
    grows: tuple[str, ...] = ()
    if chance.random() < 0.3:
        files["case.yaml"] = made.cases["van"]
        command += ["case.yaml", "--all", "--at", "2031-03-14T11:00+01:00"]
        grows = ("case.yaml",)
    command += chance.choice(([], [], ["--json"], ["--decimals", "comma"], ["--column", "dp=Air"],
                              ["--unit", "dp=kPa"], ["--unit", "air=g/s"]))  # fmt: skip
    after = AFTER if grows else None
    return Attempt(files, [command], grows=grows, after=after)


def shop(chance: Random, made: World) -> Attempt:
    """A shop's settings."""
    data = _either(made.shop, chance, [made.pack])
    commands: tuple[Words, ...] = (
        ("plan", "two-rounds"), ("plan", "van", "--more"), ("plan", "van", "--json"), ("judge",
        "van"),
        ("report", "closed"), ("cases", "list"), ("records", "list"), ("ask", "van", "--sheet"),
    )  # fmt: skip
    return Attempt({"shop.yaml": data}, [chance.choice(commands)])


def people(chance: Random, made: World) -> Attempt:
    """The names beside cases, which records are looked through for."""
    data = _either(made.people, chance, [made.shop])
    files = {"van.yaml": made.cases["van"], "people.yaml": data}
    keep = ["records", "keep", "van.yaml", "--by", "tech-1", "--ledger", "ledger"]
    commands = [keep] if chance.random() < 0.5 else [["report", "./van.yaml", *LATE]]
    return Attempt(files, commands, appears=("ledger/",))


def ledger(chance: Random, made: World) -> Attempt:
    """A ledger: its lines as bytes, forged with whole seals, or the texts that it keeps."""
    files = {f"l/{name}": data for name, data in made.ledger.items()}
    way = chance.random()
    if way < 0.4:
        files["l/ledger.jsonl"] = spoiled(files["l/ledger.jsonl"], chance, [made.pack])
    elif way < 0.85:
        files["l/ledger.jsonl"] = _forged(files["l/ledger.jsonl"], chance)
    else:
        name = chance.choice([each for each in files if each != "l/ledger.jsonl"])
        files[name] = spoiled(files[name], chance, [made.pack])
    commands: tuple[Words, ...] = (
        ("verify",), ("verify", "--json"), ("list",), ("list", "--all"), ("list", "--json"),
        ("replay",),
        ("replay", "1"), ("replay", "2", "--json"), ("explain", "1"), ("explain", "2"), ("export",
        "copy"),
        ("explain", "2", "-o", "page.html"),
    )  # fmt: skip
    command = ["records", *chance.choice(commands), "--ledger", "l"]
    new = ("copy/", "page.html", "l/index.sqlite")
    return Attempt(files, [command], appears=new)


def _forged(data: bytes, chance: Random) -> bytes:
    """Bodies changed at a node, in a chain that is whole again: by one who knows the format."""
    previous, lines = NOTHING_BEFORE, []
    at = chance.randrange(data.count(b"\n"))
    for number, raw in enumerate(data.splitlines()):
        body = read_line(raw).body
        assert body is not None
        if number == at:
            import json

            try:
                body = canonical(spoiled_tree(json.loads(body), chance))
            except (ValueError, TypeError, OverflowError):
                continue  # no canonical form: the line is left out
        made, previous = line_of(body, number + 1, previous)
        lines.append(made + b"\n")
    return b"".join(lines)


def typed(chance: Random, made: World) -> Attempt:
    """Lines typed at every conversation there is, at a terminal or from a file."""
    lines = [line(chance).replace("\n", " ") for _ in range(chance.choice((1, 2, 3, 5, 8)))]
    text = "\n".join(lines) + chance.choice(("\n", "", "\ndone\n"))
    files = {"case.yaml": made.cases[chance.choice(("van", "short", "two-rounds"))],
             "answers.txt": text.encode("utf-8", chance.choice(("replace", "surrogatepass"))),
             "log.csv": made.logs[0]}  # fmt: skip
    way = chance.random()
    ask = ["ask", "case.yaml", *LATE]
    if way < 0.25:
        return _answered(files, [*ask, "--answers", "answers.txt"], None)
    if way < 0.7:
        return _answered(
            files, [*ask, *chance.choice(([], [], ["--fixed"], ["--from-sheet"]))], text
        )
    if way < 0.8:
        return Attempt(
            files, [["ask", "--new", *LATE]], text, appears=("cases/",), grows=("case.yaml",)
        )
    if way < 0.85:
        return Attempt(files, [["ask", *LATE]], text, appears=("cases/",), grows=("case.yaml",))
    if way < 0.93:
        new = ["rules", "new", "--shop", "."]
        return Attempt({**files, "shop.yaml": made.shop}, [new], text, appears=("packs/",))
    return _answered(files, ["readings", "log.csv", "case.yaml", *LATE], text)


def _answered(files: dict[str, bytes], command: Words, text: str | None) -> Attempt:
    return Attempt(
        files, [command], text, grows=("case.yaml",), appears=("case.yaml.torn",), after=AFTER
    )


def arguments(chance: Random, made: World) -> Attempt:
    """Words of a command line."""
    files = {"case.yaml": made.cases["van"], "log.csv": made.logs[1], "people.yaml": made.people}
    files |= {f"ledger/{name}": data for name, data in made.ledger.items()}
    # What it writes is new files, wherever it was told to.
    return Attempt(
        files, [command_line(chance)], appears=("",), grows=("case.yaml", "ledger/ledger.jsonl")
    )


def beside(chance: Random, made: World) -> Attempt:
    """What lies beside a case and is never the truth: who has it open, what was torn, its lock."""
    held = b'{"who": "tech-2", "since": "2031-03-14 09:00", "token": "0123456789abcdef"}\n'
    torn = made.cases["van"] + chance.choice((b"- {at: 2031-03", b"-", b"- {", b"\xc3", bytes(600)))
    files = {
        "case.yaml": chance.choice((made.cases["van"], torn)),
        ".case.yaml.open": spoiled(held, chance),
        "case.yaml.torn": spoiled(b"- {at: 2031\n", chance),
        "answers.txt": b"note soft hose\n",
    }
    command = ["ask", "case.yaml", "--answers", "answers.txt", *LATE]
    return Attempt(
        files, [command], grows=("case.yaml", "case.yaml.torn"), changes=(".case.yaml.open",),
        after=AFTER,
    )  # fmt: skip


def kept(chance: Random, made: World) -> Attempt:
    """The compiled rulebook that is kept: spoiled, it costs time and nothing else."""
    name = chance.choice(sorted(made.kept))
    files = {f"cache/{name}": spoiled(made.kept[name], chance)}
    return Attempt(
        files, [["judge", "van"]], changes=tuple(files), appears=("cache/",), expects=made.judged
    )


# How many of a hundred inputs are of each kind.
SHARES: dict[Callable[[Random, World], Attempt], int] = {
    case: 33, pack: 7, words: 4, log: 5, shop: 14, people: 4, ledger: 9, typed: 4, arguments: 18,
    beside: 1, kept: 1,
}  # fmt: skip
KINDS = {kind.__name__: kind for kind in SHARES}


def prepared(made: World) -> None:
    """What the kinds need of the world before they begin."""
    _PACK_TREE[:] = [_tree(made.pack)]
