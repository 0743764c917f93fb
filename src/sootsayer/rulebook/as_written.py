"""Numbers of evidence as they stand in the packs: what an override has to name as `was`."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from sootsayer.documents.nodes import Listing, Mapping, Node, Scalar
from sootsayer.documents.problems import Refused
from sootsayer.documents.yaml_source import parse_document
from sootsayer.rulebook.pack_texts import PackText
from sootsayer.rulebook.paths import written

Path = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Written:
    """A number, or a spread, in one line as it might be written; in which pack, where."""

    text: str
    pack: str
    file: str
    line: int


def evidence_as_written(texts: Iterable[PackText]) -> dict[tuple[str, Path], Written]:
    """By id and the keys below it, as an override names them: every `seen with`, `otherwise` and
    `hides`. Of several the first stands; what cannot be read is passed over."""
    found: dict[tuple[str, Path], Written] = {}
    for text in texts:
        try:
            document = parse_document(text.data, text.file)
        except Refused:
            continue
        pack = document.root.get("pack")
        name = pack.text if isinstance(pack, Scalar) else ""
        for key, node in (*_blocks(document.root), *_hides(document.root)):
            at = Written(written(node), name, node.place.file, node.place.line)
            found.setdefault(key, at)
    return found


def _blocks(root: Mapping) -> Iterator[tuple[tuple[str, Path], Node]]:
    body = root.get("evidence")
    for node in body if isinstance(body, Listing) else ():
        about = node.get("finding") if isinstance(node, Mapping) else None
        if not isinstance(node, Mapping) or not isinstance(about, Scalar):
            continue
        if "otherwise" in node:
            yield (about.text, ("otherwise",)), node["otherwise"]
        seen = node.get("seen with")
        for fault, share in seen.items.items() if isinstance(seen, Mapping) else ():
            yield (about.text, ("seen with", fault)), share


def _hides(root: Mapping) -> Iterator[tuple[tuple[str, Path], Node]]:
    faults = root.get("faults")
    for name, body in faults.items.items() if isinstance(faults, Mapping) else ():
        hides = body.get("hides") if isinstance(body, Mapping) else None
        for family, spread in hides.items.items() if isinstance(hides, Mapping) else ():
            yield (name, ("hides", family)), spread
