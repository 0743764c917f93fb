"""The shop's own folder: found, read, held against the rulebook, and never written to."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from sootsayer.documents.nodes import plain
from sootsayer.documents.problems import Problem, Refused
from sootsayer.documents.yaml_source import read_document
from sootsayer.physics.units import UNITS
from sootsayer.rulebook.compiled import load_rulebook, shipped_rules
from sootsayer.rulebook.model import Money
from sootsayer.rulebook.shop import Shop, find_shop
from sootsayer.rulebook.shop_file import read_shop, schema
from sootsayer.rulebook.shop_fit import fitted
from tests.rulebook.bad_packs import GOLDEN, SHOP
from tests.rulebook.dumps import dump

MODEL = load_rulebook([GOLDEN]).model
STORED = SHOP / "shop.json"


def shop_of(folder: Path, text: str) -> Shop:
    (folder / "shop.yaml").write_text(text, encoding="utf-8")
    return read_shop(folder)


def told(folder: Path, body: str) -> list[str]:
    """What is wrong with a shop.yaml, by itself or held against the golden rulebook."""
    try:
        fitted(shop_of(folder, f"format: 1\n{body}"), MODEL)
    except Refused as refused:
        return [_said(each) for each in refused.problems]
    return []


def _said(problem: Problem) -> str:
    return f"{problem.place.line}:{problem.place.column}: {problem.what} | {problem.instead}"


def shown(shop: Shop) -> dict[str, Any]:
    whole: dict[str, Any] = dump(shop)
    del whole["folder"], whole["document"]
    return whole


def test_golden_settings_are_as_stored() -> None:
    """Every setting reads to the stored model, digest included, limits in their own unit."""
    shop = fitted(read_shop(SHOP), MODEL)
    assert shown(shop) == json.loads(STORED.read_text(encoding="utf-8"))


def test_golden_settings_leave_nothing_out() -> None:
    """The golden shop.yaml has every key of the schema, and no part of the settings is empty."""
    document = read_document(SHOP / "shop.yaml")
    assert set(document.root.items) == set(schema()["properties"])
    assert all(shown(read_shop(SHOP)).values())


def test_schema_is_a_schema() -> None:
    """The schema is valid, knows all units, and takes the golden file in another validator."""
    Draft202012Validator.check_schema(schema())
    units = schema()["properties"]["units"]
    assert units["propertyNames"]["enum"] == units["additionalProperties"]["enum"] == list(UNITS)
    data = plain(read_document(SHOP / "shop.yaml").root)
    assert list(Draft202012Validator(schema()).iter_errors(data)) == []


def test_a_shop_need_say_nothing(tmp_path: Path) -> None:
    """A shop.yaml with its format alone is whole: no price is known and every tool is at hand."""
    shop = fitted(shop_of(tmp_path, "format: 1\n"), MODEL)
    assert (shop.language, shop.labour_rate, shop.prices, shop.tools) == ("", None, {}, None)
    assert shop.pack_folders() == ()


def test_a_shop_without_tools_says_so(tmp_path: Path) -> None:
    """An empty list of tools is not the same as nothing said."""
    assert shop_of(tmp_path, "format: 1\ntools: []\n").tools == ()


def test_limits_come_in_their_own_unit() -> None:
    """1.2 kPa for a limit in kPa stays; a number without unit is in the limit's own."""
    limits = fitted(read_shop(SHOP), MODEL).limits
    assert (limits["dp-raised"].value, limits["dp-raised"].unit) == (1.2, "kPa")
    assert (limits["attempts-max"].value, limits["attempts-max"].unit) == (2.0, "")
    assert limits["dp-raised"].place.line == 19


def test_units_are_turned(tmp_path: Path) -> None:
    """A limit in another unit is turned into the limit's."""
    body = "format: 1\nlimits: {dp-rest-max: {value: 0.4 kPa, source: A sheet}}\n"
    limit = fitted(shop_of(tmp_path, body), MODEL).limits["dp-rest-max"]
    assert (limit.value, limit.unit, limit.typed) == (4.0, "mbar", "0.4 kPa")


