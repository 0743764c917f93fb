"""Bad cases and packs, one of each kind that may be met, with where and what is wrong in them."""

from __future__ import annotations

from dataclasses import dataclass

CASE = """\
case: bad
format: 1
vehicle: {label: 2.0 L panel van}
entries:
"""
START = "- {at: 2031-03-14T09:02+01:00, by: tech-1, round: arrival, "
PACK = """\
pack: NAME
format: 1
title: A bad pack
basis: {kind: memory}
"""


@dataclass(frozen=True, slots=True)
class Bad:
    """The bytes of a file, and what must be told of it: the line, and words of the message."""

    data: bytes
    told: tuple[tuple[int, str], ...]


def case(text: str, *told: tuple[int, str]) -> Bad:
    return Bad((CASE + text).encode(), told)


def pack(text: str, *told: tuple[int, str]) -> Bad:
    """A pack; the test names it after its file."""
    return Bad((PACK + text).encode(), told)


# What is refused before anyone asks what kind of file it is.
FILES = {
    "empty": Bad(b"", ((1, "empty"),)),
    "blank": Bad(b"# nothing\n\n", ((1, "empty"),)),
    "binary": Bad(bytes(range(256)) * 4 + b"\n", ((2, "0x80 is not UTF-8"), (5, "0x80"))),
    "zeros": Bad(bytes(5000) + b"\n", ((1, "NUL byte"),)),
    "word": Bad(b"hello\n", ((1, "a text, not keys"),)),
    "list": Bad(b"- a\n- b\n", ((1, "a list, not keys"),)),
    "two-documents": Bad(b"a: 1\n---\nb: 2\n", ((2, "document"),)),
}

CASES = FILES | {
    "broken": case(START + "source: scan, facts: {dp@rest: 18\n- {at: 9}\n", (6, 'closing "}"')),
    "forbidden": case(
        START + "source: scan, facts: {dp@rest: 1, dp@rest: 2, dp@idle: &a 3, dp@2500: *a}}\n"
        + START + "note: !!python/object/apply:os.system [echo]}\n"
        + START + "note: !!str x, <<: {by: me}}\n"
        + START + "note: a, note: b}\n",
        (5, 'the key "dp@rest" is already given'), (5, "anchor"), (5, "alias"),
        (6, "tag"), (7, "tag"), (7, "merge key"), (8, 'the key "note" is already given'),
    ),
    "not-numbers": case(
        START + "source: scan, facts: {dp@rest: .nan, dp@idle: .inf, dp@2500: -.inf}}\n"
        + START + "source: scan, facts: {soot-shown: NaN, soot-measured: 1e999}}\n"
        + START + "facts: {filter-km: 1e400 km}}\n",
        (5, '".nan" is no number'), (5, '".inf" is no number'), (5, '"-.inf" is no number'),
        (6, '"NaN" is no number'), (6, "soot-measured"), (7, "filter-km"),
    ),
    "brackets": case("- {at: " + "[" * 100_000 + "\n", (5, "nested deeper than 50")),
    "braces": case("- " + "{a: " * 100_000 + "b" + "}" * 100_000 + "\n", (5, "nested deeper")),
    "other-format": Bad(CASE.replace("format: 1", "format: 2").encode(), ((2, "has format 2"),)),
    "a-pack": Bad(PACK.encode(), ((1, '"pack" is not known'), (1, 'lacks the key "case"'))),
    "escapes": case(
        START + "note: a\x1b[2J}\n" + START + "note: \x9b1m}\n" + START + "by: \x07}\n",
        (5, "U+001B"), (6, "U+009B"), (7, "U+0007"),
    ),
    "written-escapes": case(
        START + 'note: "\\x1b]0;x\\a"}\n' + START + 'note: "\\0"}\n', (5, "escape"), (6, "escape")
    ),
}  # fmt: skip

