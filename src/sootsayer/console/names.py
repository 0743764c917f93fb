"""What things are called on the page: ids to texts, taken from the rulebook and the case."""

from __future__ import annotations

from dataclasses import dataclass, field

from sootsayer.casework.model import Absence, Case
from sootsayer.catalogue import Said, say, shown
from sootsayer.console.held import held_to, main_slots
from sootsayer.console.words import level_said, typed_said, value_said
from sootsayer.engine.conditions import Value
from sootsayer.judgement.limits import in_force
from sootsayer.judgement.verdict import LimitUsed
from sootsayer.rulebook.model import Model, Override, Signal
from sootsayer.rulebook.reads import slots_given
from sootsayer.rulebook.shop import Shop

_CODE = "code:"


@dataclass(frozen=True, slots=True)
class CheckName:
    """A check as the page speaks of it; `gives` are slots."""

    id: str
    does: str
    minutes: float
    gives: tuple[str, ...]
    caution: str = ""


@dataclass(frozen=True, slots=True)
class Refusal:
    """An entry said that a slot cannot be had, or is not known: not asked again."""

    absence: str
    entry: int


@dataclass(frozen=True, slots=True)
class OverrideName:
    """A number of the shop's own in place of a pack's; `what` is the id and the keys below it."""

    what: str
    was: str
    now: str
    why: str
    file: str
    line: int


@dataclass(frozen=True, slots=True)
class Names:
    """`texts`: id of anything to its label. `members`: family to its findings, best first.

    `zero_units`: channel to the unit of its zero. `refusals`: slots not to be asked again.
    `main_slots`: finding or interlock to the slots of its own reading, as written. `held_to`:
    interlock to slot to the limit that it is held to. `words`: signal, finding or family to its
    declared words as they are said, where that is another language's.
    """

    vehicle: str = ""
    story: str = ""
    texts: dict[str, str] = field(default_factory=dict)
    checks: tuple[CheckName, ...] = ()
    members: dict[str, tuple[str, ...]] = field(default_factory=dict)
    zero_units: dict[str, str] = field(default_factory=dict)
    refusals: dict[str, Refusal] = field(default_factory=dict)
    main_slots: dict[str, tuple[str, ...]] = field(default_factory=dict)
    held_to: dict[str, dict[str, str]] = field(default_factory=dict)
    overrides: tuple[OverrideName, ...] = ()
    limits: tuple[LimitUsed, ...] = ()
    words: dict[str, dict[str, str]] = field(default_factory=dict)

    def of(self, thing: str) -> Said:
        """Its label, or the id itself where there is none."""
        if thing.startswith(_CODE):
            return say("trouble code {code}", code=thing.removeprefix(_CODE))
        return shown(self.texts.get(thing) or thing)

    def words_of(self, thing: str) -> dict[str, str]:
        """How the declared words of a slot, finding or family are said; what is left out, as is."""
        return self.words.get(thing.partition("@")[0], {})

    def word(self, thing: str, word: str) -> Said:
        """One declared word of a slot, finding or family as it is said."""
        return shown(self.words_of(thing).get(word, word))

    def level(self, thing: str, level: str | None) -> Said:
        """A level of a finding or family; yes and no for true and false."""
        return level_said(level, self.words_of(thing))

    def value(self, slot: str, value: Value, unit: str | None = None) -> Said:
        """A value of a slot or finding."""
        return value_said(value, unit, self.words_of(slot))

    def typed(self, slot: str, typed: str) -> Said:
        """What an entry says of a slot; in English as it was typed."""
        if slot.startswith(_CODE):
            code = slot.removeprefix(_CODE)
            return shown(typed) if typed == code else say("{code} not listed", code=code)
        return typed_said(typed, self.words_of(slot))

    def check(self, thing: str) -> CheckName | None:
        return next((check for check in self.checks if check.id == thing), None)


def names_of(model: Model, case: Case, shop: Shop | None = None) -> Names:
    """Everything that the pages need to call things by their names."""
    return Names(
        vehicle=case.vehicle.label,
        story=case.story,
        texts=labels_of(model),
        checks=tuple(
            CheckName(c.id, c.does, c.minutes, slots_given(model, c), c.caution)
            for c in model.checks.values()
        ),
        members={family.id: family.members for family in model.families.values()},
        zero_units=_zero_units(model),
        refusals=_refusals(case),
        main_slots=main_slots(model),
        held_to=held_to(model),
        limits=in_force(case, model, shop),
        overrides=tuple(map(_override, model.overrides)),
        words=declared_words(model),
    )


def declared_words(model: Model) -> dict[str, dict[str, str]]:
    """Signal, finding or family to its declared words as they are said, where that is known."""
    words = {signal.id: signal.choice_words for signal in model.signals.values()}
    words.update({finding.id: finding.level_words for finding in model.findings.values()})
    words.update({family.id: family.level_words for family in model.families.values()})
    return {id_: said for id_, said in words.items() if said}


def labels_of(model: Model) -> dict[str, str]:
    """Id of anything to what it is called."""
    texts: dict[str, str] = {}
    for signal in model.signals.values():
        texts.update(_slot_texts(signal, model))
    texts.update({channel.id: channel.label for channel in model.channels.values()})
    texts.update({limit.id: limit.label for limit in model.limits.values()})
    texts.update({family.id: family.label for family in model.families.values()})
    texts.update({fault.id: fault.label for fault in model.faults.values()})
    texts.update({check.id: check.does for check in model.checks.values()})
    texts.update({finding.id: finding.says for finding in model.findings.values()})
    texts.update({lock.id: lock.says for lock in model.interlocks.values()})
    texts.update({action.id: action.does for action in model.actions.values()})
    texts.update({remedy.id: remedy.label for remedy in model.remedies.values()})
    return texts


def _slot_texts(signal: Signal, model: Model) -> dict[str, str]:
    texts = {signal.id: signal.label}
    for point_id in signal.points:
        point = model.points.get(point_id)
        label = point.label if point else point_id
        texts[f"{signal.id}@{point_id}"] = say(
            "{signal}, {point}", signal=signal.label, point=label
        )
    return texts


def _override(item: Override) -> OverrideName:
    file = item.place.file.replace("\\", "/").rsplit("/", 1)[-1]
    what = ", ".join((item.of, *item.path))
    return OverrideName(what, item.was, item.now, item.why, file, item.place.line)


def _zero_units(model: Model) -> dict[str, str]:
    """Of each channel that a reading corrects, the unit of that reading."""
    units: dict[str, str] = {}
    for finding in model.findings.values():
        if finding.tests_channel is None or finding.corrects_by is None:
            continue
        signal = model.signals.get(finding.corrects_by.split("@")[0])
        if signal is not None and signal.unit:
            units[finding.tests_channel] = signal.unit
    return units


def _refusals(case: Case) -> dict[str, Refusal]:
    """The last word on each slot, where that word is a refusal."""
    last: dict[str, Refusal | None] = {}
    for entry in case.entries:
        for said in entry.said:
            refused = said.absence not in {None, Absence.NOT_ASKED}
            absence = said.absence.value if said.absence else ""
            last[said.slot] = Refusal(absence, entry.number) if refused else None
    return {slot: refusal for slot, refusal in last.items() if refusal is not None}
