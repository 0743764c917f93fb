"""Proposals as a pack that a person may take over by hand, shown as a difference to nothing."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from sootsayer.casework.append import plain_or_quoted, quoted
from sootsayer.catalogue import Said, listed, say
from sootsayer.catalogue_numbers import fixed
from sootsayer.documents.escaping import visible
from sootsayer.documents.problems import Refused
from sootsayer.learning.rates.proposals import Proposal
from sootsayer.rulebook.as_written import Path, Written, evidence_as_written
from sootsayer.rulebook.compiled import PackText, rulebook_from
from sootsayer.rulebook.model import Model, Override

PACK = "shop-rates"
UNFIT = "the numbers of this finding do not fit one another then: change them together, by hand"
HEAD = """\
Counted, not judged. Look at each line, take out what you do not believe, and run
`sootsayer rules backtest {pack}.yaml` before it counts."""
TITLE = "Numbers counted from our own closed cases"
SEEN = "seen {count} of {n}, 95 % {low} to {high}"
LEVEL = "{level} {count} of {n}, 95 % {low} to {high}"


@dataclass(frozen=True, slots=True)
class Drawn:
    """The pack as text, and of each proposal that is not in it, why not."""

    pack: str
    text: str
    left_out: tuple[tuple[Proposal, str], ...]


def drawn_up(
    model: Model, texts: Sequence[PackText], found: Sequence[Proposal], source: str
) -> Drawn:
    """The pack with every proposal that can stand; `source`: which cases, for its basis."""
    name = _free_name(texts)
    as_written = evidence_as_written(texts)
    taken = {(each.of, each.path): each for each in model.overrides}
    left_out = [(each, why) for each in found if (why := _why_not(each, as_written, taken))]
    fits = [each for each in found if not _why_not(each, as_written, taken)]
    text = _pack(name, fits, as_written, source)
    if fits and not _is_taken(texts, name, text):
        # Which of them it is shows finding by finding: all numbers of one belong together.
        good: list[Proposal] = []
        for about in dict.fromkeys(each.rate.of for each in fits):
            group = [each for each in fits if each.rate.of == about]
            if _is_taken(texts, name, _pack(name, group, as_written, source)):
                good += group
            else:
                left_out += [(each, say(UNFIT)) for each in group]
        fits = [each for each in fits if each in good]
        text = _pack(name, fits, as_written, source)
    return Drawn(name, text if fits else "", tuple(left_out))


def as_diff(drawn: Drawn) -> Iterator[str]:
    """Lines of a unified difference that would add the pack."""
    for each, why in drawn.left_out:
        path = " → ".join(each.path)
        counted = _counted(each)
        yield say(
            "# {of}, {path}: {counted}; {why}", of=each.of, path=path, counted=counted, why=why
        )
    if not drawn.text:
        return
    lines = drawn.text.splitlines()
    yield "--- /dev/null"
    yield f"+++ packs/{drawn.pack}.yaml"
    yield f"@@ -0,0 +1,{len(lines)} @@"
    yield from (f"+{visible(line)}" for line in lines)


def _free_name(texts: Sequence[PackText]) -> str:
    taken = {text.file.replace("\\", "/").rpartition("/")[2] for text in texts}
    names = (PACK if i == 1 else f"{PACK}-{i}" for i in range(1, len(texts) + 2))
    return next(name for name in names if f"{name}.yaml" not in taken)


def _why_not(
    each: Proposal,
    as_written: Mapping[tuple[str, Path], Written],
    taken: Mapping[tuple[str, Path], Override],
) -> str:
    if each.now is None:
        return each.because
    override = taken.get((each.of, each.path))
    if override is not None:
        return say(
            "overridden already at {place}: write `now: {now}` there",
            place=override.place,
            now=each.now,
        )
    if (each.of, each.path) in as_written:
        return ""
    return say("where it is written was not found")


def _pack(
    name: str,
    found: Collection[Proposal],
    as_written: Mapping[tuple[str, Path], Written],
    source: str,
) -> str:
    there = [(each, as_written[each.of, each.path]) for each in found]
    uses = sorted({at.pack for _, at in there})
    lines = [
        *(f"# {line}" for line in say(HEAD, pack=name).split("\n")),
        f"pack: {name}",
        "format: 1",
        f"title: {plain_or_quoted(say(TITLE))}",
        f"uses: [{', '.join(uses)}]",
        f"basis: {{kind: shop, source: {quoted(source)}}}",
        "overrides:",
    ]
    for each, at in there:
        keys = ", ".join(each.path)
        where = f"[{keys}]" if len(each.path) > 1 else keys
        lines.append(
            f"  - {{of: {each.of}, at: {where}, was: {at.text}, now: {each.now}, "
            f"why: {quoted(_counted(each))}}}"
        )
    return "".join(f"{line}\n" for line in lines)


def _counted(each: Proposal) -> Said:
    rate = each.rate
    parts = [
        say(
            LEVEL if len(rate.levels) > 1 else SEEN,
            level=share.level,
            count=share.count,
            n=rate.n,
            low=fixed(share.jeffreys.low, 3),
            high=fixed(share.jeffreys.high, 3),
        )
        for share in rate.levels
    ]
    return say("{parts}; {count} left out", parts=listed(parts), count=rate.left_out)


def _is_taken(texts: Sequence[PackText], name: str, text: str) -> bool:
    """Whether the rulebook can be read with it."""
    try:
        rulebook_from((*texts, PackText(f"packs/{name}.yaml", text.encode())))
    except Refused:
        return False
    return True