def test_one_price_is_a_range_of_itself() -> None:
    """A single number is both ends of the range."""
    assert read_shop(SHOP).prices["zero-sensor"] == Money(0.0, 0.0)


BAD = {
    "prices: {zero-sensor: -3}\ncurrency: EUR": [
        '2:23: "zero-sensor" is -3, less than 0 | write 0 or more'
    ],
    "prices: {zero-sensor: {from: 9, to: 3}}\ncurrency: EUR": [
        "2:23: the price goes from 9 down to 3 | write the lower price under `from`"
    ],
    "prices: {zero-sensr: 3}\ncurrency: EUR": [
        '2:10: there is no remedy "zero-sensr" | did you mean "zero-sensor"?'
    ],
    "prices: {zero-sensor: 3}": [
        "2:1: `prices` is money, and no currency is named | add `currency:`, such as "
        "`currency: EUR`"
    ],
    "prices: {zero-sensor: 40 USD}\ncurrency: EUR": [
        '2:23: "40 USD" names a currency of its own | write the number alone; all money here is '
        "in the one `currency:`"
    ],
    "prices: {zero-sensor: {from: 5, to: 20 USD}}\ncurrency: EUR": [
        '2:37: "20 USD" names a currency of its own | write the number alone; all money here is '
        "in the one `currency:`"
    ],
    "currency: [EUR, USD]": ["2:11: a shop reckons in one currency | write one, such as `EUR`"],
    "times: {zero-sensor: 0}": ['2:22: "zero-sensor" is 0, not more than 0 | write more than 0'],
    "times: {zero-sensor: {from: 9, to: 3}}": [
        "2:22: the time goes from 9 down to 3 | write the shorter time under `from`"
    ],
    "times: {zero-sensr: 3}": [
        '2:9: there is no remedy "zero-sensr" | did you mean "zero-sensor"?'
    ],
    "chances: {zero-sensor: {sensor-stuck: 1.2}}": [
        "2:39: 1.2 is no chance that zero-sensor cures sensor-stuck | write a number between 0 "
        "and 1, `3 of 100`, or one of always, usually, often, sometimes, rarely, never"
    ],
    "chances: {zero-sensor: {soot-overload: 0.5}}": [
        '2:25: "zero-sensor" does not cure "soot-overload" in its pack | it cures sensor-stuck; '
        "leave the rest out"
    ],
    "chances: {zero-sensr: {sensor-stuck: 0.5}}": [
        '2:11: there is no remedy "zero-sensr" | did you mean "zero-sensor"?'
    ],
    "labour rate: much\ncurrency: EUR": [
        '2:14: "labour rate" is the text "much", not a number | write a number'
    ],
    "currency: euro": [
        '2:11: "currency" is the text "euro", which is not how it is written | '
        "write three capitals, such as EUR"
    ],
    "language: English": [
        '2:11: "language" is the text "English", which is not how it is written | '
        "write the code of a language, such as en"
    ],
    "language: ../../etc": [
        '2:11: "language" is the text "../../etc", which is not how it is written | '
        "write the code of a language, such as en"
    ],
    "unit: {mbar: hPa}": ['2:1: "unit" is not known here | did you mean "units"?'],
    "units: {mbar: C}": [
        "2:15: what is read in mbar cannot be shown in C | write a unit that mbar can be turned "
        "into"
    ],
    "tools: [scan tol]": ['2:9: no check needs a tool "scan tol" | did you mean "scan tool"?'],
    "tools: [scan tool, scan tool]": ['2:20: "scan tool" stands twice in `tools` | name it once'],
    "ages: {oil-good: a while}": [
        '2:18: "a while" is not a length of time | write it as `60 minutes`, `2 hours` or `1 day`'
    ],
    "ages: {oil-good: 90 minutes}": [
        '2:8: "oil-good" is within 60 min in its pack, and a setting may not make it 90 min | '
        "write 60 min or less; an override in a shop's own pack says why more"
    ],
    "ages: {oil-god: 9 minutes}": [
        '2:8: there is no interlock "oil-god" | did you mean "oil-good"?'
    ],
    "limits: {dp-rest-mx: {value: 3, source: A sheet}}": [
        '2:10: there is no limit "dp-rest-mx" | did you mean "dp-rest-max"?'
    ],
    "limits: {dp-not-nought: {value: 3, source: A sheet}}": [
        f'2:10: "dp-not-nought" is retired ({MODEL.retired["dp-not-nought"].place}): The same in '
        'other words | write "dp-not-zero"'
    ],
    "limits: {dp-rest-max: {value: 3}}": [
        '2:23: "dp-rest-max" lacks the key "source" | add source: …'
    ],
    "limits: {dp-rest-max: {value: 3 C, source: A sheet}}": [
        "2:31: C cannot be turned into mbar | write it in mbar"
    ],
    'limits: {dp-rest-max: {value: "1,500 mbar", source: A sheet}}': [
        '2:31: "1,500 mbar" can be read in two ways | write 1500 or 1.5'
    ],
    "limits: {dp-rest-max: {value: 3 mbra, source: A sheet}}": [
        '2:31: unknown unit "mbra" | did you mean "mbar"?'
    ],
}


