"""Evaluation order: strata by dependency, and the cycles that are refused."""

from __future__ import annotations

from collections import deque
from collections.abc import Container, Iterable, Iterator, Mapping

Graph = Mapping[str, Mapping[str, bool]]


class NegativeCycle(ValueError):  # noqa: N818 (it names what was found)
    """Definitions that depend on themselves through something that is not monotone.

    `cycle` names them in order: each reads the next, and the last reads the first.
    """

    def __init__(self, cycle: tuple[str, ...]) -> None:
        self.cycle = cycle
        super().__init__("depends on itself through a negation: " + " -> ".join((*cycle, cycle[0])))


def layers(graph: Graph) -> tuple[tuple[tuple[str, ...], ...], ...]:
    """Strata of components: each component after all that it reads, names sorted.

    `graph` maps each derived slot to the derived slots it reads. Raises NegativeCycle.
    """
    level: dict[str, int] = {}
    strata: list[list[tuple[str, ...]]] = []
    for component in _components(graph):
        _refuse_negation(graph, component)
        height = 0
        for name in component:
            for read in graph[name]:
                height = max(height, level.get(read, -1) + 1)
        level.update(dict.fromkeys(component, height))
        while len(strata) <= height:
            strata.append([])
        strata[height].append(component)
    return tuple(tuple(sorted(stratum)) for stratum in strata)


def _components(graph: Graph) -> Iterator[tuple[str, ...]]:
    """Strongly connected components, those read before those that read them (Tarjan 1972)."""
    number: dict[str, int] = {}
    low: dict[str, int] = {}
    stack: list[str] = []
    done: set[str] = set()
    for root in sorted(graph):
        if root in number:
            continue
        number[root] = low[root] = len(number)
        stack.append(root)
        work = [(root, iter(sorted(graph[root])))]
        while work:
            name, rest = work[-1]
            for read in rest:
                if read not in number:
                    number[read] = low[read] = len(number)
                    stack.append(read)
                    work.append((read, iter(sorted(graph[read]))))
                    break
                if read not in done:
                    low[name] = min(low[name], number[read])
            else:
                work.pop()
                if work:
                    parent = work[-1][0]
                    low[parent] = min(low[parent], low[name])
                if low[name] == number[name]:
                    cut = stack.index(name)
                    component = tuple(sorted(stack[cut:]))
                    del stack[cut:]
                    done.update(component)
                    yield component


def _refuse_negation(graph: Graph, component: tuple[str, ...]) -> None:
    inside = set(component)
    for name in component:
        for read, plain in sorted(graph[name].items()):
            if read in inside and not plain:
                cycle = (name, *_path(graph, inside, read, name))
                first = cycle.index(min(cycle))
                raise NegativeCycle(cycle[first:] + cycle[:first])


def _path(graph: Graph, inside: set[str], start: str, goal: str) -> list[str]:
    """The shortest way from `start` to `goal` within a component, without `goal` itself."""
    if start == goal:
        return []
    came: dict[str, str] = {start: start}
    queue = deque([start])
    while goal not in came:
        name = queue.popleft()
        for read in sorted(graph[name]):
            if read in inside and read not in came:
                came[read] = name
                queue.append(read)
    way = [came[goal]]
    while way[-1] != start:
        way.append(came[way[-1]])
    return way[::-1]


def closure(
    starts: Iterable[str], reads: Mapping[str, Iterable[str]], closed: Container[str] = ()
) -> frozenset[str]:
    """All that can be reached from `starts`, themselves included, not through those `closed`."""
    seen = set(starts)
    work = list(seen)
    while work:
        name = work.pop()
        if name in closed:
            continue
        for read in reads.get(name, ()):
            if read not in seen:
                seen.add(read)
                work.append(read)
    return frozenset(seen)
