"""The compiled rulebook kept from one run to the next, known by the digest of all it is made of.

What is kept is the checked model as JSON. The name of the file is the digest of every pack's name
and bytes, the schema, and the program that read them; inside stands the digest of what follows.
What is not exactly right is as if it were not there: the packs are read, checked and kept anew.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

import sootsayer
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Refused
from sootsayer.documents.resting import collector_at_rest
from sootsayer.engine import conditions
from sootsayer.rulebook import compiled, model
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.kept_folder import kept_folder, read_kept, still_wanted, write_kept
from sootsayer.rulebook.kept_form import read, written
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.pack_texts import PackText, texts_in
from sootsayer.rulebook.shipped import shipped_rules

FORMAT = 2
LIKE = "rulebook-*.json"
# What the model depends on: rooms whose code may be changed in a checkout without a new version.
_ROOMS = ("belief", "documents", "engine", "physics", "rulebook", "rulebook/lint")
_WRONG = (ValueError, TypeError, KeyError, IndexError, AttributeError, RecursionError)


def load_kept(folders: Sequence[Path], environment: Mapping[str, str]) -> Rulebook:
    """As `load_rulebook`, from what was kept of these very packs where that can be trusted.

    Raises Refused as it does.
    """
    place = kept_folder(environment)
    texts = None if place is None else _texts(folders)
    if place is None or texts is None:
        return compiled.load_rulebook(folders)
    key = key_of(texts)
    name, files = LIKE.replace("*", key), [text.file for text in texts]
    found = rulebook_in(read_kept(place, name), key, files)
    if found is not None:
        still_wanted(place, name)
        return found
    rulebook = compiled.rulebook_from(texts)
    text = text_of(rulebook.model, key, files)
    if text is not None:
        write_kept(place, name, text, LIKE)
    return rulebook


def _texts(folders: Sequence[Path]) -> list[PackText] | None:
    """The packs by name; None where they cannot be read, or two have one name: whoever reads
    them says what is wrong."""
    try:
        texts = sorted(texts_in(folders), key=_name)
    except Refused:
        return None
    return texts if len({_name(text) for text in texts}) == len(texts) else None


def _name(text: PackText) -> str:
    return Path(text.file).name


def key_of(texts: Iterable[PackText]) -> str:
    """SHA-256 (hex) of all that the model of these packs is made of."""
    digest = hashlib.sha256()
    schema = shipped_rules() / "schema" / "pack.schema.json"
    parts = [("format", str(FORMAT).encode()), ("program", _program().encode())]
    parts += [("schema", schema.read_bytes()), *((_name(text), text.data) for text in texts)]
    for name, data in parts:
        for each in (name.encode("utf-8", "surrogatepass"), data):
            digest.update(len(each).to_bytes(8, "big"))
            digest.update(each)
    return digest.hexdigest()


def _program() -> str:
    """The version, and the files that it is in as they stand: name, size and time of each."""
    found = [sootsayer.__version__]
    package = Path(sootsayer.__file__).parent
    for room in _ROOMS:
        for path in sorted((package / room).glob("*.py")):
            status = path.stat()
            found.append(f"{room}/{path.name} {status.st_size} {status.st_mtime_ns}")
    return "\n".join(found)


def text_of(of: Model, key: str, files: Sequence[str]) -> str | None:
    """What is kept of a model: a line about the rest, and the rest. None where something in it
    has no form; it is then read anew each time."""
    try:
        body = json.dumps(written(of, files), separators=(",", ":"))
    except _WRONG:
        return None
    return f"{_heading(key, body.encode())}\n{body}\n"


def rulebook_in(data: bytes | None, key: str, files: Sequence[str]) -> Rulebook | None:
    """The rulebook of what was kept; None where no model is in it, or one that makes no rulebook:
    what nobody of ours wrote may have anything where a rule should be."""
    found = model_in(data, key, files)
    try:
        return None if found is None else compiled.rulebook_of(found)
    except _WRONG:
        return None


def model_in(data: bytes | None, key: str, files: Sequence[str]) -> Model | None:
    """The model in what was kept; None where that is not whole, or of something else."""
    heading, _, rest = (data or b"").partition(b"\n")
    body = rest[:-1]
    if rest[-1:] != b"\n" or heading != _heading(key, body).encode():
        return None
    try:
        with collector_at_rest():
            return read(Model, json.loads(body), files, _kinds())
    except _WRONG:
        return None


def _kinds() -> dict[str, type]:
    """The classes that a model is made of, and others beside them, by name."""
    kinds: dict[str, type] = {Place.__name__: Place}
    for module in (conditions, model):
        kinds |= {name: each for name, each in vars(module).items() if isinstance(each, type)}
    return kinds


def _heading(key: str, body: bytes) -> str:
    told = {"kept": "rulebook", "format": FORMAT, "of": key, "sha256": _sha256(body)}
    return json.dumps(told, sort_keys=True)


def _sha256(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()
