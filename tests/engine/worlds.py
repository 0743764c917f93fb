"""Random rule sets and cases for them, drawn from any `random.Random`."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from sootsayer.engine.conditions import (
    NOT_FITTED,
    All,
    Any,
    AtLeast,
    Compare,
    Condition,
    Const,
    Definition,
    Grade,
    Known,
    Limit,
    Linear,
    Not,
    OneOf,
    Op,
    Operand,
    Rule,
    Slot,
    Value,
)
from sootsayer.engine.numbers import HALVES

NUMBERS = ("n0", "n1", "n2", "n3")
WORDS = ("w0", "w1")
FLAGS = ("b0", "b1", "b2")
DOMAIN: dict[str, tuple[Value, ...]] = {
    **dict.fromkeys(NUMBERS, (0.0, 1.0, 2.0, 3.0)),
    **dict.fromkeys(WORDS, ("red", "green", "blue")),
    **dict.fromkeys(FLAGS, (True, False)),
}
ODD: tuple[Value, ...] = (NOT_FITTED, NOT_FITTED, "red", 2.0, True)
LIMITS = {"l0": 1.0, "l1": 2.0}
LEVELS = ("low", "mid", "high")


@dataclass(frozen=True, slots=True)
class Taste:
    """What a world may hold."""

    rules: int = 8
    gates: bool = True  # `applies`
    known_when: bool = False  # `known` in a rule's own condition, where it is not monotone
    known_gate: bool = False
    derived_known: bool = True  # `known` may also ask about derived slots
    odd: bool = True  # values not fitted or of the wrong kind
    cycles: bool = True  # rules of one group may read one another, and themselves


@dataclass(frozen=True, slots=True)
class World:
    definitions: tuple[Definition, ...]

    @property
    def names(self) -> tuple[str, ...]:
        return tuple(definition.name for definition in self.definitions)


class _Maker:
    def __init__(self, r: Random, taste: Taste) -> None:
        self.r, self.taste = r, taste
        self.rules: list[str] = []  # of earlier groups: may be read in any way
        self.grades: list[str] = []

    def operand(self, depth: int = 1) -> Operand:
        pick = self.r.randrange(8)
        if pick < 4:
            return Const(float(self.r.randrange(4)))
        if pick < 5:
            return Limit(self.r.choice(sorted(LIMITS)))
        if pick < 7 or not depth:
            return Slot(self.r.choice(NUMBERS))
        return Linear(self.operand(0), self.operand(0), self.operand(0))

    def leaf(self, peers: list[str], known: bool) -> Condition:
        pick = self.r.randrange(10)
        if peers and pick < 3:
            return OneOf(self.r.choice(peers), (True,))
        if known and pick == 3:
            derived = self.rules + self.grades if self.taste.derived_known else []
            return Known(self.r.choice([*DOMAIN, *derived]))
        if self.rules and pick < 6:
            return OneOf(self.r.choice(self.rules), self.r.choice([(True,), (True,), (False,)]))
        if self.grades and pick < 7:
            some = self.r.sample(LEVELS, self.r.randrange(1, 3))
            return OneOf(self.r.choice(self.grades), tuple(sorted(some)))
        if pick < 8:
            slot = self.r.choice([*WORDS, *FLAGS])
            some_values = self.r.sample(DOMAIN[slot], 1)
            return OneOf(slot, tuple(some_values))  # type: ignore[arg-type]
        op = self.r.choice(list(Op))
        return Compare(self.r.choice(NUMBERS), op, tuple(self.operand() for _ in HALVES[op]))

    def condition(self, peers: list[str], known: bool, depth: int = 2) -> Condition:
        pick = self.r.randrange(8) if depth else 0
        if pick < 2:
            return self.leaf(peers, known)
        if pick == 2:
            return Not(self.condition([], known, depth - 1))
        count = self.r.randrange(1, 4)
        parts = tuple(self.condition(peers, known, depth - 1) for _ in range(count))
        if pick < 5:
            return All(parts)
        if pick < 7:
            return Any(parts)
        return AtLeast(self.r.randrange(0, count + 2), parts)

    def gate(self, chance: float) -> Condition | None:
        if not self.taste.gates or self.r.random() > chance:
            return None
        return self.condition([], self.taste.known_gate, 1)

    def group(self, names: list[str]) -> list[Definition]:
        if len(names) == 1 and self.r.random() < 0.25:
            cuts = tuple(self.operand() for _ in LEVELS[1:])
            grade = Grade(names[0], self.r.choice(NUMBERS), LEVELS, cuts, self.gate(0.3))
            self.grades += names
            return [grade]
        made: list[Definition] = []
        for name in names:
            gate = self.gate(0.25)
            peers = names if self.taste.cycles else []
            when = self.condition(peers, self.taste.known_when)
            made.append(Rule(name, when, gate, self.taste.odd and self.r.random() < 0.2))
        self.rules += names
        return made


def world(r: Random, taste: Taste) -> World:
    """A world whose rules may depend on one another within groups of up to three."""
    maker, made = _Maker(r, taste), list[Definition]()
    while len(made) < taste.rules:
        size = r.choice([1, 1, 2, 3])
        made += maker.group([f"d{len(made) + i:02}" for i in range(size)])
    return World(tuple(made))


def case(r: Random, taste: Taste, share: float = 0.6) -> dict[str, Value]:
    """Values for some of the inputs."""
    values: dict[str, Value] = {}
    for slot, domain in DOMAIN.items():
        if r.random() < share:
            values[slot] = r.choice(domain)
            if taste.odd and r.random() < 0.15:
                values[slot] = r.choice(ODD)
    return values


def given(r: Random, made: World, chance: float = 0.1) -> dict[str, Value]:
    """Values for a few derived slots."""
    found: dict[str, Value] = {}
    for definition in made.definitions:
        if r.random() < chance:
            kinds: tuple[Value, ...] = (True, False) if isinstance(definition, Rule) else LEVELS
            found[definition.name] = r.choice([None, *kinds])
    return found
