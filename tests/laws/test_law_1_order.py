"""Law 1. The order of packs, of rules and of the facts in one entry never changes a verdict."""

from __future__ import annotations

import random
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import yaml

from sootsayer.judgement.judge import judge
from sootsayer.judgement.verdict_json import as_json
from sootsayer.rulebook.compiled import Rulebook, load_rulebook, shipped_rules
from tests.laws.demonstrations import NAMES, closing_moment, demonstration
from tests.laws.making_cases import rulebook


def told(name: str, book: Rulebook) -> object:
    """The verdict without the lines at which rules stand: these do move."""
    case = demonstration(name)
    return _without_lines(as_json(judge(case, book, now=closing_moment(case))))


def _without_lines(node: object) -> object:
    if isinstance(node, dict):
        return {k: _without_lines(v) for k, v in node.items() if k != "rule"}
    if isinstance(node, list):
        return [_without_lines(item) for item in node]
    return node


def _shuffled(node: Any, chance: random.Random) -> Any:
    """Mappings in another order; lists keep theirs where it means something."""
    if isinstance(node, dict):
        keys = list(node)
        chance.shuffle(keys)
        return {key: _shuffled(node[key], chance) for key in keys}
    return [_shuffled(item, chance) for item in node] if isinstance(node, list) else node


def _write_shuffled(folder: Path, chance: random.Random) -> list[Path]:
    """The shipped packs, items in another order, in two folders."""
    packs = sorted(Path(shipped_rules()).glob("*.yaml"))
    assert len(packs) > 3
    chance.shuffle(packs)
    folders = [folder / "one", folder / "two"]
    for number, pack in enumerate(packs):
        target = folders[number % 2]
        target.mkdir(exist_ok=True)
        data = yaml.load(pack.read_text("utf-8"), yaml.BaseLoader)
        if "evidence" in data:
            chance.shuffle(data["evidence"])
        text = yaml.dump(_shuffled(data, chance), sort_keys=False, allow_unicode=True, width=10**6)
        (target / pack.name).write_text(_plain_scalars(text), "utf-8")
    chance.shuffle(folders)
    return folders


def _plain_scalars(text: str) -> str:
    """Numbers and booleans, which the base loader reads as text, written plain again."""
    return re.sub(r"'(true|false|-?(?:0|[1-9]\d*)(?:\.\d+)?)'(?!:)", r"\1", text)


@pytest.mark.parametrize("seed", range(3))
def test_order_of_packs_and_rules_never_matters(seed: int, tmp_path: Path) -> None:
    """Packs split, shuffled inside and loaded the other way round give the same verdicts."""
    book = load_rulebook(_write_shuffled(tmp_path, random.Random(seed)))
    assert book.digests == rulebook().digests
    for name in NAMES:
        assert told(name, book) == told(name, rulebook())


def test_order_of_facts_in_an_entry_never_matters() -> None:
    """Each entry's facts turned round give the same verdict."""
    assert NAMES
    for name in NAMES:
        case = demonstration(name)
        turned = replace(
            case,
            entries=tuple(replace(e, said=tuple(reversed(e.said))) for e in case.entries),
        )
        at = closing_moment(case)
        assert as_json(judge(case, rulebook(), now=at)) == as_json(
            judge(turned, rulebook(), now=at)
        )
