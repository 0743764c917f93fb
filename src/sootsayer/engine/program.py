"""Forward chaining: definitions compiled once, run on values as often as one likes.

Everything is computed again on every run. At the size of a rulebook that is microseconds,
and an answer taken back then equals an answer never given.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import cast

from sootsayer.engine.closures import compile_condition
from sootsayer.engine.comparing import compile_grade
from sootsayer.engine.conditions import (
    Condition,
    Definition,
    OneOf,
    Operand,
    Rule,
    Truth,
    Value,
)
from sootsayer.engine.cycles import Member, settle
from sootsayer.engine.layout import Cells, Layout, Level, Test, resolver
from sootsayer.engine.loader import Cell, Loader
from sootsayer.engine.numbers import Number
from sootsayer.engine.reading import leaves_of, limits_of, numbers_of, reads_of
from sootsayer.engine.strata import NegativeCycle, closure, layers
from sootsayer.engine.sufficient import Form
from sootsayer.engine.supports_joined import Support

__all__ = ["NegativeCycle", "Program", "compile_program"]

Step = tuple[int, Test | Level]

# A slot compared, with what, and the input slots that the comparison cuts.
Compared = tuple[str, Operand, tuple[str, ...]]

# Derived slots with what their definitions compare.
Comparing = tuple[tuple[str, tuple[Compared, ...]], ...]


class Program:
    """Compiled definitions.

    `definitions` by name, in evaluation order; `inputs`, the slots read but not defined;
    `order`, the evaluation order; `strata`, the same names by depth: what a stratum reads
    lies in earlier ones, or in a cycle within it. None of them depends on the order in
    which the definitions came.
    """

    def __init__(self, definitions: Sequence[Definition]) -> None:
        named = _by_name(definitions)
        reads = {name: reads_of(named[name]) for name in sorted(named)}
        graph = {
            name: {read: plain for read, plain in found.items() if read in named}
            for name, found in reads.items()
        }
        strata = layers(graph)
        for definition in named.values():
            _refuse_wrong_kinds(definition, named)
        self.strata = tuple(tuple(n for part in parts for n in part) for parts in strata)
        self.order = tuple(name for stratum in self.strata for name in stratum)
        self.definitions: Mapping[str, Definition] = MappingProxyType(
            {name: named[name] for name in self.order}
        )
        self.inputs = frozenset(r for found in reads.values() for r in found if r not in named)
        self._reads: dict[str, tuple[str, ...]] = {n: tuple(sorted(r)) for n, r in reads.items()}
        self._inputs = tuple(sorted(self.inputs))
        self._limits = tuple(
            sorted({limit for found in named.values() for limit in limits_of(found)})
        )
        self.layout = Layout((*self._inputs, *self.order), self._limits)
        self._start, self._end = len(self._inputs), len(self._inputs) + len(self.order)
        self._steps: list[tuple[frozenset[int], Step]] = [
            self._step(component, graph) for stratum in strata for component in stratum
        ]
        self._all = [step for _, step in self._steps]
        self.cyclic = any(step[0] == self.layout.scratch for _, step in self._steps)
        self._parts: dict[tuple[int, Truth], tuple[Condition, Test]] = {}
        self._some: dict[frozenset[str], list[tuple[frozenset[int], Step]]] = {}
        self._defined = frozenset(self.order)
        self._cones: dict[frozenset[str], frozenset[str]] = {}
        self._outs: dict[frozenset[str], list[tuple[str, int]]] = {}
        self._behind: dict[str, frozenset[str]] = {}
        self._leads: dict[str, tuple[str, ...]] = {}
        self._decides: dict[str, tuple[int, ...]] = {}
        self.compared: dict[str, Comparing] = {}  # see `thresholds`
        # What makes each derived slot false, and what gives it any other value: see `grounds`.
        self.supports: tuple[list[Support | int | None], list[Support | int | None]] = (
            [None] * len(self.order),
            [None] * len(self.order),
        )
        self.forms: dict[tuple[str, ...] | None, Form] = {}
        self.waiting: dict[str, tuple[str, ...]] = {}  # see `waiting`
        self._needs: dict[frozenset[str], tuple[Cell, ...]] = {}
        self._loader = Loader(self.layout, self._inputs, self.order, self._limits)

    def run(
        self,
        values: Mapping[str, Value],
        limits: Mapping[str, float],
        only: Collection[str] | None = None,
    ) -> dict[str, Value]:
        """All derived slots in evaluation order, or those that `only` depend on, with `only`.

        A derived slot that stands in `values`, even as None, is taken as given. Values that
        no definition reads are ignored. Raises KeyError for a limit that is missing from
        `limits` and for a name in `only` that the program does not know.
        """
        cells = self.load(values, limits, only)
        if only is None:
            self.evaluate(cells, None)
            return dict(zip(self.order, cells[self._start : self._end], strict=False))
        self.evaluate(cells, only)
        return {name: cells[i] for name, i in self._wanted(only)}

    def reads(self, name: str) -> frozenset[str]:
        """The input slots that a slot depends on. Raises KeyError for an unknown name."""
        found = self._behind.get(name)
        if found is None:
            found = self._behind[name] = self.cone((name,)) & self.inputs
        return found

    def cone(self, names: Iterable[str]) -> frozenset[str]:
        """All slots, derived and input, that `names` depend on, themselves included.

        Raises KeyError for a name that is neither defined nor read.
        """
        key = frozenset(names)
        if key not in self._cones:
            for name in key:
                self.layout.slot[name]
            if len(self._cones) > 4096:
                self._cones.clear()
            self._cones[key] = closure(key, self._reads)
        return self._cones[key]

    def cone_given(self, name: str, values: Mapping[str, Value]) -> frozenset[str]:
        """As `cone`, but what stands before a derived slot given in `values` is left out."""
        self.layout.slot[name]
        whole = self.cone((name,))
        if self._defined.isdisjoint(values) or (whole & self._defined).isdisjoint(values):
            return whole
        return closure((name,), self._reads, closed=values)

    def deciding(self, name: str) -> tuple[int, ...]:
        """The cells of the derived slots that a slot depends on, with it, in evaluation order."""
        found = self._decides.get(name)
        if found is None:
            found = self._decides[name] = tuple(i for _, i in self._wanted((name,)))
        return found

    def leading_to(self, name: str) -> tuple[str, ...]:
        """The derived slots that a slot depends on, with itself, in evaluation order."""
        found = self._leads.get(name)
        if found is None:
            found = self._leads[name] = tuple(each for each, _ in self._wanted((name,)))
        return found

    def derived_in(self, cone: frozenset[str]) -> list[str]:
        """The derived slots among these, in evaluation order."""
        return sorted(cone & self._defined, key=self.layout.slot.__getitem__)

    def load(
        self,
        values: Mapping[str, Value],
        limits: Mapping[str, float],
        only: Collection[str] | None = None,
    ) -> Cells:
        """Cells before evaluation; of `only`, those that these depend on, and else unknown.

        Raises KeyError for a missing limit and for a name that the program does not know.
        """
        bounds = self.check_limits(limits)
        if only is None:
            return self._loader.whole(values, bounds)
        return self._loader.part(values, bounds, self._needed(only))

    def check_limits(self, limits: Mapping[str, float]) -> Cells:
        """The numbers of all limits, in their order. Raises KeyError for a missing one and
        ValueError for one that is no number."""
        return self._loader.bounds(limits)

    def _needed(self, only: Collection[str]) -> tuple[Cell, ...]:
        """The cells of the slots that `only` depend on, in order."""
        key = frozenset(only)
        found = self._needs.get(key)
        if found is None:
            if len(self._needs) > 4096:
                self._needs.clear()
            slot = self.layout.slot
            found = tuple(sorted((slot[name], name) for name in self.cone(key)))
            self._needs[key] = found
        return found

    def evaluate(self, cells: Cells, only: Collection[str] | None) -> None:
        """Decide the derived cells in place: all, or those that `only` depend on."""
        given = cast("frozenset[int] | None", cells[self.layout.given])
        if given:
            steps = [step for out, step in self._chosen(only) if not out <= given]
        else:
            steps = self._all if only is None else [step for _, step in self._chosen(only)]
        for i, test in steps:
            cells[i] = test(cells)

    def settled(self, values: Mapping[str, Value], limits: Mapping[str, float], name: str) -> Cells:
        """Cells after deciding `name`, for those who look at parts of its conditions."""
        cells = self.load(values, limits, (name,))
        self.evaluate(cells, (name,))
        return cells

    def truth(self, part: Condition, cells: Cells, absent: Truth) -> Truth:
        """The truth of a part of one of this program's conditions in settled cells."""
        key = (id(part), absent)
        if key not in self._parts:
            # The part is kept beside its closure, so that its id stays its own.
            self._parts[key] = (part, compile_condition(part, self.layout, absent))
        return self._parts[key][1](cells)

    def number(self, operand: Operand, cells: Cells) -> Number:
        """The number of an operand of one of this program's conditions in settled cells."""
        return resolver(operand, self.layout)(cells)

    def _wanted(self, only: Collection[str]) -> list[tuple[str, int]]:
        """The derived slots that `only` depend on, in evaluation order, with their cells."""
        key = frozenset(only)
        if key not in self._outs:
            cone = self.cone(key)
            if len(self._outs) > 4096:
                self._outs.clear()
            self._outs[key] = [(n, self.layout.slot[n]) for n in self.order if n in cone]
        return self._outs[key]

    def _chosen(self, only: Collection[str] | None) -> list[tuple[frozenset[int], Step]]:
        if only is None:
            return self._steps
        key = frozenset(only)
        if key not in self._some:
            cone = {self.layout.slot[name] for name in self.cone(key)}
            if len(self._some) > 4096:
                self._some.clear()
            self._some[key] = [entry for entry in self._steps if entry[0] & cone]
        return self._some[key]

    def _step(
        self, component: tuple[str, ...], graph: Mapping[str, Mapping[str, bool]]
    ) -> tuple[frozenset[int], Step]:
        out = frozenset(self.layout.slot[name] for name in component)
        name = component[0]
        if len(component) == 1 and name not in graph[name]:
            return out, (self.layout.slot[name], self._single(self.definitions[name]))
        # In a component every definition is a rule: a grade's reads are never plain.
        rules = [cast(Rule, self.definitions[name]) for name in component]
        members = [
            Member(self.layout.slot[rule.name], self._when(rule), self._applies(rule))
            for rule in rules
        ]
        return out, (self.layout.scratch, settle(members, self.layout.given))

    def _single(self, definition: Definition) -> Test | Level:
        applies = self._applies(definition)
        if isinstance(definition, Rule):
            return _gated(self._when(definition), applies)
        return _gated_level(compile_grade(definition, self.layout), applies)

    def _when(self, rule: Rule) -> Test:
        return compile_condition(rule.when, self.layout, absent_in_when(rule))

    def _applies(self, definition: Definition) -> Test | None:
        if definition.applies is None:
            return None
        return compile_condition(definition.applies, self.layout, False)


