"""shop.yaml → the shop's settings, with everything that is wrong in it."""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

from sootsayer.catalogue import say
from sootsayer.documents.nodes import Document, Listing, Mapping, Node, Scalar
from sootsayer.documents.problems import Refused
from sootsayer.documents.schema_check import check_schema
from sootsayer.documents.yaml_source import read_document
from sootsayer.physics.units import UnitError, read_number
from sootsayer.rulebook.desk import Desk, instead_of_format
from sootsayer.rulebook.digests import digest_of
from sootsayer.rulebook.frequencies import forms, share_of
from sootsayer.rulebook.measures import AGE_FORMS, linear, minutes_in
from sootsayer.rulebook.model import Money, Span
from sootsayer.rulebook.names import Names
from sootsayer.rulebook.shipped import shipped_rules
from sootsayer.rulebook.shop import SHOP_FILE, Shop, ShopLimit

FORMAT = 1
OTHER_FORMAT = "this {file} has format {format}, and only format {known} is known here"
PRICE_FALLS = (
    "the price goes from {lowest} down to {highest}",
    "write the lower price under `from`",
)
TIME_FALLS = (
    "the time goes from {lowest} down to {highest}",
    "write the shorter time under `from`",
)
NO_CHANCE = "{text} is no chance that {remedy} cures {fault}"
_LATER = ("times", "chances", "unrepaired")
CURRENCY = re.compile(r"\d\s*[A-Za-z]{3}\b|\b[A-Za-z]{3}\s*\d|[$\u20ac\u00a3\u00a5]")


def read_shop(folder: Path) -> Shop:
    """The settings in the folder's shop.yaml. Raises Refused with all that is wrong there.

    What it names (remedies, interlocks, limits, tools) is held against a rulebook by
    `shop_fit.fitted`.
    """
    document = read_document(folder / SHOP_FILE)
    desk = Desk(Names(), {document.file: document.lines})
    version = document.root.get("format")
    if isinstance(version, Scalar) and version.value != FORMAT:
        desk.wrong(
            version.place,
            say(OTHER_FORMAT, file=SHOP_FILE, format=version.text, known=FORMAT),
            instead_of_format(FORMAT),
        )
        raise Refused(desk.problems)
    shop = _shop(desk, folder, document)
    told = {each.place for each in desk.problems}
    shape = check_schema(document, schema())
    desk.problems.extend(each for each in shape if each.place not in told)
    if desk.problems:
        raise Refused(dict.fromkeys(desk.problems))
    return shop


@cache
def schema() -> dict[str, Any]:
    """The shipped JSON Schema of shop.yaml; not to be changed."""
    path = shipped_rules() / "schema" / "shop.schema.json"
    loaded: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return loaded


def _shop(desk: Desk, folder: Path, document: Document) -> Shop:
    """The settings; what has the wrong shape is left out here, and the schema says so."""
    root = document.root
    tools = root.get("tools")
    settings: dict[str, Any] = {
        "language": _text(root.get("language")) or "en",
        "units": _units(desk, root.get("units")),
        "currency": _text(root.get("currency")),
        "labour_rate": _number(root.get("labour rate")),
        "prices": _prices(desk, root.get("prices")),
        "times": _times(desk, root.get("times")),
        "chances": _chances(desk, root.get("chances")),
        "unrepaired": _number(root.get("unrepaired")),
        "tools": _tools(desk, tools) if isinstance(tools, Listing) else None,
        "ages": _ages(desk, root.get("ages")),
        "limits": _limits(desk, root.get("limits")),
    }
    _money_has_currency(desk, root)
    _money_has_one_currency(desk, root)
    digest = digest_of(_plain(settings))
    settings["language"] = _text(root.get("language"))  # in the digest none named counts as English
    return Shop(folder, document, name=_text(root.get("name")), digest=digest, **settings)


def _plain(settings: dict[str, Any]) -> dict[str, Any]:
    """The settings as data that does not know where it stood; what came later is left out where
    it is not set, so that the digest of a shop that does not use it stays as it was."""
    plain = settings | {
        "prices": {name: [each.lowest, each.highest] for name, each in settings["prices"].items()},
        "times": {name: [each.lowest, each.highest] for name, each in settings["times"].items()},
        "limits": {
            name: [each.value, each.unit, each.source] for name, each in settings["limits"].items()
        },
    }
    return {key: value for key, value in plain.items() if value or key not in _LATER}


def _units(desk: Desk, node: Node | None) -> dict[str, str]:
    units = {}
    for own, other in sorted(_items(node).items()):
        shown = _text(other)
        units[own] = shown
        if _known(own) and _known(shown) and linear(own, shown) is None:
            desk.wrong(
                other.place,
                say("what is read in {own} cannot be shown in {shown}", own=own, shown=shown),
                say("write a unit that {own} can be turned into", own=own),
            )
    return units


