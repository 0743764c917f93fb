"""What a person may type: lines of a questionnaire, words of a command line."""

from __future__ import annotations

from random import Random

from hypothesis import strategies as st

WORDS: tuple[str, ...] = (
    "dp", "dp@idle", "dp@rest", "at", "idle", "2500", "air", "oil", "smells", "level", "low", "18",
    "0,9",
    "kPa", "hPa", "1,500", "1.500,5", "-3", "mg/st", ";", ",", "=", ":", "yes", "no", "none", "2",
    "later",
    "cannot:", "cannot", "not", "fitted", "do not know", "dk", "back", "go on", "go", "change",
    "forget",
    "again", "note", "codes", "P2463", "P24", "complete", "partly", "monitors", "run", "work",
    "round",
    "after-zero", "zero-sensor", "by", "tech-2", "all", "why", "?", "??", "show", "sheet",
    "enter sheet",
    "slip", "never mind", "gauge:", "scan:", "soot-overload", "done", "quit", "new", "1", "9",
    "many",
    "undo", "power loss", "gradual", "additive", "full", "exhaust-heat@2500", "C", "F", "mi",
    "restriction",
    "is", "above", "below", "between", "and", "more than", "of", "often", "rarely", "19 of 20",
    "shop-x",
    "2.0 L panel van", "-", "--", "#", "- {", "}", "'", '"', "\\", "{x}", "{0}", "%s", "$x",
    "[bold]x[/bold]", "<script>alert(1)</script>", "=1+1", "é", "漢", "a\u0301", "\u202e", "\u2066",
    "\u200b",
    "\x1b[2J", "\x9b31m", "\x00", "\x08", "\x7f", "\ud800", "\U000e0041", "\ufeff", "\u2028",
    "\x85", "\r",
    "٣", "½", "１２", "999999999999999999999", "9" * 400, "1e9", "1e999", "nan", "inf", "0x10",
    "x" * 3000,
    "word " * 300, "2031-03-14T09:05+01:00", "9999-12-31T23:59-14:00", "0001-01-01T00:00+14:00", "",
)  # fmt: skip
LINES = st.one_of(
    st.lists(st.sampled_from(WORDS), max_size=7).map(" ".join),
    st.text(max_size=60),
    st.sampled_from(WORDS),
)
ID = (
    "van",
    "two-rounds",
    "closed",
    "van.yaml",
    "case.yaml",
    "./case.yaml",
    "no-such-case",
    "people.yaml",
)
THINGS = ("soot-overload", "dp@2500", "drive-on", "dp-not-zero", "restriction", "zero-sensor",
"oil-good",
          "dp-sensor", "dp-raised", "P2463", "resistance@idle", "read-dp-running", "dp",
          "short-trips")  # fmt: skip