def compile_program(definitions: Sequence[Definition]) -> Program:
    """Compile definitions.

    Raises NegativeCycle where they depend on themselves through anything but a plain "is
    true", ValueError for a name defined twice or a wrong number of operands or cuts, and
    TypeError where a number is wanted of a derived slot, a word of a rule, or a boolean
    of a grade.
    """
    return Program(definitions)


def absent_in_when(rule: Rule) -> Truth:
    """The truth, in the rule's `when`, of a test on what is not fitted."""
    return False if rule.absent_is_false else None


def _gated(when: Test, applies: Test | None) -> Test:
    if applies is None:
        return when
    return lambda cells: when(cells) if applies(cells) is True else None


def _gated_level(level: Level, applies: Test | None) -> Level:
    if applies is None:
        return level
    return lambda cells: level(cells) if applies(cells) is True else None


def _by_name(definitions: Sequence[Definition]) -> dict[str, Definition]:
    named: dict[str, Definition] = {}
    for definition in definitions:
        if definition.name in named:
            raise ValueError(f"{definition.name} is defined twice")
        named[definition.name] = definition
    return named


def _refuse_wrong_kinds(definition: Definition, named: Mapping[str, Definition]) -> None:
    for name in sorted(numbers_of(definition)):
        if name in named:
            raise TypeError(f"{definition.name}: {name} is derived and never a number")
    for test, _ in leaves_of(definition):
        read = named.get(test.slot)
        if isinstance(test, OneOf) and read is not None:
            wanted = bool if isinstance(read, Rule) else str
            if not all(isinstance(value, wanted) for value in test.values):
                kind = "true or false" if wanted is bool else "one of its levels"
                raise TypeError(f"{definition.name}: {test.slot} is {kind}, not {test.values!r}")
