"""The handbook page of one thing, as parts with headings: drawn on the screen or as Markdown."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from sootsayer.catalogue import Said, say, shown
from sootsayer.catalogue_numbers import number, with_unit
from sootsayer.console import rules_show_texts as t
from sootsayer.console.names import declared_words
from sootsayer.console.rule_sentences import operand_said, sentence
from sootsayer.console.vocabulary import BASIS, FREQUENCY, TRUTH, id_said
from sootsayer.console.words import typed_said, value_said
from sootsayer.documents.nodes import Place
from sootsayer.engine.conditions import Condition, Operand, Value
from sootsayer.rulebook.frequencies import WORDS
from sootsayer.rulebook.model import Basis, Check, Model, Proof
from sootsayer.rulebook.uses import Uses, uses_of


@dataclass(frozen=True, slots=True)
class Part:
    """Sentences under one heading."""

    heading: Said
    lines: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class Article:
    """The page of one thing; parts without a line are left out."""

    id: str
    kind: str
    title: Said
    pack: str
    parts: tuple[Part, ...]


@dataclass(slots=True)
class Book:
    """A rulebook as handbook pages are made of it."""

    model: Model
    uses: Uses
    units: dict[str, str] = field(default_factory=dict)
    words: dict[str, dict[str, str]] = field(default_factory=dict)

    def sentence(self, condition: Condition) -> Said:
        """A condition, limits with their numbers."""
        return sentence(condition, self.named, self.units, self.words)

    def named(self, name: str) -> Said:
        """A slot by its id; a limit with its number."""
        limit = self.model.limits.get(name)
        if limit is None:
            return shown(name)
        amount = with_unit(number(limit.default), limit.unit)
        return say("{number} ({limit})", number=amount, limit=name)

    def operand(self, operand: Operand, unit: str) -> Said:
        return operand_said(operand, self.named, unit)

    def fault(self, name: str) -> Said:
        fault = self.model.faults.get(name)
        return shown(name if fault is None else fault.label)

    def finding(self, name: str) -> Said:
        family = self.model.families.get(name)
        return shown(family.label if family else self.model.findings[name].says)


def book_of(model: Model) -> Book:
    units = {
        slot: signal.unit or ""
        for signal in model.signals.values()
        for slot in (signal.id, *(f"{signal.id}@{point}" for point in signal.points))
    }
    return Book(model, uses_of(model), units, declared_words(model))


def part(heading: str, lines: Iterable[Said | None]) -> Part:
    return Part(say(heading), tuple(line for line in lines if line))


def article(kind: str, id_: str, label: str, pack: str, parts: Iterable[Part]) -> Article:
    template = t.TITLE if label else t.TITLE_BARE
    title = say(template, kind=say(t.KIND[kind]), id=id_, label=label)
    return Article(id_, kind, title, pack, tuple(each for each in parts if each.lines))


def listed(names: Iterable[str]) -> Said:
    return Said(", ".join(shown(name) for name in names))


def words_listed(book: Book, thing: str, words: Iterable[str]) -> Said:
    """Declared words of a signal, finding or family, as they are said."""
    said = book.words.get(thing, {})
    return listed(said.get(word, word) for word in words)


def often(share: float) -> Said:
    """A frequency: as a word of the table where it is one, and as a number."""
    word = next((word for word, value in WORDS.items() if abs(value - share) < 1e-9), None)
    text = number(share)
    return (
        text
        if word is None
        else say("{word} ({number})", word=id_said(FREQUENCY, word), number=text)
    )


def spread_said(
    spread: tuple[float, ...], levels: tuple[str, ...], words: Mapping[str, str] | None = None
) -> Said:
    """How often: one number for true or false, else one for each level, in per cent; `words`: how
    the levels are said."""
    if len(spread) == 2 and levels == ("false", "true"):
        return often(spread[1])
    shares = (
        say(
            "{level} {share} %",
            level=(words or {}).get(level, level),
            share=number(round(100 * share, 2)),
        )
        for level, share in zip(levels, spread, strict=True)
    )
    return Said(", ".join(shares))


def basis_said(basis: Basis) -> Said:
    template = t.BASIS_SOURCE if basis.source else t.BASIS
    text = say(template, kind=id_said(BASIS, basis.kind.value), source=basis.source)
    return say(t.BASIS_NOTE, basis=text, note=basis.note) if basis.note else text


def place_said(place: Place, revision: str = "") -> Said:
    """The file by its name alone, so that the page is the same on every machine."""
    file = place.file.replace("\\", "/").rsplit("/", 1)[-1]
    template = t.REVISION if revision else t.PLACE
    return say(template, revision=revision, file=file, line=place.line)


def known_part(book: Book, id_: str, basis: Basis | None, place: Place, revision: str = "") -> Part:
    """How we know, where it stands, and the shop's own numbers in it."""
    lines: list[Said] = [] if basis is None else [basis_said(basis)]
    for own in book.model.overrides:
        if own.of == id_:
            lines.append(
                say(
                    t.OVERRIDDEN,
                    keys=", ".join(own.path),
                    now=typed_said(own.now),
                    was=typed_said(own.was),
                    why=own.why,
                )
            )
    return part(t.HOW_WE_KNOW, [*lines, place_said(place, revision)])


def proofs_part(book: Book, proofs: Iterable[Proof], of: str = "") -> Part:
    """The examples; `of`: the finding whose level each shows, if it is one."""
    return part(t.PROOFS, [_proof(book, proof, of) for proof in proofs])


def _proof(book: Book, proof: Proof, of: str) -> Said:
    facts = [
        say("{slot} {value}", slot=slot, value=_value(book, slot, value))
        for slot, value in proof.given.items()
    ]
    given = Said(", ".join(facts)) if facts else say(t.NOTHING_GIVEN)
    level = "unknown" if proof.then is None else str(proof.then).lower()
    own = shown(book.words.get(of, {}).get(level, level))
    then = id_said(TRUTH, level) if level in TRUTH else own
    if proof.codes is None:
        return say(t.PROOF, given=given, then=then)
    codes = listed(proof.codes) if proof.codes else say(t.NO_CODES)
    return say(t.PROOF_CODES, given=given, codes=codes, then=then)


def _value(book: Book, slot: str, value: Value) -> Said:
    return value_said(value, book.units.get(slot), book.words.get(slot.partition("@")[0]))


def used_part(book: Book, *names: str) -> Part:
    users = dict.fromkeys(user for name in names for user in book.uses.of(name))
    return part(
        t.USED, [say(t.USER, what=id_said(t.USER_KIND, user.what), id=user.id) for user in users]
    )


def given_part(book: Book, slots: Iterable[str]) -> Part:
    """Which checks give the facts."""
    checks = dict.fromkeys(check for slot in slots for check in book.uses.givers.get(slot, ()))
    model = book.model
    return part(t.READ, [_given_by(model.checks[check]) for check in checks])


def _given_by(check: Check) -> Said:
    template = t.GIVEN_BY_WITH_CARE if check.caution else t.GIVEN_BY
    return say(template, check=check.id, does=check.does, caution=check.caution)
