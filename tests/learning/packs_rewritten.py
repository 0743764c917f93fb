"""A pack's text with computed numbers in place of those that physics can give."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from sootsayer.documents.nodes import Listing, Mapping, Node, Scalar
from sootsayer.documents.yaml_source import read_document
from sootsayer.learning.computed_links import Links, speaks
from sootsayer.learning.projection import written, written_link
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.reads import family_of, levels_of

Spread = tuple[float, ...]
PEOPLE = "    # What only people know."


@dataclass(frozen=True, slots=True)
class Change:
    """Lines `first` to `last` (from 1, both included) become `lines`."""

    first: int
    last: int
    lines: tuple[str, ...]


def rewritten(path: Path, model: Model, links: Links, source: str) -> str:
    """The pack's text with its evidence blocks and `hides` brought to the computed numbers."""
    lines = path.read_text(encoding="utf-8").splitlines()
    root = read_document(path).root
    lines = _with_hides(root, lines, model, links)
    changes = list(_evidence(root, lines, model, links, source))
    for change in sorted(changes, key=lambda each: -each.first):
        lines[change.first - 1 : change.last] = change.lines
    return "\n".join(lines) + "\n"


def said(
    model: Model, block: str, spread: Sequence[float], otherwise: Sequence[float] | None = None
) -> str:
    """A spread as packs write it: percentages by level, or the frequency of a binary finding;
    with `otherwise`, as a link that only raises it."""
    family = family_of(model, block) if block in model.findings else block
    levels = levels_of(model, family)
    if levels == ("false", "true"):
        least = 0.001 if otherwise is None else otherwise[1]
        return f"{min(max(spread[1], least), 0.999):.3g}"
    parts = written(spread) if otherwise is None else written_link(otherwise, spread)
    shares = ", ".join(f"{name}: {x:g}" for name, x in zip(levels, parts, strict=True))
    return f"{{{shares}}}"


def _evidence(
    root: Mapping, lines: Sequence[str], model: Model, links: Links, source: str
) -> Iterator[Change]:
    blocks = root.get("evidence")
    for item in blocks if isinstance(blocks, Listing) else ():
        finding = item.get("finding") if isinstance(item, Mapping) else None
        seen = item.get("seen with") if isinstance(item, Mapping) else None
        if not isinstance(finding, Scalar) or not isinstance(seen, Mapping):
            continue
        block = str(finding.value)
        every = model.evidence[block].seen_with
        # Where another pack's block has what is computed, `otherwise` moves under this one too.
        if block in links.otherwise and any(speaks(links, block, fault) for fault in every):
            assert isinstance(item, Mapping)
            yield _block(item, seen, block, lines, model, links, source)


def _block(
    item: Mapping,
    seen: Mapping,
    block: str,
    lines: Sequence[str],
    model: Model,
    links: Links,
    source: str,
) -> Change:
    first, last = item.place.line, max(_lines_of(item))
    inside = [line for line in lines[first - 1 : last] if line.strip().startswith("#")]
    # The share as written, so that the links are made to raise just that.
    otherwise = _as_written(links.otherwise[block])
    ours = {
        fault: said(model, block, links.seen[block, fault], otherwise)
        for fault in seen.items
        if speaks(links, block, fault)
    }
    new = [f"  - finding: {block}", *inside]
    if ours:
        new += _links(ours)
        if "otherwise" in item:
            new.append(f"    otherwise: {said(model, block, links.otherwise[block])}")
        new.append(f'    basis: {{kind: computed, source: "{source}"}}')
    rest = {
        fault: said(model, block, model.evidence[block].seen_with[fault], otherwise)
        for fault in seen.items
        if fault not in ours and fault in model.evidence[block].seen_with
    }
    if rest and ours:
        new += [f"  - finding: {block}", PEOPLE]
    if rest:
        new += _links(rest)
        if "otherwise" in item and not ours:
            new.append(f"    otherwise: {said(model, block, links.otherwise[block])}")
        new += _old_basis(item, lines)
    return Change(first, last, tuple(new))


def _as_written(spread: Spread) -> Spread:
    if len(spread) == 2:
        return (1.0 - float(f"{spread[1]:.3g}"), float(f"{spread[1]:.3g}"))
    return tuple(x / 100.0 for x in written(spread))


def _links(said_of: dict[str, str]) -> list[str]:
    if all("{" not in text for text in said_of.values()):
        inside = ", ".join(f"{fault}: {text}" for fault, text in said_of.items())
        return [f"    seen with: {{{inside}}}"]
    return ["    seen with:", *(f"      {fault}: {text}" for fault, text in said_of.items())]


def _old_basis(item: Mapping, lines: Sequence[str]) -> list[str]:
    basis = item.get("basis")
    if not isinstance(basis, Mapping):
        return []
    kind = basis.get("kind")
    if isinstance(kind, Scalar) and kind.value == "computed":
        return []  # it was the basis of the part that is written above
    return [lines[item.key_places["basis"].line - 1]]


def _with_hides(root: Mapping, lines: Sequence[str], model: Model, links: Links) -> list[str]:
    """Each `hides` of a computed family with its number replaced where it stands."""
    found = list(lines)
    faults = root.get("faults")
    for fault, node in faults.items.items() if isinstance(faults, Mapping) else ():
        hides = node.get("hides") if isinstance(node, Mapping) else None
        for family, value in hides.items.items() if isinstance(hides, Mapping) else ():
            spread = links.hides.get((fault, family))
            if spread is None:
                continue
            at, line = value.place, found[value.place.line - 1]
            start = at.column - 1
            end = line.index("}", start) + 1 if line[start] == "{" else _end_of_word(line, start)
            found[at.line - 1] = line[:start] + said(model, family, spread) + line[end:]
    return found


def _end_of_word(line: str, start: int) -> int:
    end = start
    while end < len(line) and line[end] not in ",} \t":
        end += 1
    return end


def _lines_of(node: Node) -> Iterator[int]:
    yield node.place.line
    if isinstance(node, Mapping):
        for key in node.key_places.values():
            yield key.line
    inner = node.items.values() if isinstance(node, Mapping) else ()
    for each in node.items if isinstance(node, Listing) else inner:
        assert not isinstance(each, str)
        yield from _lines_of(each)