MARKUP = "[red]x[/] :smile:"
# Markup in every place of a case that is not free text: each is refused, and quoted as it stands.
MARKED_CASE = """\
case: 'X'
format: 1
vehicle: {label: 'X', engine litres: 'X', fitted: {additive: 'X'}}
limits: {'X': 'X', dp-rest-max: 'X'}
entries:
- {at: 'X', by: 'X', round: 'X', source: 'X', facts: {'X': 'X', power-loss: 'X', dp@idle: 'X'}}
- {at: 2031-03-14T09:02+01:00, by: tech-1, round: arrival, none: {dp@idle: 'X'}}
- {at: 2031-03-14T09:02+01:00, by: tech-1, source: scan, codes: {read: 'X', list: ['X']}}
- {at: 2031-03-14T09:02+01:00, by: tech-1, work: 'X'}
- {at: 2031-03-14T09:02+01:00, by: tech-1, corrects: 'X', facts: {dp@idle: 1}}
- {at: 2031-03-14T09:02+01:00, by: t, outcome: {faults: ['X'], cured by: ['X'], proved by: 'X'}}
"""
CASES["markup"] = Bad(
    MARKED_CASE.replace("X", MARKUP).encode(),
    ((1, '"case" is the text "[red]x[/] :smile:"'), (4, 'unknown limit "[red]x[/] :smile:"'),
     (6, "is no date and time"), (6, "round"), (6, "unknown source"), (6, "unknown signal"),
     (6, "no choice"), (6, "is no number"), (7, "no reason"), (8, "is no trouble code"),
     (9, "work"), (11, "unknown fault")),
)  # fmt: skip
# Markup and a mark that reverses text wherever text is free: the case is good.
FREE_CASE = f"""\
case: free
format: 1
story: "{MARKUP} \u202estory"
vehicle: {{label: "{MARKUP} \u202elabel"}}
entries:
- {{at: 2031-03-14T09:02+01:00, by: tech-1, round: arrival, source: scan, facts: {{dp@rest: 18}}}}
- {{at: 2031-03-14T09:02+01:00, by: tech-1, note: "{MARKUP} \u202enote"}}
"""

PACKS = FILES | {
    "broken": pack("findings: {a: [b\nfaults: {}\n", (6, 'closing "]"')),
    "forbidden": pack(
        "signals:\n"
        "  one: {label: One, kind: yes-no, kind: yes-no}\n"
        "  two: &a {label: !!python/name:os.system x, kind: yes-no}\n"
        "  three: *a\n"
        "  one: {label: Again, kind: yes-no}\n",
        (6, 'the key "kind" is already given'), (7, "anchor"), (7, "tag"), (8, "alias"),
        (9, 'the key "one" is already given'),
    ),
    "not-numbers": pack(
        "signals:\n"
        "  heat: {label: Heat, kind: number, unit: C, possible: [.nan, .inf], error: -.inf}\n"
        "limits:\n"
        "  hot: {label: Hot, default: .nan C}\n"
        "faults:\n"
        "  fire: {label: Fire, kind: condition, prior: .inf}\n",
        (6, '".nan"'), (6, '".inf"'), (6, '"-.inf"'), (8, '".nan'), (10, '".inf"'),
    ),
    "brackets": pack("findings: " + "[" * 100_000 + "\n", (5, "nested deeper than 50")),
    "braces": pack("faults: " + "{a: " * 100_000 + "b" + "}" * 100_000 + "\n", (5, "nested deep")),
    "other-format": Bad(PACK.replace("format: 1", "format: 2").encode(), ((2, "has format 2"),)),
    "a-case": Bad(CASE.encode(), ((4, "has no value"),)),
    "escapes": pack("signals: {a: {label: x\x1b[2J, kind: yes-no}}\n# \x9b\n",
                    (5, "U+001B"), (6, "U+009B")),
    "written-escapes": pack('signals: {a: {label: "\\x1b[2J", kind: yes-no}}\n', (5, "escape")),
    "markup": pack(
        "uses: ['X']\nsignals:\n  'X': {label: 'X', kind: 'X'}\n"
        "findings:\n  f: {says: 'X', when: {'X': 'X'}, tests channel: 'X'}\n"
        "faults:\n  g: {label: 'X', kind: 'X', prior: 'X'}\n".replace("X", MARKUP),
        (5, 'no pack "[red]x[/] :smile:"'), (7, "[red]x[/] :smile:"), (9, "[red]x[/] :smile:"),
        (11, "[red]x[/] :smile:"),
    ),
}  # fmt: skip
