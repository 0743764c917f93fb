"""Tab pressed in real shells: bash, zsh and fish, each where it is installed."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from sootsayer.commands.main import main
from tests.commands.shells import SHELLS, Typist
from tests.commands.test_completion import shop

# What is typed, and what the program is given after Tab and Enter.
TYPED = [
    ("sootsayer jud", "judge"),
    ("sootsayer rules backt", "rules backtest"),
    ("sootsayer judge blocked-by-s", "judge blocked-by-short-trips"),
    ("sootsayer judge sensor-offset --js", "judge sensor-offset --json"),
    ("sootsayer why sensor-offset soot-overl", "why sensor-offset soot-overload"),
    ("sootsayer records list --fault ash-", "records list --fault ash-full"),
    ("sootsayer completion po", "completion powershell"),
    ("sootsayer judge 2031-zz", "judge 2031-zz-a"),
    ("sootsayer rules show shop-soot", "rules show shop-soot-at-clamp"),
    ("sootsayer rules check packs/sh", "rules check packs/shop-own.yaml"),
    ("sootsayer judge --as-of 3 keys-th", "judge --as-of 3 keys-through-the-door"),
]


@pytest.fixture(params=SHELLS)
def typist(
    request: pytest.FixtureRequest, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> Iterator[Typist]:
    shell: str = request.param
    assert main(["completion", shell]) == 0
    script = tmp_path / "script"
    script.write_text(capsys.readouterr().out, encoding="utf-8")
    (tmp_path / "home").mkdir()
    typing = Typist(shell, script, shop(tmp_path), tmp_path / "home")
    yield typing
    typing.close()


def test_tab_completes(typist: Typist) -> None:
    """Commands, actions, options, cases, ids and files, the shop's own among them."""
    assert {typed: typist.tab(typed) for typed, _ in TYPED} == dict(TYPED)
