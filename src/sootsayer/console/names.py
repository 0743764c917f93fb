"""What things are called on the page: ids to texts, taken from the rulebook and the case."""

from __future__ import annotations

from dataclasses import dataclass, field

from sootsayer.casework.model import Absence, Case
from sootsayer.catalogue import Said, say, shown
from sootsayer.console.held import held_to, main_slots
from sootsayer.judgement.limits import in_force
from sootsayer.judgement.verdict import LimitUsed
from sootsayer.rulebook.model import Model, Override, Signal
from sootsayer.rulebook.reads import slots_given
from sootsayer.rulebook.shop import Shop


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
    interlock to slot to the limit that it is held to.
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

    def of(self, thing: str) -> Said:
        """Its label, or the id itself where there is none."""
        if thing.startswith("code:"):
            return say("trouble code {code}", code=thing.removeprefix("code:"))
        return shown(self.texts.get(thing) or thing)

    def check(self, thing: str) -> CheckName | None:
        return next((check for check in self.checks if check.id == thing), None)


def names_of(model: Model, case: Case, shop: Shop | None = None) -> Names:
    """Everything that the pages need to call things by their names."""
    return Names(
        vehicle=case.vehicle.label,
        story=case.story,
        texts=_texts(model),
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
    )


def _texts(model: Model) -> dict[str, str]:
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
