"""A cold `judge`, a whole process, beside importing the three things that it depends on."""

from __future__ import annotations

from tests.bench.clock import of_processes, row

IMPORTS = "import yaml, jsonschema, rich"
USED = "import yaml, jsonschema, rich.console, rich.text"


def rows(turns: int) -> list[str]:
    judge = ["-m", "sootsayer", "judge", "blocked-by-short-trips"]
    ours, bare, used, python = of_processes(
        [judge, ["-c", IMPORTS], ["-c", USED], ["-c", "pass"]], turns
    )
    return [
        row("cold judge : importing PyYAML, jsonschema, rich", ours, bare),
        row("cold judge : the same with rich's console", ours, used),
        row("cold judge : an empty Python", ours, python),
    ]
