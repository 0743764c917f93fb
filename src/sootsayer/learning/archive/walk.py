"""Through a whole shelf in one fixed order, with no more in memory than one folder's names."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sootsayer.catalogue import say
from sootsayer.documents.system_words import refusal_said
from sootsayer.learning.archive.shelf import NO_CASES, NOT_LOOKED_INTO, SUFFIX, Shelf


@dataclass(frozen=True, slots=True)
class Item:
    """A file that may be a case, by its name on the shelf; or, with `trouble`, a folder that
    could not be looked into."""

    name: str
    mark: str = ""
    trouble: str = ""


LOOP = "this folder leads back into itself by a link"


def items(shelf: Shelf, folder: str = "", above: tuple[str, ...] = ()) -> Iterator[Item]:
    """Every file that may be a case, names sorted in each folder; what begins with a dot is
    passed over. A link that leads back into its own folder is told once and not followed."""
    here = (*above, shelf.mark(folder))
    try:
        listed = sorted(shelf.listed(folder), key=lambda each: each.name)
    except OSError as error:
        yield Item(folder or ".", trouble=refusal_said(error))
        return
    for each in listed:
        name = f"{folder}/{each.name}" if folder else each.name
        if each.name.startswith("."):
            continue
        if not each.is_folder:
            if each.name.endswith(SUFFIX) and each.name not in NO_CASES:
                yield Item(name, each.mark)
        elif each.name not in NOT_LOOKED_INTO:
            if each.mark and each.mark in here:
                yield Item(name, trouble=say(LOOP))
            else:
                yield from items(shelf, name, here)
