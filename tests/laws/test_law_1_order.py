"""Law 1. The order of packs, of rules and of the facts in one entry never changes a verdict."""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from sootsayer.casework.model import Case, Entry
from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict_json import as_json
from sootsayer.rulebook.compiled import Rulebook, load_rulebook
from sootsayer.rulebook.shipped import shipped_rules
from tests.laws.demonstrations import A_FEW, closing_moment, demonstration, demonstrations
from tests.laws.making_cases import NOW, SOME, cases, rulebook
from tests.laws.outline import as_plain, beliefs, outline, without_lines


def _shuffled(node: Any, chance: random.Random) -> Any:
    """Mappings in another order; lists keep theirs where it means something."""
    if isinstance(node, dict):
        keys = list(node)
        chance.shuffle(keys)
        return {key: _shuffled(node[key], chance) for key in keys}
    return [_shuffled(item, chance) for item in node] if isinstance(node, list) else node


def _plain_scalars(text: str) -> str:
    """Numbers and booleans, which the base loader reads as text, written plain again."""
    return re.sub(r"'(true|false|-?(?:0|[1-9]\d*)(?:\.\d+)?)'(?!:)", r"\1", text)


def write_shuffled(folder: Path, seed: int) -> list[Path]:
    """The shipped packs, items in another order, in two folders, these in another order too."""
    chance = random.Random(seed)
    packs = sorted(Path(shipped_rules()).glob("*.yaml"))
    assert len(packs) > 3
    chance.shuffle(packs)
    folders = [folder / "one", folder / "two"]
    for number, pack in enumerate(packs):
        target = folders[number % 2]
        target.mkdir(exist_ok=True, parents=True)
        data = yaml.load(pack.read_text("utf-8"), yaml.BaseLoader)
        if "evidence" in data:
            chance.shuffle(data["evidence"])
        text = yaml.dump(_shuffled(data, chance), sort_keys=False, allow_unicode=True, width=10**6)
        (target / pack.name).write_text(_plain_scalars(text), "utf-8")
    chance.shuffle(folders)
    return folders


def order_of_rules_changes_nothing(folder: Path, seed: int) -> Rulebook:
    """The packs split, shuffled inside and loaded the other way round say the same of each case."""
    book, straight = load_rulebook(write_shuffled(folder, seed)), load_rulebook([shipped_rules()])
    assert book.digests == straight.digests
    for case, at in demonstrations():
        one, other = outline(case, at, book), outline(case, at, straight)
        assert as_plain(one, beliefs(one)) == as_plain(other, beliefs(other))
    return book


Order = Callable[[Sequence[Any]], Sequence[Any]]


def reordered(case: Case, order: Order) -> Case:
    """The case with the facts of each entry, and the codes of each list, in another order."""

    def turned(entry: Entry) -> Entry:
        codes = entry.codes
        if codes is not None:
            codes = replace(codes, codes=tuple(order(codes.codes)))
        return replace(entry, said=tuple(order(entry.said)), codes=codes)

    return replace(case, entries=tuple(turned(entry) for entry in case.entries))


def order_of_facts_changes_nothing(case: Case, at: datetime, order: Order) -> None:
    """The same is said of the case with the facts of each entry in another order."""
    one, other = outline(case, at), outline(reordered(case, order), at)
    assert as_plain(one, beliefs(one)) == as_plain(other, beliefs(other))


def backwards(items: Sequence[Any]) -> Sequence[Any]:
    return items[::-1]


@pytest.mark.parametrize("seed", range(2))
def test_order_of_packs_and_rules_never_matters(seed: int, tmp_path: Path) -> None:
    """Packs split, shuffled inside and loaded the other way round give the same verdicts."""
    order_of_rules_changes_nothing(tmp_path, seed)


def test_whole_verdict_is_the_same_in_any_order(tmp_path: Path) -> None:
    """Contributions too: the whole verdict is the same, whatever the order of rules and facts."""
    book = load_rulebook(write_shuffled(tmp_path, 7))
    case = demonstration("leaking-front-hose")
    at = closing_moment(case)
    straight = as_json(judge(case, rulebook(), now=at))
    turned = as_json(judge(reordered(case, backwards), book, now=at))
    assert without_lines(turned) == without_lines(straight)


def test_shuffling_moves_every_pack(tmp_path: Path) -> None:
    """The tests above compare something: no shuffled pack has its keys in the old order."""
    for folder in write_shuffled(tmp_path, 0):
        for pack in folder.glob("*.yaml"):
            old = (Path(shipped_rules()) / pack.name).read_text("utf-8")
            ids = [re.findall(r"^  ([a-z0-9-]+):", text, re.M) for text in (old, pack.read_text())]
            assert ids[0] != ids[1], pack.name


@pytest.mark.parametrize("name", A_FEW)
def test_order_of_facts_in_an_entry_never_matters(name: str) -> None:
    """Each entry's facts turned round, or shuffled, give the same verdict."""
    case = demonstration(name)
    chance = random.Random(name)
    order_of_facts_changes_nothing(case, closing_moment(case), backwards)
    order_of_facts_changes_nothing(
        case, closing_moment(case), lambda items: chance.sample(items, len(items))
    )


@SOME
@given(cases(one_entry=True), st.randoms(use_true_random=False))
def test_order_of_any_facts_in_an_entry_never_matters(case: Case, chance: random.Random) -> None:
    """Any facts of one source in one entry may be written in any order."""
    order_of_facts_changes_nothing(case, NOW, lambda items: chance.sample(items, len(items)))
