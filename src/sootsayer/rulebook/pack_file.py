"""Texts of packs → readable packs: their headers, their shape."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from sootsayer.catalogue import say, shown
from sootsayer.documents.nodes import Document, Listing, Mapping, Place, Scalar
from sootsayer.documents.problems import Refused
from sootsayer.documents.schema_check import check_schema
from sootsayer.documents.yaml_source import parse_document
from sootsayer.rulebook.basis_from import read_basis
from sootsayer.rulebook.desk import Desk, Malformed, Pack, instead_of_format
from sootsayer.rulebook.model import Basis
from sootsayer.rulebook.overrides_from import apply_overrides
from sootsayer.rulebook.pack_texts import PackText, pack_texts, unread
from sootsayer.rulebook.shipped import shipped_rules

FORMAT = 1
IN_TWO_FILES = 'the pack "{pack}" is in two files, also in {file}, and only that one is read'
OTHER_FORMAT = "this pack has format {format}, and only format {known} is known here"
PUT_IT_THERE = "put {pack}.yaml into one of the folders, or leave it out"


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
            what = say(IN_TWO_FILES, pack=pack.id, file=packs[pack.id].document.file)
            instead = say("rename one of them: file and id")
            desk.wrong(_place(document, "pack"), what, instead, first=True)
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
                # in the shop's file: its own line
                desk.wrong(each.place, shown(each.what), shown(each.instead))
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
            say(OTHER_FORMAT, format=version.text, known=FORMAT),
            instead_of_format(FORMAT),
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
        file = Path(document.file)
        desk.wrong(
            name.place,
            say('the pack "{pack}" is in the file {file}', pack=name.text, file=file.name),
            say("name the file {pack}.yaml, or the pack {stem}", pack=name.text, stem=file.stem),
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
                what = say('there is no pack "{pack}"', pack=each.text)
                desk.wrong(each.place, what, say(PUT_IT_THERE, pack=each.text))


def _place(document: Document, key: str) -> Place:
    return document.root.key_places.get(key, document.root.place)
