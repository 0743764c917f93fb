"""Whether there is a case in which goals hold together: a search that proves or gives the case.

Backtracking over the ways to meet the goals. What one slot is compared with is kept as a range;
what ties several slots together is solved at the end (`lines`). The search ends with a case,
with the proof that there is none, or with neither, where it grew too long or met what is hard.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum
from fractions import Fraction

from sootsayer.engine.conditions import NOT_FITTED, Value
from sootsayer.engine.goals import Absent, Among, Count, Goal, Hard, Has, Line
from sootsayer.engine.lines import End, TooMany, plainest, solved

MOST_STEPS = 20_000


class Answer(Enum):
    YES = "yes"
    NO = "no"
    NOT_DECIDED = "not decided"


@dataclass(frozen=True, slots=True)
class Range:
    """What a slot may hold: a number between two ends (None: without end), or words or booleans."""

    words: tuple[str | bool, ...] = ()
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True)
class Found:
    """The answer; with YES the case: slot to value, only what was needed."""

    answer: Answer
    case: dict[str, Value] = field(default_factory=dict)


@dataclass(slots=True)
class _Held:
    """What is demanded of the slots so far; a copy for each way that is tried."""

    low: dict[str, End]
    high: dict[str, End]
    words: dict[str, frozenset[str | bool]]
    absent: frozenset[str]
    has: frozenset[str]
    lacks: frozenset[str]
    lines: tuple[Line, ...]

    def copy(self) -> _Held:
        return _Held(
            dict(self.low), dict(self.high), dict(self.words),
            self.absent, self.has, self.lacks, self.lines,
        )  # fmt: skip


Todo = tuple[Goal, "Todo"] | None


def possible(goals: Sequence[Goal], ranges: Mapping[str, Range], most: int = MOST_STEPS) -> Found:
    """Whether all goals can hold at once. A slot that has no range can have no value."""
    return _Search(ranges, most).run(goals)


class _Search:
    def __init__(self, ranges: Mapping[str, Range], most: int) -> None:
        self._ranges = ranges
        self._left = most
        self._sure = True  # nothing was left out so far

    def run(self, goals: Sequence[Goal]) -> Found:
        todo: Todo = None
        for goal in reversed(goals):
            todo = (goal, todo)
        empty: frozenset[str] = frozenset()
        start = _Held({}, {}, {}, empty, empty, empty, ())
        ways: list[tuple[Todo, Todo, _Held]] = [(todo, None, start)]
        while ways:
            self._left -= 1
            if self._left < 0:
                return Found(Answer.NOT_DECIDED)
            case = self._one(*ways.pop(), ways)
            if case is not None:
                return Found(Answer.YES, case)
        return Found(Answer.NO if self._sure else Answer.NOT_DECIDED)

    def _one(
        self, todo: Todo, later: Todo, held: _Held, ways: list[tuple[Todo, Todo, _Held]]
    ) -> dict[str, Value] | None:
        """Meet the plain goals, then the first that leaves a choice; the case once none is left."""
        while todo is not None:
            goal, todo = todo
            if isinstance(goal, Count):
                if goal.count > len(goal.parts):
                    return None
                if goal.count == len(goal.parts):
                    for part in reversed(goal.parts):
                        todo = (part, todo)
                elif goal.count > 0:
                    later = (goal, later)
            elif isinstance(goal, Hard):
                self._sure = False
                return None
            elif not self._meet(held, goal):
                return None
        if later is None:
            return self._case(held)
        choice, later = later
        assert isinstance(choice, Count)
        first, rest = choice.parts[0], choice.parts[1:]
        # Tried first is what is pushed last: the first part met, before it is passed over.
        ways.append(((Count(choice.count, rest), None), later, held.copy()))
        ways.append(((first, (Count(choice.count - 1, rest), None)), later, held))
        return None

    def _meet(self, held: _Held, goal: Line | Among | Absent | Has) -> bool:
        if isinstance(goal, Line):
            return self._line(held, goal)
        if goal.slot not in self._ranges:
            return isinstance(goal, Has) and not goal.value
        if isinstance(goal, Among):
            return self._among(held, goal)
        if isinstance(goal, Absent):
            held.absent |= {goal.slot}
            return not self._valued(held, goal.slot) and goal.slot not in held.lacks
        if goal.value:
            held.has |= {goal.slot}
            return goal.slot not in held.lacks
        held.lacks |= {goal.slot}
        gone = goal.slot in held.absent or goal.slot in held.has
        return not gone and not self._valued(held, goal.slot)

    def _valued(self, held: _Held, slot: str) -> bool:
        return (
            slot in held.words or slot in held.low
            or any(slot == name for line in held.lines for name, _ in line.parts)
        )  # fmt: skip

    def _among(self, held: _Held, goal: Among) -> bool:
        if goal.slot in held.absent or goal.slot in held.lacks:
            return False
        known = held.words.get(goal.slot, frozenset(self._ranges[goal.slot].words))
        left = known - set(goal.values) if goal.other else known & set(goal.values)
        held.words[goal.slot] = left
        return bool(left)

    def _line(self, held: _Held, line: Line) -> bool:
        for name, _ in line.parts:
            known = self._ranges.get(name)
            if known is None or known.words or name in held.absent or name in held.lacks:
                return False
            self._begin(held, name)
        parts = [(name, factor) for name, factor in line.parts if factor]
        if not parts:
            return line.rest < 0 or (line.rest == 0 and not line.strict)
        if len(parts) > 1:
            held.lines = (*held.lines, line)
            return True
        (name, factor), end = parts[0], (-line.rest / parts[0][1], line.strict)
        if factor > 0:
            if (end[0], not end[1]) < (held.high[name][0], not held.high[name][1]):
                held.high[name] = end
        elif end > held.low[name]:
            held.low[name] = end
        low, high = held.low[name], held.high[name]
        return low[0] < high[0] or (low[0] == high[0] and not low[1] and not high[1])

    def _begin(self, held: _Held, name: str) -> None:
        """The range that the slot has before anything is demanded of it."""
        if name not in held.low:
            known = self._ranges[name]
            held.low[name] = (Fraction(_FAR if known.low is None else known.low), False)
            held.high[name] = (Fraction(-_FAR if known.high is None else known.high), False)

    def _case(self, held: _Held) -> dict[str, Value] | None:
        tied = sorted({name for line in held.lines for name, factor in line.parts if factor})
        point: dict[str, Fraction] | None = {}
        if tied:
            bounds = [line for name in tied for line in _bounds(held, name)]
            try:
                point = solved((*held.lines, *bounds), {})
            except TooMany:
                self._sure = False
                return None
        if point is None:
            return None
        case: dict[str, Value] = dict.fromkeys(held.absent, NOT_FITTED)
        for name in held.low:
            found = point.get(name)
            case[name] = float(self._plain(held, name) if found is None else found)
        case.update({slot: min(words, key=str) for slot, words in held.words.items()})
        case.update({s: self._any(s) for s in held.has if s not in case})
        return dict(sorted(case.items()))

    def _plain(self, held: _Held, name: str) -> Fraction:
        low, high = held.low[name], held.high[name]
        known = self._ranges[name]
        only_above = low[0] == (Fraction(_FAR if known.low is None else known.low))
        return plainest(None, high) if only_above and _room(low, high) else plainest(low, high)

    def _any(self, slot: str) -> Value:
        known = self._ranges[slot]
        if known.words:
            return known.words[0]
        return float(known.low if known.low is not None else known.high or 0.0)


_FAR = -1e12  # no reading is beyond


def _bounds(held: _Held, name: str) -> list[Line]:
    low, high = held.low[name], held.high[name]
    return [
        Line(((name, Fraction(-1)),), low[0], low[1]),
        Line(((name, Fraction(1)),), -high[0], high[1]),
    ]


def _room(low: End, high: End) -> bool:
    """Whether the plainest number below the upper end is still above the lower."""
    return plainest(None, high) > low[0]