COMMANDS: tuple[tuple[str, ...], ...] = (
    ("judge",), ("why",), ("plan",), ("compare",), ("readings",), ("report",), ("ask",), ("cases",
    "list"),
    ("cases", "make"), ("cases",), ("rules", "check"), ("rules", "show"), ("rules", "backtest"),
    ("rules", "rates"), ("rules", "new"), ("records", "verify"), ("records", "list"), ("records",
    "replay"),
    ("records", "explain"), ("records", "keep"), ("records", "outcome"), ("records", "export"),
    ("completion",),
    ("records",), ("rules",), (), ("complete",),
)  # fmt: skip
# Never --watch, which ends only with Ctrl-C, nor --processes: starting them is slow, not broken.
OPTIONS: tuple[str, ...] = (
    "--json", "--more", "--at", "--as-of", "--language", "--help", "-h", "--version", "--shop",
    "--from",
    "--to", "--take", "--all", "--round", "--by", "--column", "--unit", "--decimals", "--customer",
    "--file",
    "--text", "--customer-language", "--sheet", "--from-sheet", "--fixed", "--answers",
    "--take-over",
    "--ledger", "--head", "--faults", "--cured-by", "--proved-by", "--case", "--people", "--alone",
    "--coverage", "--no-cases", "--since", "--until", "--vehicle", "--fault", "--n", "--seed",
    "--cases",
    "--synthetic", "--demonstration", "--decided", "--new", "--copy", "--",
)  # fmt: skip
ODD: tuple[str, ...] = (
    "", " ", "-1", "0", "1", "1,3", "2-1", "999999999999", "9" * 400, "1.5", "-0", "é", "\ud800",
    "\x1b[2J",
    "\u202e", "\x00", "a\nb", "\r", "--", "---", "-", ".", "..", "/", "/dev/null", "~", "*", "%s",
    "{0}",
    "{", "[bold]x[/bold]", "<script>alert(1)</script>", "=", "dp=", "=x", "dp=Druck 2",
    "dp=furlongs",
    "engine-speed=rpm", "comma", "point", "en", "fr", "xx", "de", "EN", "fr_FR.UTF-8",
    "../../etc/passwd",
    "x" * 300, "x" * 5000, "2031-03-14T09:05+01:00", "2031-03-14T12:00Z", "2031-03-14",
    "yesterday", "now",
    "9999-12-31T23:59-14:00", "0001-01-01T00:00+14:00", "arrival", "after-zero", "tech-1",
    "A. Customer",
    "none", "all", "log.csv", "case.yaml", "ledger", "shop.yaml", "bash", "zsh", "fish",
    "powershell",
    "--json=yes", "--at=", "--as-of=2", "--language=fr", "-o", "@case.yaml", "1f0c", "0" * 64,
)  # fmt: skip
ARGUMENTS = st.one_of(st.sampled_from(OPTIONS + ODD + ID + THINGS), st.text(max_size=20))
COMMAND_LINES = st.tuples(st.sampled_from(COMMANDS), st.lists(ARGUMENTS, max_size=5)).map(
    lambda parts: [*parts[0], *parts[1]]
)


def any_text(chance: Random, most: int = 40) -> str:
    """Characters of every plane, mostly of the first."""
    tops = (0x7F, 0x7F, 0xFF, 0x2FFF, 0xFFFF, 0x10FFFF)
    return "".join(
        chr(chance.randint(0, chance.choice(tops))) for _ in range(chance.randint(0, most))
    )


def line(chance: Random) -> str:
    """One line."""
    if chance.random() < 0.08:
        return any_text(chance)
    return " ".join(chance.choice(WORDS) for _ in range(chance.choice((1, 1, 1, 2, 2, 3, 5))))


# Right as they stand: one word more or less, or another, is what a slip makes of them.
GOOD: tuple[tuple[str, ...], ...] = (
    ("judge", "van"), ("judge", "case.yaml", "--as-of", "2"), ("why", "van", "dp@idle", "--json"),
    ("plan", "van", "--more"), ("report", "van", "--text"), ("readings", "log.csv", "--json"),
    ("cases", "list", "--all"), ("rules", "show", "soot-overload", "--no-cases"), ("--version",),
    ("records", "list", "--ledger", "ledger"), ("records", "verify", "--ledger", "ledger"),
    ("ask", "case.yaml", "--sheet"), ("completion", "bash"), ("records", "explain", "1", "--help"),
)  # fmt: skip


def command_line(chance: Random) -> list[str]:
    """A command with what belongs to it, or does not."""
    if chance.random() < 0.35:
        words = list(chance.choice(GOOD))
        at, way = chance.randrange(len(words)), chance.randrange(4)
        if way == 0:
            del words[at]
        elif way == 1:
            words[at] = chance.choice(chance.choice((ODD, THINGS)))
        elif way == 2:
            words.insert(at + 1, chance.choice(OPTIONS))
        return words
    words = list(chance.choice(COMMANDS))
    if chance.random() < 0.6:
        words.append(chance.choice(ID))
    for _ in range(chance.choice((0, 1, 1, 2, 2, 3, 4))):
        words.insert(
            chance.randint(min(1, len(words)), len(words)),
            any_text(chance, 12) if chance.random() < 0.05
            else chance.choice(chance.choice((OPTIONS, OPTIONS, ODD, THINGS))),
        )  # fmt: skip
    return words
