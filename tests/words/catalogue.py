"""The catalogues: `python -m tests.words.catalogue` brings them up to date.

It takes every text out of the program, puts what is new into each
`src/sootsayer/words/LANGUAGE/LC_MESSAGES/sootsayer.po`, takes out what is gone, sets the texts as
their language sets them, and compiles the `.mo` that the program reads. What it is not sure of it
marks fuzzy: that is not shown until a person has taken the mark away. With `--check` it changes
nothing and says what is to be done; with `--new LANGUAGE` it begins a catalogue.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Sequence
from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog, Message
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from sootsayer.tongues import DOMAIN, WORDS, slots_of
from tests.words.extracting import template
from tests.words.typography import as_set

HEADER = "# The texts of sootsayer in another language; how: docs/how-to/another-language.md"
BEGUN = """\
msgid ""
msgstr ""
"Content-Type: text/plain; charset=utf-8\\n"
"Language: {language}\\n"
"Plural-Forms: nplurals={forms}; plural={rule};\\n"
"""
PLURALS = {"fr": (2, "(n > 1)")}
"""Where Babel knows a form more than anybody needs here: French has one for millions."""


class Kept(Catalog):
    """A catalogue whose header says what is needed, and not when and by what it was written."""

    def _get_mime_headers(self) -> list[tuple[str, str]]:
        return [
            ("Content-Type", "text/plain; charset=utf-8"),
            ("Language", str(self.locale_identifier)),
            ("Plural-Forms", self.plural_forms),
        ]

    mime_headers = property(_get_mime_headers, Catalog._set_mime_headers)


def po_file(language: str) -> Path:
    """Where a language's texts are written."""
    return WORDS / language / "LC_MESSAGES" / f"{DOMAIN}.po"


def languages() -> list[str]:
    """Every language that has a catalogue to be kept."""
    return sorted(each.parents[1].name for each in WORDS.glob(f"*/LC_MESSAGES/{DOMAIN}.po"))


def read(language: str) -> Catalog:
    """The catalogue as it is written."""
    with po_file(language).open("rb") as opened:
        return read_po(opened, locale=language.replace("-", "_"), domain=DOMAIN, abort_invalid=True)


def refreshed(catalogue: Catalog, of: Catalog, language: str) -> Kept:
    """The catalogue with every text of the program and no other, its words set."""
    catalogue.update(of, update_header_comment=False, update_creation_date=False)
    kept = Kept(catalogue.locale, DOMAIN, header_comment=HEADER, fuzzy=False)
    kept.mime_headers = [("Plural-Forms", catalogue.plural_forms)]
    for message in catalogue:
        if message.id:
            message.flags.discard("python-format")
            message.string = _set(message.string or "", language)
            kept[message.id] = message
    return kept


def _set(string: str | Sequence[str], language: str) -> str | tuple[str, ...]:
    if isinstance(string, str):
        return as_set(string, language)
    return tuple(as_set(each, language) for each in string)


def po_bytes(catalogue: Kept) -> bytes:
    """The catalogue as its file holds it: in the order of files, without numbers of lines."""
    out = BytesIO()
    write_po(out, catalogue, width=100, sort_by_file=True, include_lineno=False)
    return out.getvalue()


def mo_bytes(catalogue: Kept) -> bytes:
    """The catalogue as the program reads it."""
    out = BytesIO()
    write_mo(out, catalogue)
    return out.getvalue()


def faults(catalogue: Catalog) -> Iterator[str]:
    """What a person has to look at: untranslated, unsure, or without the slots of the English."""
    for message in catalogue:
        if message.id:
            fault = fault_of(message, catalogue.num_plurals)
            if fault:
                yield f"{fault}: {message.id!r}"


def fault_of(message: Message, forms: int) -> str:
    """What is wrong with one text; "" where nothing is."""
    strings = [message.string] if isinstance(message.string, str) else list(message.string or "")
    ids = [message.id] if isinstance(message.id, str) else list(message.id)
    if not strings or not all(strings) or (message.pluralizable and len(strings) != forms):
        return "no words"
    if message.fuzzy:
        return "fuzzy"
    if any(slots_of(each) != slots_of(ids[-1]) for each in strings):
        return "other slots"
    return next((str(error) for error in message.check()), "")


def main(argv: Sequence[str] | None = None) -> int:
    """Bring every catalogue up to date; 1 where something is left for a person."""
    parser = argparse.ArgumentParser(prog="python -m tests.words.catalogue", description=__doc__)
    parser.add_argument("--check", action="store_true", help="change nothing")
    parser.add_argument("--new", metavar="LANGUAGE", help="begin this language")
    arguments = parser.parse_args(argv)
    of, left = template(), 0
    if arguments.new:
        file = po_file(arguments.new)
        file.parent.mkdir(parents=True, exist_ok=True)
        begun = Catalog(locale=arguments.new.replace("-", "_"))
        forms, rule = PLURALS.get(arguments.new, (begun.num_plurals, begun.plural_expr))
        text = BEGUN.format(language=arguments.new, forms=forms, rule=rule)
        file.write_text(text, encoding="utf-8", newline="\n")
    for language in languages():
        left += _refresh(language, of, check=arguments.check)
    return 1 if left else 0


def _refresh(language: str, of: Catalog, *, check: bool) -> int:
    """One language; how much is left for a person."""
    file = po_file(language)
    before = file.read_bytes()
    catalogue = refreshed(read(language), of, language)
    after = po_bytes(catalogue)
    found = list(faults(catalogue))
    if check:
        found += ["not up to date: run it without --check"] if before != after else []
    else:
        file.write_bytes(after)
        file.with_suffix(".mo").write_bytes(mo_bytes(catalogue))
    for each in found:
        sys.stdout.write(f"{language}: {each}\n")
    sys.stdout.write(f"{language}: {len(catalogue)} texts, {len(found)} to look at\n")
    return len(found)


if __name__ == "__main__":
    sys.exit(main())
