"""Which column is what: by score, and as the person who asks says."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sootsayer.casework.logs.j1979 import word_column
from sootsayer.casework.logs.model import Column
from sootsayer.casework.logs.naming import score, split_unit, tokens
from sootsayer.casework.logs.units import dimension
from sootsayer.casework.logs.words import BY_ID, ROLES
from sootsayer.catalogue import say
from sootsayer.catalogue_numbers import fixed
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem, Refused, did_you_mean

ENOUGH = 0.5
_CLOSE = 0.04


@dataclass(frozen=True, slots=True)
class Wish:
    """What a person said: role to the name (or number, from 1) of its column, role to its unit."""

    columns: Mapping[str, str]
    units: Mapping[str, str]


NO_WISH = Wish({}, {})


@dataclass(frozen=True, slots=True)
class Choice:
    """The columns chosen, and what to tell about those that were not."""

    columns: tuple[Column, ...]
    warnings: tuple[Problem, ...]


def choose(names: Sequence[str], units: Sequence[str], wish: Wish, at: Place) -> Choice:
    """The best column for each role. `at` is where the names stand. Raises Refused for a wish
    that names no column."""
    taken = {role: _wished(role, text, names, units, wish, at) for role, text in
             wish.columns.items()}  # fmt: skip
    used = {column.index for column in taken.values()}
    warnings: list[Problem] = []
    for index, name in enumerate(names):
        word = word_column(name)
        if word is not None and word.role not in taken and index not in used:
            taken[word.role] = Column(word.role, index, name, word.unit, 0.95, scaling=word.pid)
            used.add(index)
    scored = _scores(names, units, used)
    for value, _, role in sorted(scored, key=lambda one: (-one[0], one[1], one[2])):
        if role in taken:
            continue
        rivals = [(v, i) for v, i, r in scored if r == role and i not in used]
        best = [(v, i) for v, i in rivals if v == value and i not in used]
        if not best:
            continue
        near = [i for v, i in rivals if value - v <= _CLOSE]
        if len(near) > 1:
            warnings.append(_tie(role, [names[i] for i in near], value, at))
            used.update(near)
            continue
        index = best[0][1]
        used.add(index)
        unit = wish.units.get(role) or units[index] or BY_ID[role].assumed
        if not unit and BY_ID[role].dimensions != ("",):
            warnings.append(_no_unit(role, names[index], at))
            continue
        taken[role] = Column(role, index, names[index], unit, value)
    ordered = [taken[role.id] for role in ROLES if role.id in taken]
    return Choice(tuple(ordered), tuple(warnings))


def _scores(
    names: Sequence[str], units: Sequence[str], used: set[int]
) -> list[tuple[float, int, str]]:
    """(score, column, role) of each column's best role, where that is enough."""
    found: list[tuple[float, int, str]] = []
    for index, name in enumerate(names):
        if index in used or not name:
            continue
        words = tokens(split_unit(name)[0] or name)
        unit = units[index] or None
        ranked = sorted(
            ((score(words, unit, role), -order, role.id) for order, role in enumerate(ROLES)),
            reverse=True,
        )
        best, _, role_id = ranked[0]
        if best >= ENOUGH:
            found.append((best, index, role_id))
    return found


def _wished(
    role: str, text: str, names: Sequence[str], units: Sequence[str], wish: Wish, at: Place
) -> Column:
    index = _index(text, names)
    if index is None:
        near = did_you_mean(text, [name for name in names[:500] if name])
        listed = ", ".join(f'"{name}"' for name in names[:12] if name)
        what = say('no column is called "{name}"', name=text[:80])
        raise Refused([Problem(at, what, near or say("the columns are: {names}", names=listed))])
    word = word_column(names[index])
    if word is not None and word.role == role and role not in wish.units:
        return Column(role, index, names[index], word.unit, 1.0, said=True, scaling=word.pid)
    known = BY_ID[role]
    unit = wish.units.get(role) or units[index] or known.assumed
    if known.dimensions != ("",) and dimension(unit) not in known.dimensions:
        named = {"name": names[index], "role": role, "unit": unit}
        what = (
            say('the column "{name}" for {role} is in {unit}, which does not measure it', **named)
            if unit
            else say('the column "{name}" for {role} is without a unit', **named)
        )
        instead = say("say its unit: --unit {role}={unit}", role=role, unit=known.unit)
        raise Refused([Problem(at, what, instead)])
    return Column(role, index, names[index], unit, 1.0, said=True)


def _index(text: str, names: Sequence[str]) -> int | None:
    for index, name in enumerate(names):
        if name == text:
            return index
    loosely = " ".join(text.casefold().split())
    for index, name in enumerate(names):
        if loosely in (" ".join(name.casefold().split()), split_unit(name)[0].casefold()):
            return index
    if text.isascii() and text.isdigit() and len(text) < 6 and 0 < int(text) <= len(names):
        return int(text) - 1
    return None


def _tie(role: str, names: Sequence[str], value: float, at: Place) -> Problem:
    what = say(
        "{count} columns fit {role} equally well (score {score}): {names}; none of them is read",
        count=len(names),
        role=role,
        score=fixed(value, 2),
        names=", ".join(f'"{name[:60]}"' for name in names[:4]),
    )
    which = say('say which one: --column {role}="{name}"', role=role, name=names[0][:60])
    return Problem(at, what, which)


def _no_unit(role: str, name: str, at: Place) -> Problem:
    what = say(
        'the column "{name}" fits {role}, but names no unit; it is not read',
        name=name[:60],
        role=role,
    )
    return Problem(
        at, what, say("say the unit: --unit {role}={unit}", role=role, unit=BY_ID[role].unit)
    )
