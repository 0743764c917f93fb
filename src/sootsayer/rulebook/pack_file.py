"""Texts of packs → readable packs: their headers, their shape."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from sootsayer.documents.nodes import Document, Listing, Mapping, Place, Scalar
from sootsayer.documents.problems import Refused
from sootsayer.documents.schema_check import check_schema
from sootsayer.documents.yaml_source import parse_document
from sootsayer.rulebook.basis_from import read_basis
from sootsayer.rulebook.desk import Desk, Malformed, Pack
from sootsayer.rulebook.model import Basis
from sootsayer.rulebook.overrides_from import apply_overrides
from sootsayer.rulebook.pack_texts import PackText, pack_texts, unread
from sootsayer.rulebook.shipped import shipped_rules

FORMAT = 1


def read_packs(desk: Desk, folders: Sequence[Path]) -> list[Pack]:
    """Every pack in the folders that can be read, by id; problems go to the desk.

    Of two packs with one id the one in the earlier folder is read. A pack may be named by its
    file instead of its folder.
    """
    return packs_of(desk, pack_texts(desk, folders))


def packs_of(desk: Desk, texts: Sequence[PackText]) -> list[Pack]:
    """Every pack of the texts that can be read, by id; problems go to the desk."""
    documents = []
    for text in texts:
        try:
            documents.append(parse_document(text.data, text.file))
        except Refused as refused:
            unread(desk, Path(text.file), refused)
    schema = _schema()
    packs: dict[str, Pack] = {}
    for document in documents:
        desk.lines[document.file] = document.lines
        pack = _pack(desk, document, schema)
        if pack is None:
            desk.names.unreadable.add(Path(document.file).stem)
        elif pack.id in packs:
            desk.names.unreadable.update({pack.id, Path(document.file).stem})
            desk.wrong(
                _place(document, "pack"),
                f'the pack "{pack.id}" is in two files, also in {packs[pack.id].document.file}, '
                "and only that one is read",
                "rename one of them: file and id",
                first=True,
            )
        else:
            packs[pack.id] = pack
    _uses_exist(desk, packs)
    return [packs[name] for name in sorted(packs)]


def with_overrides(desk: Desk, packs: Sequence[Pack]) -> list[Pack]:
    """The packs with the shops' own numbers in them, each looked at again where it changed."""
    found = []
    for before, after in zip(packs, apply_overrides(desk, packs), strict=True):
        if after is not before and before.shape_is_right:
            shape = check_schema(after.document, _schema())
            for each in shape:
                desk.wrong(each.place, each.what, each.instead)  # in the shop's file: its own line
            after = replace(after, shape_is_right=not shape)
        found.append(after)
    return found


@cache
def _schema() -> dict[str, Any]:
    path = shipped_rules() / "schema" / "pack.schema.json"
    schema: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return schema


def _pack(desk: Desk, document: Document, schema: dict[str, Any]) -> Pack | None:
    root = document.root
    version = root.get("format")
    if isinstance(version, Scalar) and version.value != FORMAT:
        desk.wrong(
            version.place,
            f"this pack has format {version.text}, and only format {FORMAT} is known here",
            f"write `format: {FORMAT}`, or use a newer version of this program",
            first=True,
        )
        desk.unread = True
        return None
    shape = check_schema(document, schema)
    desk.problems.extend(shape)
    name = root.get("pack")
    if not isinstance(name, Scalar):
        return None
    if name.text != Path(document.file).stem:
        desk.wrong(
            name.place,
            f'the pack "{name.text}" is in the file {Path(document.file).name}',
            f"name the file {name.text}.yaml, or the pack {Path(document.file).stem}",
            first=True,
        )
    return Pack(name.text, _uses(root), _basis(desk, root), document, not shape)


def _uses(root: Mapping) -> frozenset[str]:
    node = root.get("uses")
    if not isinstance(node, Listing):
        return frozenset()
    return frozenset(each.text for each in node if isinstance(each, Scalar))


def _basis(desk: Desk, root: Mapping) -> Basis | None:
    node = root.get("basis")
    try:
        return None if node is None else read_basis(desk, node)
    except Malformed:
        return None  # the schema has said so


def _uses_exist(desk: Desk, packs: dict[str, Pack]) -> None:
    known = {*packs, *desk.names.unreadable}
    for pack in packs.values():
        node = pack.document.root.get("uses")
        for each in node if isinstance(node, Listing) else ():
            if isinstance(each, Scalar) and each.text not in known:
                desk.wrong(
                    each.place,
                    f'there is no pack "{each.text}"',
                    f"put {each.text}.yaml into one of the folders, or leave it out",
                )


def _place(document: Document, key: str) -> Place:
    return document.root.key_places.get(key, document.root.place)
