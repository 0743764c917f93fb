"""Rule sets as answer set programs: a translation that shares nothing with the engine.

Each condition gets two atoms, `tt` (surely true) and `mt` (may be true); each derived
boolean `t` and `p`. Unknown is `mt` without `tt`. Cycles need no care: stable models are
supported, so nothing in them supports itself.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import count

import clingo

from sootsayer.engine.conditions import (
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
    NotFitted,
    OneOf,
    Op,
    Operand,
    Rule,
    Slot,
    Value,
)

SIGNS = {
    Op.BELOW: ("<",),
    Op.AT_MOST: ("<=",),
    Op.ABOVE: (">",),
    Op.AT_LEAST: (">=",),
    Op.BETWEEN: (">=", "<="),
    Op.OUTSIDE: ("<", ">"),
}


class Translation:
    """The text of one program with one case; `removable` lets any known value be left out."""

    def __init__(
        self,
        definitions: tuple[Definition, ...],
        values: Mapping[str, Value],
        limits: Mapping[str, float],
        removable: bool = False,
    ) -> None:
        self.lines = [
            "hasnum(S) :- num(S,_). f(D) :- rule(D), not p(D). haslevel(D) :- level(D,_).",
            "known(S) :- num(S,_). known(S) :- word(S,_). known(S) :- flag(S,_).",
            "known(S) :- nf(S). known(S) :- t(S). known(S) :- f(S). known(S) :- level(S,_).",
            "num(none,0) :- #false. word(none,none) :- #false. flag(none,none) :- #false.",
            "nf(none) :- #false. t(none) :- #false. p(none) :- #false. rule(none) :- #false.",
            "level(none,none) :- #false.",
        ]
        self.named = {definition.name: definition for definition in definitions}
        self.values, self.limits, self.removable = values, limits, removable
        self._ids = count()
        for slot, value in values.items():
            if slot in self.named:
                self._given(slot, value)
            elif value is not None:
                self._fact(slot, value)
        for definition in definitions:
            if isinstance(definition, Rule):
                self.add(f'rule("{definition.name}").')
            if definition.name not in values:
                self._define(definition)

    @property
    def text(self) -> str:
        return "\n".join(self.lines)

    def add(self, line: str) -> None:
        self.lines.append(line)

    def _kept(self, slot: str) -> str:
        if not self.removable:
            return ""
        self.add(f'{{keep("{slot}")}}.')
        return f' :- keep("{slot}")'

    def _fact(self, slot: str, value: Value) -> None:
        kept = self._kept(slot)
        if isinstance(value, bool):
            self.add(f'flag("{slot}",{str(value).lower()}){kept}.')
        elif isinstance(value, str):
            self.add(f'word("{slot}",{value}){kept}.')
        elif isinstance(value, NotFitted):
            self.add(f'nf("{slot}"){kept}.')
        elif value is not None:
            self.add(f'num("{slot}",{int(value)}){kept}.')

    def _given(self, slot: str, value: Value) -> None:
        if value is None:
            if isinstance(self.named[slot], Rule):
                self.add(f'p("{slot}").')
            return
        kept = self._kept(slot)
        if isinstance(value, str):
            self.add(f'level("{slot}",{value}){kept}.')
            return
        if value:
            self.add(f't("{slot}"){kept}. p("{slot}").')
        elif self.removable:
            self.add(f'p("{slot}") :- not keep("{slot}").')

    def _define(self, d: Definition) -> None:
        gate = ""
        if d.applies is not None:
            gate = f", tt({self._condition(d.applies, True)})"
        if isinstance(d, Grade):
            self._grade(d, gate)
            return
        when = self._condition(d.when, d.absent_is_false)
        self.add(f't("{d.name}") :- tt({when}){gate}. p("{d.name}") :- mt({when}).')
        if gate:
            self.add(f'p("{d.name}") :- not {gate[2:]}.')

    def _grade(self, d: Grade, gate: str) -> None:
        self.add(f'reach("{d.name}",0) :- hasnum("{d.of}").')
        for k, cut in enumerate(d.cuts):
            both = f'reach("{d.name}",{k}), num("{d.of}",X), opnum({self._operand(cut)},Y)'
            self.add(f'level("{d.name}",{d.levels[k]}) :- {both}, X < Y{gate}.')
            self.add(f'reach("{d.name}",{k + 1}) :- {both}, X >= Y.')
        self.add(f'level("{d.name}",{d.levels[-1]}) :- reach("{d.name}",{len(d.cuts)}){gate}.')

    def _operand(self, operand: Operand) -> int:
        o = next(self._ids)
        if isinstance(operand, Const):
            self.add(f"opnum({o},{int(operand.value)}).")
        elif isinstance(operand, Limit):
            self.add(f"opnum({o},{int(self.limits[operand.name])}).")
        elif isinstance(operand, Slot):
            self.add(f'opnum({o},X) :- num("{operand.name}",X). opnf({o}) :- nf("{operand.name}").')
        elif isinstance(operand, Linear):
            a, b, c = (self._operand(x) for x in (operand.times, operand.of, operand.plus))
            self.add(f"opnum({o},A*B+C) :- opnum({a},A), opnum({b},B), opnum({c},C).")
            self.add(f"opnf({o}) :- opnf({a}). opnf({o}) :- opnf({b}). opnf({o}) :- opnf({c}).")
        self.add(f"opknown({o}) :- opnum({o},_). opnf(none) :- #false. opnum(none,0) :- #false.")
        return o

    def _condition(self, part: Condition, absent_is_false: bool) -> int:
        if isinstance(part, Compare):
            return self._compare(part, absent_is_false)
        if isinstance(part, OneOf):
            return self._one_of(part, absent_is_false)
        c = next(self._ids)
        if isinstance(part, Known):
            self.add(f'tt({c}) :- known("{part.slot}"). mt({c}) :- tt({c}).')
            if self.removable and self.values.get(part.slot) is not None:
                self.add(f"mt({c}).")  # left out is not looked at, so it may be known
        elif isinstance(part, Not):
            k = self._condition(part.part, absent_is_false)
            self.add(f"tt({c}) :- not mt({k}). mt({c}) :- not tt({k}).")
        else:
            parts = [self._condition(each, absent_is_false) for each in part.parts]
            for line in _joined(c, part, parts):
                self.add(line)
        self.add("tt(none) :- #false. mt(none) :- #false.")
        return c

    def _compare(self, part: Compare, absent_is_false: bool) -> int:
        c, slot, halves = next(self._ids), part.slot, []
        for sign, operand in zip(SIGNS[part.op], part.operands, strict=True):
            h, o = next(self._ids), self._operand(operand)
            self.add(f'tt({h}) :- num("{slot}",X), opnum({o},Y), X {sign} Y. mt({h}) :- tt({h}).')
            self.add(f'hnf({h}) :- nf("{slot}"). hnf({h}) :- opnf({o}).')
            self.add(f'mt({h}) :- not hasnum("{slot}"), not hnf({h}).')
            self.add(f"mt({h}) :- not opknown({o}), not hnf({h}).")
            if not absent_is_false:
                self.add(f"mt({h}) :- hnf({h}).")
            halves.append(h)
        kind = Any(()) if part.op is Op.OUTSIDE else All(())
        for line in _joined(c, kind, halves):
            self.add(line)
        return c

    def _one_of(self, part: OneOf, absent_is_false: bool) -> int:
        c, slot = next(self._ids), f'"{part.slot}"'
        self.add(f"mt({c}) :- tt({c}).")
        definition = self.named.get(part.slot)
        if isinstance(definition, Rule):
            for value in part.values:
                sure, maybe = ("t", "p") if value else ("f", "not t")
                self.add(f"tt({c}) :- {sure}({slot}). mt({c}) :- {maybe}({slot}).")
            return c
        for value in part.values:
            if isinstance(value, bool):
                self.add(f"tt({c}) :- flag({slot},{str(value).lower()}).")
            else:
                self.add(f"tt({c}) :- word({slot},{value}). tt({c}) :- level({slot},{value}).")
        if isinstance(definition, Grade):
            self.add(f"mt({c}) :- not haslevel({slot}).")
            return c
        self.add(f"mt({c}) :- not known({slot}). mt({c}) :- num({slot},_).")
        if part.values and not any(isinstance(value, bool) for value in part.values):
            self.add(f"mt({c}) :- flag({slot},_).")
        if part.values and not any(isinstance(value, str) for value in part.values):
            self.add(f"mt({c}) :- word({slot},_).")
        if not absent_is_false:
            self.add(f"mt({c}) :- nf({slot}).")
        return c


def _joined(c: int, part: All | Any | AtLeast, parts: list[int]) -> Iterator[str]:
    for atom in ("tt", "mt"):
        atoms = [f"{atom}({k})" for k in parts]
        if isinstance(part, All):
            yield f"{atom}({c}) :- {', '.join(atoms)}." if atoms else f"{atom}({c})."
        elif isinstance(part, Any):
            yield from (f"{atom}({c}) :- {each}." for each in atoms)
        else:
            counted = "; ".join(f"{k}: {each}" for k, each in zip(parts, atoms, strict=True))
            yield f"{atom}({c}) :- {part.count} <= #count {{ {counted} }}."


def models(text: str, *options: str) -> list[list[clingo.Symbol]]:
    """All answer sets, shown atoms only."""
    control = clingo.Control(["0", "--warn=none", *options])
    control.add("base", [], text)
    control.ground([("base", [])])
    found: list[list[clingo.Symbol]] = []
    control.solve(on_model=lambda model: found.append(list(model.symbols(shown=True))))
    return found


def derived(translation: Translation) -> dict[str, Value]:
    """The value of every derived slot in the one answer set."""
    (model,) = models(translation.text + "\n#show t/1. #show f/1. #show level/2.")
    found: dict[str, Value] = dict.fromkeys(translation.named)
    for atom in model:
        slot = atom.arguments[0].string
        found[slot] = atom.arguments[1].name if atom.name == "level" else atom.name == "t"
    return found


def minimal_supports(translation: Translation, name: str, value: Value) -> list[set[str]]:
    """All subset-minimal sets of known slots that alone give `name` its value."""
    goal = (
        f'level("{name}",{value})'
        if isinstance(value, str)
        else f'{"t" if value else "f"}("{name}")'
    )
    text = translation.text + f"\n:- not {goal}.\n#show keep/1. keep(none) :- #false."
    found = models(text, "--heuristic=Domain", "--enum-mode=domRec", "--dom-mod=5,16")
    return [{atom.arguments[0].string for atom in model} for model in found]


def completions(unknown: frozenset[str]) -> str:
    """Rules that give each unknown input any value of its domain in `tests.engine.worlds`."""
    lines = []
    for slot in sorted(unknown):
        if slot.startswith("n"):
            lines.append(f'1 {{ num("{slot}",0..3) }} 1.')
        elif slot.startswith("w"):
            lines.append(f'1 {{ word("{slot}",(red;green;blue)) }} 1.')
        else:
            lines.append(f'1 {{ flag("{slot}",(true;false)) }} 1.')
    return "\n".join(lines)


def consequences(text: str) -> dict[str, Value]:
    """The derived values that all answer sets share."""
    shown = text + "\n#show t/1. #show f/1. #show level/2."
    last = models(shown, "--enum-mode=cautious")[-1]
    found: dict[str, Value] = {}
    for atom in last:
        slot = atom.arguments[0].string
        found[slot] = atom.arguments[1].name if atom.name == "level" else atom.name == "t"
    return found