@pytest.mark.parametrize("body", sorted(BAD))
def test_a_bad_setting_is_refused_in_plain_words(body: str, tmp_path: Path) -> None:
    """Each bad setting is refused at its place, with what would be right."""
    assert told(tmp_path, body + "\n") == BAD[body]


def test_unknown_units_are_refused(tmp_path: Path) -> None:
    """A unit that is none is refused on either side."""
    assert [each.partition(":")[2][:2] for each in told(tmp_path, "units: {mbra: hpa}\n")] == [
        "9:",
        "15",
    ]


def test_all_bad_settings_come_in_one_run(tmp_path: Path) -> None:
    """Shape, units, money and times are told at once, and so is all that names nothing."""
    shape = "currency: euro\nunits: {mbar: C}\nages: {oil-good: a while}\nlabour rate: -1\n"
    assert len(told(tmp_path, shape)) == 4
    names = "prices: {a: 1}\ncurrency: EUR\ntools: [b]\nages: {c: 1 day}\n"
    assert len(told(tmp_path, names)) == 3


def test_another_format_is_refused_alone(tmp_path: Path) -> None:
    """What another format means is not judged."""
    (tmp_path / "shop.yaml").write_text("format: 2\nunit: 3\n", encoding="utf-8")
    with pytest.raises(Refused) as refused:
        read_shop(tmp_path)
    assert [each.instead for each in refused.value.problems] == [
        "write `format: 1`, or use a newer version of this program"
    ]


@settings(deadline=None, max_examples=60)
@given(
    key=st.sampled_from(sorted(schema()["properties"])),
    value=st.sampled_from(
        ["3", "-1", "true", "x", "[]", "{}", "[[1]]", "{a: 1}", "{a: {value: 1}}", "{mbar: {}}",
         "[1, {a: 2}]", "{a: {from: 2}}", "{oil-good: [1]}", '"\\u202e"', "{a: {from: {}, to: 1}}",
         "{dp-rest-max: {value: [1], source: x}}", "1e999", "{a: {value: 1e5, source: {}}}"]
    ),
)  # fmt: skip
def test_no_setting_brings_a_traceback(
    key: str, value: str, tmp_path_factory: pytest.TempPathFactory
) -> None:
    """Whatever stands under a key, the settings are read or refused with located problems."""
    folder = tmp_path_factory.mktemp("shop")
    head = "" if key == "format" else "format: 1\n"
    (folder / "shop.yaml").write_text(f"{head}{key}: {value}\n", encoding="utf-8")
    problems: tuple[Problem, ...] = ()
    try:
        fitted(read_shop(folder), MODEL)
    except Refused as refused:
        problems = refused.problems
    assert all(each.what and each.instead for each in problems)


