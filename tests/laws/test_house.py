"""The house: arrows point down only, and pure rooms stay pure (DEVELOPERS.md, "The house")."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.laws.house_reader import ARROWS, PURE, breaches, room_of

SOURCE = Path(__file__).parents[2] / "src" / "sootsayer"


def plant(house: Path, where: str, text: str) -> list[str]:
    """What the reader says of a house with one file in it."""
    file = house / where
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, encoding="utf-8")
    return [str(breach) for breach in breaches(house)]


def test_source_is_there() -> None:
    """The law reads real rooms, not an empty folder."""
    rooms = {file.relative_to(SOURCE).parts[0] for file in SOURCE.rglob("*.py")}
    assert {"engine", "belief", "judgement", "commands"} <= rooms


def test_arrows_point_down_and_pure_rooms_are_pure() -> None:
    """No file of the program breaks a rule of the house."""
    assert [str(breach) for breach in breaches(SOURCE)] == []


def test_arrows_have_no_cycle() -> None:
    """The table of arrows itself points down only: no room can reach itself."""
    for room in ARROWS:
        seen: set[str] = set()
        ahead = {room_of(name) for name in ARROWS[room]} - {room}
        while ahead:
            seen |= ahead
            ahead = {room_of(n) for at in ahead for n in ARROWS[at] if n != at} - seen
        assert room not in seen, room


@pytest.mark.parametrize(
    ("where", "text"),
    [
        ("engine/x.py", "from sootsayer.belief.network import Kind\n"),
        ("engine/x.py", "import sootsayer.documents.nodes\n"),
        ("engine/x.py", "from sootsayer import judgement\n"),
        ("belief/x.py", "from ..engine import conditions\n"),
        ("belief/deep/x.py", "from ...engine.conditions import Value\n"),
        ("physics/__init__.py", "from .. import rulebook\n"),
        ("rulebook/x.py", "def f():\n    from sootsayer.casework.model import Case\n"),
        ("casework/x.py", "class A:\n    def f(self):\n        from ..judgement import verdict\n"),
        (
            "documents/x.py",
            "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n"
            "    from sootsayer.engine.conditions import Value\n",
        ),
        ("documents/escaping.py", "from sootsayer.catalogue import say\n"),
        ("documents/escaping.py", "from .nodes import Place\n"),
        ("catalogue.py", "from sootsayer.documents.nodes import Place\n"),
        ("advice/x.py", "from sootsayer.documents.problems import Problem\n"),
        ("advice/x.py", "from sootsayer.interview import ask\n"),
        ("judgement/x.py", "from sootsayer.console import verdict\n"),
        ("console/x.py", "from sootsayer.commands import main\n"),
        ("rulebook/x.py", "import importlib\nimportlib.import_module('sootsayer.judgement')\n"),
        ("attic/x.py", "x = 1\n"),
    ],
)
def test_planted_arrow_is_found(tmp_path: Path, where: str, text: str) -> None:
    """An arrow that points up is found however it is written, and so is a room without a name."""
    assert len(plant(tmp_path, where, text)) == 1


@pytest.mark.parametrize("room", sorted(PURE))
@pytest.mark.parametrize(
    "text",
    [
        "import pathlib\n",
        "from pathlib import Path\n",
        "import os.path\n",
        "def f():\n    import io\n",
        "import shutil as s\n",
        "from tempfile import mkdtemp\n",
        "import time\n",
        "import yaml\n",
        "import jsonschema\n",
        "import random\n",
        "from secrets import token_hex\n",
        "import uuid\n",
        "def f(name):\n    return open(name)\n",
        "def f(p):\n    return p.read_text()\n",
        "from datetime import datetime\ndef f():\n    return datetime.now()\n",
        "from datetime import datetime as dt\nf = dt.utcnow\n",
        "import datetime\ndef f():\n    return datetime.date.today()\n",
    ],
)
def test_planted_impurity_is_found(tmp_path: Path, room: str, text: str) -> None:
    """A pure room that reaches for files, clock, formats or chance is found."""
    assert len(plant(tmp_path, f"{room}/x.py", text)) == 1


@pytest.mark.parametrize(
    ("where", "text"),
    [
        ("judgement/x.py", "def f(x):\n    return eval(x)\n"),
        ("commands/x.py", "exec('x = 1')\n"),
        ("rulebook/x.py", "m = __import__('json')\n"),
        ("ledger/x.py", "import pickle\n"),
        ("ledger/x.py", "def f():\n    from pickle import loads\n"),
        ("commands/x.py", "from builtins import eval as e\n"),
        ("casework/x.py", "from rich.text import Text\n"),
        ("learning/x.py", "def f():\n    import rich\n"),
    ],
)
def test_planted_danger_is_found(tmp_path: Path, where: str, text: str) -> None:
    """Code from text, pickles, and drawing outside the drawing rooms are found."""
    assert len(plant(tmp_path, where, text)) == 1


@pytest.mark.parametrize(
    ("where", "text"),
    [
        ("engine/x.py", "from .conditions import Value\nfrom sootsayer.engine import strata\n"),
        ("engine/x.py", "from datetime import datetime\ndef f(now: datetime):\n    return now\n"),
        ("engine/x.py", "from sootsayer.catalogue import say\n"),
        ("documents/x.py", "from .escaping import visible\nfrom ..catalogue import say\n"),
        ("rulebook/x.py", "from pathlib import Path\nimport os\n"),
        ("rulebook/x.py", "from sootsayer.engine.conditions import Value\n"),
        ("advice/x.py", "from sootsayer.documents.nodes import Place\n"),
        ("advice/x.py", "from sootsayer.documents import nodes\n"),
        ("judgement/x.py", "from sootsayer import __version__\nimport json\nimport re\n"),
        ("judgement/x.py", "import re\nr = re.compile('x')\ndef f(case):\n    return case.now\n"),
        ("console/x.py", "from rich.text import Text\nfrom sootsayer.catalogue import text\n"),
        ("commands/x.py", "from sootsayer.ledger import records\nimport time\n"),
    ],
)
def test_rightful_code_passes(tmp_path: Path, where: str, text: str) -> None:
    """What the house allows is not accused."""
    assert plant(tmp_path, where, text) == []
