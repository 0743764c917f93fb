"""The shop's own folder: where it is, and what its settings are.

Nothing in this program writes into the folder but what a person asks for: a case is begun
and added to, a record is kept. An upgrade replaces the program and never touches it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Document, Place
from sootsayer.documents.problems import Problem, Refused
from sootsayer.rulebook.model import Money, Span

SHOP_FILE = "shop.yaml"
PACKS, CASES, RECORDS = "packs", "cases", "records"
VARIABLE = "SOOTSAYER_SHOP"
WRITE_ONE_THERE = "name the shop's own folder, or write a {file} there with `format: 1`"


@dataclass(frozen=True, slots=True)
class ShopLimit:
    """A shop's own value of a limit: `value` in `unit`, as `typed`, and where it was read.

    As read from the file the unit may be any, and is None where none was written; once held
    against a rulebook (`fitted`) it is the limit's own.
    """

    value: float
    unit: str | None
    typed: str
    source: str
    place: Place


@dataclass(frozen=True, slots=True)
class Shop:
    """The settings of a shop and where its folder is.

    `language`: its code, "" where none is named; `units`: a unit of the packs to the one shown
    instead; `labour_rate` per hour and `prices` (remedy to the range of its parts) in `currency`,
    None and absent where not known; `times`: remedy to its minutes; `chances`: remedy to how often
    it cures each fault; `unrepaired`: ending so counts as so many times all the work that is open,
    None for the usual; `tools` at hand, None where nothing is said: then all are; `ages`: interlock
    to the greatest age of its readings in minutes. `digest`: SHA-256 (hex) of the settings, without
    the name.
    """

    folder: Path
    document: Document = field(repr=False, compare=False)
    name: str = ""
    language: str = ""
    units: dict[str, str] = field(default_factory=dict)
    currency: str = ""
    labour_rate: float | None = None
    prices: dict[str, Money] = field(default_factory=dict)
    times: dict[str, Span] = field(default_factory=dict)
    chances: dict[str, dict[str, float]] = field(default_factory=dict)
    unrepaired: float | None = None
    tools: tuple[str, ...] | None = None
    ages: dict[str, float] = field(default_factory=dict)
    limits: dict[str, ShopLimit] = field(default_factory=dict)
    digest: str = ""

    @property
    def packs(self) -> Path:
        return self.folder / PACKS

    @property
    def cases(self) -> Path:
        return self.folder / CASES

    @property
    def records(self) -> Path:
        return self.folder / RECORDS

    def pack_folders(self) -> tuple[Path, ...]:
        """The folder packs/ for `load_rulebook`; nothing where the shop has no pack of its own.

        A folder that cannot be looked into is named too, so that reading it says why.
        """
        try:
            own = any(each.suffix == ".yaml" for each in self.packs.iterdir())
        except (FileNotFoundError, NotADirectoryError):
            return ()
        except OSError:
            own = True
        return (self.packs,) if own else ()


def find_shop(explicit: Path | None, environ: Mapping[str, str], start: Path) -> Path | None:
    """The shop's folder: `explicit` (--shop), else SOOTSAYER_SHOP, else upward from `start`.

    None where there is none upward. Raises Refused where a folder was named and holds no
    shop.yaml.
    """
    if explicit is not None:
        return _named(explicit, "--shop")
    variable = environ.get(VARIABLE, "")
    if variable:
        return _named(Path(variable), VARIABLE)
    here = start.absolute()
    return next((folder for folder in (here, *here.parents) if _is_shop(folder)), None)


def _is_shop(folder: Path) -> bool:
    try:
        return (folder / SHOP_FILE).is_file()
    except (OSError, ValueError):  # no right to look, or no name of a folder
        return False


def _named(folder: Path, by: str) -> Path:
    if _is_shop(folder):
        return folder
    if _is_shop(folder.parent) and folder.name == SHOP_FILE:
        what = say("this is a file, not a shop's folder")
        instead = say("name its folder: {folder}", folder=folder.parent)
    elif _is_folder(folder):
        what = say("there is no {file} in this folder, which {by} names", file=SHOP_FILE, by=by)
        instead = say(WRITE_ONE_THERE, file=SHOP_FILE)
    else:
        what = say("there is no such folder, which {by} names", by=by)
        instead = say("name the folder that holds the {file}", file=SHOP_FILE)
    raise Refused([Problem(Place(str(folder), 1, 1), what, instead)])


def _is_folder(path: Path) -> bool:
    try:
        return path.is_dir()
    except (OSError, ValueError):
        return False