def test_the_digest_is_of_the_settings(tmp_path: Path) -> None:
    """Order, comments and the shop's name leave the digest; a setting changes it."""
    one = shop_of(tmp_path, "format: 1\nlanguage: en\ntools: [b, a]\n").digest
    other = shop_of(tmp_path, "# Ours\nname: Yard\ntools: [a, b]\nformat: 1\n").digest
    assert one == other
    assert shop_of(tmp_path, "format: 1\ntools: [a]\n").digest != one
    assert len(one) == 64


def test_the_named_folder_comes_first(tmp_path: Path) -> None:
    """--shop comes before SOOTSAYER_SHOP, and that before the nearest shop.yaml upward."""
    for name in ("one", "two", "three"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "shop.yaml").write_text("format: 1\n", encoding="utf-8")
    inside = tmp_path / "three" / "cases" / "old"
    inside.mkdir(parents=True)
    environ = {"SOOTSAYER_SHOP": str(tmp_path / "two")}
    assert find_shop(tmp_path / "one", environ, inside) == tmp_path / "one"
    assert find_shop(None, environ, inside) == tmp_path / "two"
    assert find_shop(None, {"SOOTSAYER_SHOP": ""}, inside) == tmp_path / "three"
    assert find_shop(None, {}, tmp_path) is None


def test_a_named_folder_that_is_no_shops_is_refused(tmp_path: Path) -> None:
    """Naming a folder without shop.yaml, none at all, or the file itself says what to name."""
    (tmp_path / "shop.yaml").write_text("format: 1\n", encoding="utf-8")
    (tmp_path / "empty").mkdir()
    for named, instead in (
        (tmp_path / "empty", "name the shop's own folder, or write a shop.yaml"),
        (tmp_path / "nowhere", "name the folder that holds the shop.yaml"),
        (tmp_path / "shop.yaml", f"name its folder: {tmp_path}"),
        (Path("\0"), "name the folder"),
    ):
        with pytest.raises(Refused) as refused:
            find_shop(named, {}, tmp_path)
        assert refused.value.problems[0].instead.startswith(instead)


def test_a_shops_packs_come_with_it(tmp_path: Path) -> None:
    """packs/ is a further folder of packs, where there is a pack in it."""
    assert read_shop(SHOP).pack_folders() == (SHOP / "packs",)
    shop = shop_of(tmp_path, "format: 1\n")
    shop.packs.mkdir()
    assert shop.pack_folders() == ()
    assert load_rulebook([GOLDEN, *read_shop(SHOP).pack_folders()]).model.overrides


def test_packs_that_may_not_be_read_are_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A packs/ without the right to look into it is a problem, never silence."""
    shop = shop_of(tmp_path, "format: 1\n")
    shop.packs.mkdir()

    def refuse(folder: Path) -> None:
        raise PermissionError(13, "Permission denied", str(folder))

    monkeypatch.setattr(Path, "iterdir", refuse)
    with pytest.raises(Refused) as refused:
        load_rulebook(shop.pack_folders())
    assert [each.what for each in refused.value.problems] == [
        "the folder cannot be read (Permission denied)"
    ]


def test_the_shipped_rulebook_takes_a_shop(tmp_path: Path) -> None:
    """The settings on the reference page are right for the shipped rulebook."""
    page = Path(__file__).parents[2] / "docs" / "reference" / "shop-folder.md"
    blocks = page.read_text(encoding="utf-8").split("```yaml\n")[1:]
    shop = shop_of(tmp_path, blocks[0].partition("```")[0])
    shop.packs.mkdir()
    (shop.packs / "shop-own.yaml").write_text(blocks[1].partition("```")[0], encoding="utf-8")
    model = load_rulebook([shipped_rules(), *shop.pack_folders()]).model
    assert fitted(shop, model).limits
    assert model.overrides
    assert set(shop.document.root.items) <= set(schema()["properties"])
    for key in schema()["properties"]:
        assert f"| `{key}` |" in page.read_text(encoding="utf-8"), key
