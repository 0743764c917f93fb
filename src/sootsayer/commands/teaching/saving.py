"""Where the pack goes: the shop's folder, made where there is none."""

from __future__ import annotations

import os
import shlex
from pathlib import Path

from sootsayer.catalogue import Said, say, shown
from sootsayer.commands.leaving import Stop
from sootsayer.commands.new_shop import new_shop
from sootsayer.commands.teaching.talk import NotTaken, Talk
from sootsayer.commands.usage import short
from sootsayer.console import rules_new_texts as t
from sootsayer.documents.nodes import Document, Mapping, Place
from sootsayer.documents.problems import Refused
from sootsayer.documents.writing import CannotWrite, reason_of, replace_file
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.shop import SHOP_FILE, Shop, find_shop


def shop_at(talk: Talk) -> Shop:
    """A shop where somebody wants it; its files are written with the pack."""

    def read(typed: str) -> Shop:
        folder = Path(typed).expanduser()
        if folder.exists() and not folder.is_dir():
            why = say("it is a file")
            raise NotTaken(say(t.SHOP_NOT, folder=short(typed), why=why), say(t.SHOP_NOT_NEXT))
        place = Place(str(folder / SHOP_FILE), 1, 1)
        return Shop(folder, Document(str(folder / SHOP_FILE), Mapping({}, {}, place), ()))

    return talk.ask(say(t.WHERE_SHOP), say(t.WHERE_SHOP_HELP), read, "my-shop")


def found_by(shop: Shop) -> Said:
    """The option that the next command needs to find the shop; "" where it finds it by itself."""
    try:
        found = find_shop(None, os.environ, Path.cwd())
    except Refused:
        found = None
    if found is not None and found.resolve() == shop.folder.resolve():
        return Said("")
    return say(t.SHOP_OPTION, folder=shlex.quote(str(shop.folder)))


def save_pack(shop: Shop, file: Path, text: str, model: Model) -> None:
    """Write the pack, never over one that is there, and the shop's settings if it is new.

    Raises Stop.
    """
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        shop.cases.mkdir(exist_ok=True)
        settings = shop.folder / SHOP_FILE
        if not settings.exists():
            replace_file(settings, new_shop(model), new=True)
        replace_file(file, text, new=True)
    except CannotWrite as refused:
        what = say(t.CANNOT, file=short(str(file)), why=refused.why)
        raise Stop(what, say(t.CANNOT_NEXT)) from None
    except OSError as error:
        what = say(t.CANNOT, file=short(str(file)), why=shown(reason_of(error)))
        raise Stop(what, say(t.CANNOT_NEXT)) from None