def _known(unit: str) -> bool:
    return unit in schema()["properties"]["units"]["propertyNames"]["enum"]


def _prices(desk: Desk, node: Node | None) -> dict[str, Money]:
    ranges = _ranges(desk, node, PRICE_FALLS)
    return {remedy: Money(*ends) for remedy, ends in ranges.items()}


def _times(desk: Desk, node: Node | None) -> dict[str, Span]:
    ranges = _ranges(desk, node, TIME_FALLS)
    return {remedy: Span(*ends) for remedy, ends in ranges.items()}


def _ranges(
    desk: Desk, node: Node | None, falls: tuple[str, str]
) -> dict[str, tuple[float, float]]:
    """Remedy to a range, or to one number for both ends; `falls` is what to say where the range
    does, and what would be right."""
    ranges = {}
    for remedy, each in sorted(_items(node).items()):
        ends = _items(each)
        lowest = _number(ends.get("from")) if ends else _number(each)
        highest = _number(ends.get("to")) if ends else _number(each)
        if lowest is None or highest is None:
            continue
        if lowest > highest:
            what, instead = falls
            ends_said = {"lowest": f"{lowest:g}", "highest": f"{highest:g}"}
            desk.wrong(each.place, say(what, **ends_said), say(instead))
        ranges[remedy] = (lowest, highest)
    return ranges


def _chances(desk: Desk, node: Node | None) -> dict[str, dict[str, float]]:
    chances = {}
    for remedy, by_fault in sorted(_items(node).items()):
        found = {}
        for fault, each in sorted(_items(by_fault).items()):
            if not isinstance(each, Scalar) or isinstance(each.value, bool):
                continue
            share = share_of(each)
            if share is None or not 0 < share < 1:
                what = say(NO_CHANCE, text=each.text, remedy=remedy, fault=fault)
                desk.wrong(each.place, what, forms())
                continue
            found[fault] = share
        chances[remedy] = found
    return chances


def _money_has_currency(desk: Desk, root: Mapping) -> None:
    for key in ("labour rate", "prices"):
        if key in root and "currency" not in root:
            desk.wrong(
                root.key_places[key],
                say("`{key}` is money, and no currency is named", key=key),
                say("add `currency:`, such as `currency: EUR`"),
            )
            return


def _money_has_one_currency(desk: Desk, root: Mapping) -> None:
    """A price with a currency of its own: the whole file is in one."""
    currency = root.get("currency")
    if isinstance(currency, Listing | Mapping):
        what = say("a shop reckons in one currency")
        desk.wrong(currency.place, what, say("write one, such as `EUR`"))
    for node in (root.get("labour rate"), *_items(root.get("prices")).values()):
        for each in (node, *_items(node).values()):
            code = CURRENCY.search(_text(each))
            if isinstance(each, Scalar) and code is not None:
                desk.wrong(
                    each.place,
                    say('"{text}" names a currency of its own', text=each.text),
                    say("write the number alone; all money here is in the one `currency:`"),
                )


def _tools(desk: Desk, node: Listing) -> tuple[str, ...]:
    tools: list[str] = []
    for each in node:
        name = _text(each)
        if name in tools:
            desk.named_twice(each.place, name, "tools")
        tools.append(name)
    return tuple(sorted(set(tools)))


def _ages(desk: Desk, node: Node | None) -> dict[str, float]:
    ages = {}
    for interlock, each in sorted(_items(node).items()):
        minutes = minutes_in(_text(each))
        if minutes is not None:
            ages[interlock] = minutes
        elif isinstance(each, Scalar) and isinstance(each.value, str):
            what = say('"{text}" is not a length of time', text=each.text)
            desk.wrong(each.place, what, say(AGE_FORMS))
    return ages


def _limits(desk: Desk, node: Node | None) -> dict[str, ShopLimit]:
    limits = {}
    for limit, each in sorted(_items(node).items()):
        value = _items(each).get("value")
        if not isinstance(value, Scalar) or isinstance(value.value, bool):
            continue
        try:
            number = read_number(value.text)
        except UnitError as error:
            desk.wrong(value.place, error.what, error.instead)
            continue
        source = _text(_items(each).get("source")).strip()
        limits[limit] = ShopLimit(number.value, number.unit, value.text, source, value.place)
    return limits


def _items(node: Node | None) -> dict[str, Node]:
    return node.items if isinstance(node, Mapping) else {}


def _text(node: Node | None) -> str:
    return node.text if isinstance(node, Scalar) else ""


def _number(node: Node | None) -> float | None:
    value = node.value if isinstance(node, Scalar) else None
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    return float(value)
