"""What a session knows between two typed lines. Frozen: every line typed makes a new one."""

from __future__ import annotations

from dataclasses import dataclass

from sootsayer.casework.model import Absence, Case, Source
from sootsayer.catalogue import Said
from sootsayer.console.names import Names, names_of
from sootsayer.console.paper import Line
from sootsayer.console.words import typed_said
from sootsayer.engine.conditions import Value
from sootsayer.judgement.questions import Questions
from sootsayer.judgement.verdict import Verdict
from sootsayer.rulebook.compiled import Rulebook
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.shop import Shop


@dataclass(frozen=True, slots=True)
class Setting:
    """What stays the same through a session. `called`: how the case is named in commands;
    `next_command`: what is typed when the asking is over."""

    rulebook: Rulebook
    shop: Shop | None
    file: str
    called: str
    fixed: bool = False
    next_command: str = "judge"

    @property
    def model(self) -> Model:
        return self.rulebook.model


@dataclass(frozen=True, slots=True)
class Item:
    """One answer, understood: a fact as it will be written (`typed`), or why there is none.

    `value` is in the signal's unit. `back`: what is to be said back, such as a unit that was
    taken; `why`: the reason of a `cannot`.
    """

    slot: str
    source: Source
    typed: str = ""
    value: Value = None
    absence: Absence | None = None
    why: str = ""
    back: Said | None = None


@dataclass(frozen=True, slots=True)
class NeedsPoint:
    """A reading that does not say at which point it was taken."""

    signal: str
    typed: str
    source: Source
    source_said: bool = False


Part = Item | NeedsPoint


@dataclass(frozen=True, slots=True)
class Question:
    """The check proposed and the slot of it that is asked now.

    `named`: the technician asked for it by name; `changes`: what is answered corrects what stands;
    `afresh`: it has an answer that is too old, so that a new one is a new reading.
    """

    check: str
    slot: str
    named: bool = False
    changes: bool = False
    afresh: bool = False


@dataclass(frozen=True, slots=True)
class CodesDraft:
    """A list of trouble codes as far as it has been told; `complete` None: not said yet."""

    codes: tuple[str, ...]
    complete: bool | None = None
    monitors: bool | None = None
    monitors_said: bool = False
    distance_km: float | None = None
    distance_said: bool = False
    warm_ups: int | None = None
    warm_ups_said: bool = False


@dataclass(frozen=True, slots=True)
class Waiting:
    """A question about what was typed, before it can be written.

    `about` is one of `point`, `again`, `implausible`, `codes`, `round`; `parts` is what will be
    entered once it is answered, `mode` how (`slip`: as a correction, `again`: as a new reading).
    """

    about: str
    text: Said
    parts: tuple[Part, ...] = ()
    mode: str = ""
    codes: CodesDraft | None = None
    default: str = ""


@dataclass(frozen=True, slots=True)
class Session:
    """`data` is the case as it stands on the disk, `case`, `verdict` and `asks` (what to ask next)
    what it says; the verdict without next checks, which `asks` has.

    `round`: where readings go. `later`: slots put off, twice where even then. `held`: why no
    question is asked until the technician goes on (`danger`, `enough`), "" while questions are
    asked. `past_enough`: goes on although nothing is worth its minutes. `dangers`: the states of
    driving already told. `queue`: slots to be asked before anything else (the sheet, what is to be
    verified). `last`: slots answered here, the newest last. `codes_asked`: once is enough.
    `shown_check`: the check whose lines stand on the screen. `by`: who enters. `either`: where a
    number of the line before could be read in two ways, each way with the line written so.
    """

    setting: Setting
    data: bytes
    case: Case
    verdict: Verdict
    asks: Questions
    by: str
    round: str
    question: Question | None = None
    waiting: Waiting | None = None
    later: tuple[str, ...] = ()
    held: str = ""
    past_enough: bool = False
    dangers: tuple[str, ...] = ()
    queue: tuple[str, ...] = ()
    last: tuple[str, ...] = ()
    codes_asked: bool = False
    shown_check: str = ""
    either: tuple[tuple[str, str], ...] = ()

    @property
    def model(self) -> Model:
        return self.setting.model

    @property
    def names(self) -> Names:
        return names_of(self.model, self.case, self.setting.shop)

    def said(self, slot: str, typed: str) -> Said:
        """What was entered for a slot, as the language in force writes it."""
        signal = self.model.signals.get(slot.partition("@")[0])
        return typed_said(typed, None if signal is None else signal.choice_words)


@dataclass(frozen=True, slots=True)
class Reply:
    """What a typed line leads to: `session` once `writes` stand in the file, and then `says`.

    `taken` is false where the line could not be used. `ended`: the session is over.
    """

    session: Session
    says: tuple[Line, ...] = ()
    writes: tuple[str, ...] = ()
    taken: bool = True
    ended: bool = False
