"""The texts of packs: which files there are, and their bytes. Nothing is parsed here."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Refused
from sootsayer.documents.reading import read_bytes
from sootsayer.documents.system_words import refusal_said
from sootsayer.rulebook.desk import Desk
from sootsayer.rulebook.names import Names

NAME_A_FOLDER = "name a folder that holds packs (*.yaml)"


@dataclass(frozen=True, slots=True)
class PackText:
    """A pack as it stands on the disk: where, and its bytes. It can be sent to another machine."""

    file: str
    data: bytes


def pack_texts(desk: Desk, folders: Sequence[Path]) -> list[PackText]:
    """The text of every pack in the folders; problems go to the desk."""
    found = []
    for path in _files(desk, folders):
        try:
            found.append(PackText(str(path), read_bytes(path, str(path))))
        except Refused as refused:
            unread(desk, path, refused)
    return found


def texts_in(folders: Sequence[Path]) -> tuple[PackText, ...]:
    """Every pack in the folders, as it stands there. Raises Refused where one cannot be read."""
    desk = Desk(Names())
    texts = pack_texts(desk, folders)
    if desk.problems:
        raise Refused(dict.fromkeys(desk.problems))
    return tuple(texts)


def unread(desk: Desk, path: Path, refused: Refused) -> None:
    """What others follow from: this pack is not there at all."""
    desk.problems.extend(replace(each, first=True) for each in refused.problems)
    desk.names.unreadable.add(path.stem)
    desk.unread = True


def _files(desk: Desk, folders: Sequence[Path]) -> list[Path]:
    found: list[Path] = []
    for folder in folders:
        place = Place(str(folder), 1, 1)
        try:
            if folder.suffix == ".yaml" and not folder.is_dir():
                here = [folder]
            else:
                here = sorted(each for each in folder.iterdir() if each.match("*.yaml"))
        except (FileNotFoundError, NotADirectoryError):
            desk.wrong(place, say("there is no such folder"), say(NAME_A_FOLDER), first=True)
            desk.unread = True
            continue
        except OSError as error:
            what = say("the folder cannot be read ({reason})", reason=refusal_said(error))
            desk.wrong(place, what, say("ask its owner for the right to read it"), first=True)
            desk.unread = True
            continue
        if not here:
            desk.wrong(place, say("there is no pack in it"), say(NAME_A_FOLDER), first=True)
        found += here
    return list(dict.fromkeys(found))
