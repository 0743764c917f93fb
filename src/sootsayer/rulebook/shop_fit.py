"""A shop's settings held against the rulebook that they are for."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from sootsayer.catalogue import Said, say
from sootsayer.catalogue_numbers import brief
from sootsayer.documents.nodes import Listing, Mapping, Place
from sootsayer.documents.problems import LEAVE_IT_OUT, Refused, did_you_mean
from sootsayer.physics.units import UnitError, convert
from sootsayer.rulebook.desk import Desk, instead_of_retired, retired_said
from sootsayer.rulebook.model import Model
from sootsayer.rulebook.names import Names, Section
from sootsayer.rulebook.reads import successor_of
from sootsayer.rulebook.shop import Shop, ShopLimit

TOO_OLD = '"{id}" is within {most} min in its pack, and a setting may not make it {minutes} min'
OR_LESS = "write {most} min or less; an override in a shop's own pack says why more"


def fitted(shop: Shop, model: Model) -> Shop:
    """The settings with every limit in the limit's own unit.

    Raises Refused with every setting that names nothing in the rulebook, every limit in a unit
    that is none of its own, and every age above the pack's.
    """
    desk = Desk(Names(), {shop.document.file: shop.document.lines})
    _named(desk, shop, model, "prices", Section.REMEDY, shop.prices, model.remedies)
    _named(desk, shop, model, "times", Section.REMEDY, shop.times, model.remedies)
    _named(desk, shop, model, "chances", Section.REMEDY, shop.chances, model.remedies)
    _cures_are_cured(desk, shop, model)
    _named(desk, shop, model, "ages", Section.INTERLOCK, shop.ages, model.interlocks)
    _named(desk, shop, model, "limits", Section.LIMIT, shop.limits, model.limits)
    _tools_are_used(desk, shop, model)
    _ages_are_no_longer(desk, shop, model)
    limits = {
        name: own
        for name, each in shop.limits.items()
        if name in model.limits
        and (own := _in_own_unit(desk, each, model.limits[name].unit)) is not None
    }
    if desk.problems:
        raise Refused(desk.problems)
    return replace(shop, limits=limits)


def _named(
    desk: Desk,
    shop: Shop,
    model: Model,
    key: str,
    section: Section,
    names: Collection[str],
    known: Collection[str],
) -> None:
    for name in names:
        if name in known:
            continue
        place, gone = _place(shop, key, name), model.retired.get(name)
        if gone is None:
            guess = did_you_mean(name, known)
            what = say('there is no {wanted} "{name}"', wanted=section.word, name=name)
            desk.wrong(place, what, guess or say(LEAVE_IT_OUT))
            continue
        instead = instead_of_retired(successor_of(model, name))
        desk.wrong(place, retired_said(name, gone), instead)


def _place(shop: Shop, key: str, name: str) -> Place:
    body = shop.document.root.get(key)
    return body.key_places[name] if isinstance(body, Mapping) else shop.document.root.place


def _cures_are_cured(desk: Desk, shop: Shop, model: Model) -> None:
    """A shop's own chance stands in place of the pack's; what a remedy cures is the pack's word."""
    body = shop.document.root.get("chances")
    for remedy, chances in shop.chances.items():
        known = model.remedies[remedy].cures if remedy in model.remedies else chances
        for fault in chances:
            if fault in known:
                continue
            inner = body.get(remedy) if isinstance(body, Mapping) else None
            place = (
                inner.key_places[fault] if isinstance(inner, Mapping) else shop.document.root.place
            )
            guess = did_you_mean(fault, known)
            desk.wrong(
                place,
                say('"{remedy}" does not cure "{fault}" in its pack', remedy=remedy, fault=fault),
                guess or say("it cures {known}; leave the rest out", known=", ".join(known)),
            )


def _tools_are_used(desk: Desk, shop: Shop, model: Model) -> None:
    node = shop.document.root.get("tools")
    known = sorted({tool for check in model.checks.values() for tool in check.tools})
    for each, name in _texts(node):
        if name not in known:
            guess = did_you_mean(name, known)
            what = say('no check needs a tool "{name}"', name=name)
            desk.wrong(each, what, guess or _tools_are(known))


def _tools_are(known: list[str]) -> Said:
    if not known:
        return say("the tools that checks need are: none")
    return say("the tools that checks need are: {known}", known=", ".join(known))


def _texts(node: object) -> list[tuple[Place, str]]:
    listed = node.items if isinstance(node, Listing) else ()
    return [(each.place, getattr(each, "text", "")) for each in listed]


def _ages_are_no_longer(desk: Desk, shop: Shop, model: Model) -> None:
    """A shop's settings may ask for fresher readings; for older ones an override says why."""
    for name, minutes in shop.ages.items():
        interlock = model.interlocks.get(name)
        most = None if interlock is None else interlock.within_minutes
        if most is not None and minutes > most:
            desk.wrong(
                _place(shop, "ages", name),
                say(TOO_OLD, id=name, most=brief(most), minutes=brief(minutes)),
                say(OR_LESS, most=brief(most)),
            )


def _in_own_unit(desk: Desk, limit: ShopLimit, unit: str) -> ShopLimit | None:
    if limit.unit is None:
        return replace(limit, unit=unit)
    try:
        return replace(limit, value=convert(limit.value, limit.unit, unit), unit=unit)
    except UnitError as error:
        desk.wrong(limit.place, error.what, error.instead)
        return None
