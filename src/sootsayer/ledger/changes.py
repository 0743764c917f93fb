"""What changed between two rulebooks and settings, piece by piece; each can be tried alone."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from sootsayer.ledger.rebuilding import Rebuilt
from sootsayer.ledger.replay_model import Change
from sootsayer.rulebook.compiled import rulebook_of
from sootsayer.rulebook.digests import logic
from sootsayer.rulebook.model import Model, Money, Span
from sootsayer.rulebook.shop import Shop, ShopLimit

SECTIONS = (
    *("signals", "points", "channels", "limits", "checks", "findings", "families", "faults"),
    *("evidence", "actions", "interlocks", "quantities", "remedies"),
)
LISTS = ("opening", "customary_order")
SETTINGS = ("labour_rate", "currency", "tools")
TABLES = ("prices", "times", "chances", "ages", "limits")
SHOP = "shop"


def changes(then: Rebuilt, now: Rebuilt) -> tuple[Change, ...]:
    """Everything whose logic is not what it was, in a fixed order."""
    return (*_rules(then.rulebook.model, now.rulebook.model), *_settings(then.shop, now.shop))


def with_change(then: Rebuilt, now: Rebuilt, change: Change) -> Rebuilt:
    """What there was then, with this one thing as it is now. Raises whatever a rulebook raises
    whose pieces do not fit each other."""
    section = change.section
    if section.startswith(SHOP):
        return replace(then, shop=_with_setting(then.shop, now.shop, change))
    old, new = then.rulebook.model, now.rulebook.model
    if section in LISTS:
        return Rebuilt(rulebook_of(replace(old, **{section: getattr(new, section)})), then.shop)
    items = dict(getattr(old, section))
    items.pop(change.id, None)
    if change.id in getattr(new, section):
        items[change.id] = getattr(new, section)[change.id]
    changed: dict[str, Any] = {section: dict(sorted(items.items()))}
    changed["codes"] = tuple(sorted({*old.codes, *new.codes}))
    return Rebuilt(rulebook_of(replace(old, **changed)), then.shop)


def _rules(then: Model, now: Model) -> Iterator[Change]:
    for section in SECTIONS:
        was, is_ = getattr(then, section), getattr(now, section)
        for id_ in sorted({*was, *is_}):
            one, other = was.get(id_), is_.get(id_)
            if one is None or other is None or logic(one) != logic(other):
                yield Change(section, id_, _told(one), _told(other))
    for section in LISTS:
        if logic(getattr(then, section)) != logic(getattr(now, section)):
            yield Change(section, section.replace("_", "-"), "", "")


def _told(item: Any) -> str:
    """The number of a limit, the revision of a rule, as far as it has one."""
    if item is None:
        return ""
    if hasattr(item, "default"):
        return f"{item.default:g} {item.unit}"
    return str(getattr(item, "revision", "") or "there")


def _settings(then: Shop | None, now: Shop | None) -> Iterator[Change]:
    one, other = _both(then, now)
    if one is None or other is None:
        return
    for name in SETTINGS:
        was, is_ = _plain(getattr(one, name)), _plain(getattr(other, name))
        if getattr(one, name) != getattr(other, name):
            yield Change(f"{SHOP} {name}", name.replace("_", " "), was, is_)
    for name in TABLES:
        before: Mapping[str, Any] = getattr(one, name)
        after: Mapping[str, Any] = getattr(other, name)
        for id_ in sorted({*before, *after}):
            told = _plain(before.get(id_)), _plain(after.get(id_))
            if told[0] != told[1]:
                yield Change(f"{SHOP} {name}", id_, *told)


def _both(then: Shop | None, now: Shop | None) -> tuple[Shop | None, Shop | None]:
    """The settings, those of no shop being those of one that says nothing."""
    some = now or then
    if some is None:
        return None, None
    blank = Shop(some.folder, some.document)
    return then or blank, now or blank


def _plain(value: Any) -> str:
    """A setting as text; where it stood in the file does not matter."""
    if value is None or value == "":
        return ""
    if isinstance(value, ShopLimit):
        return f"{value.value:.10g} {value.unit}"
    if isinstance(value, Money | Span):
        return f"{value.lowest:g} to {value.highest:g}"
    if isinstance(value, float):
        return f"{value:.10g}"
    if isinstance(value, dict):
        return ", ".join(f"{key} {_plain(each)}" for key, each in sorted(value.items()))
    return ", ".join(value) if isinstance(value, tuple) else str(value)


def _with_setting(then: Shop | None, now: Shop | None, change: Change) -> Shop | None:
    one, other = _both(then, now)
    if one is None or other is None:
        return now
    name = change.section.removeprefix(f"{SHOP} ")
    if name in SETTINGS:
        return replace(one, **{name: getattr(other, name)})
    table = dict(getattr(one, name))
    table.pop(change.id, None)
    if change.id in getattr(other, name):
        table[change.id] = getattr(other, name)[change.id]
    changed: dict[str, Any] = {name: dict(sorted(table.items()))}
    return replace(one, **changed)
