"""Sessions killed at random moments; prints one JSON object a line: what each had acknowledged.

Run as a process of its own: it reads the rulebook once and forks a child for every session, so
that most of a child's short life is spent answering. `python -m tests.commands.asking.killed
COUNT SEED FOLDER`.
"""

from __future__ import annotations

import json
import os
import random
import re
import select
import signal
import sys
import time
from pathlib import Path

from sootsayer.commands import opened
from sootsayer.commands.main import main
from tests.commands.asking.run import on_little_rulebook
from tests.commands.asking.support import HEADER, rulebook

ANSWERS = 40
LONGEST_LIFE_S = 20.0
MOST_BEFORE, LONGEST_DELAY_S = 3, 0.15
ACKNOWLEDGED = re.compile(r"dp@idle ([\d.]+) mbar: written, entry (\d+)\.")


def child(case: Path, answers: Path, write_end: int) -> None:
    """Answers until it is killed; never returns."""
    os.dup2(write_end, 1)
    os.dup2(write_end, 2)
    sys.stdout = os.fdopen(1, "w", encoding="utf-8")
    code = 9
    try:
        code = main(["ask", str(case), "--answers", str(answers)])
    finally:
        os._exit(code)


def killed_once(case: Path, answers: Path, after: int, delay_s: float) -> str:
    """What a session had said when it was killed, so long after that many acknowledgements."""
    read_end, write_end = os.pipe()
    pid = os.fork()
    if pid == 0:
        os.close(read_end)
        child(case, answers, write_end)
    os.close(write_end)
    said = b""
    deadline = time.monotonic() + LONGEST_LIFE_S
    with os.fdopen(read_end, "rb", buffering=0) as stream:
        while said.count(b": written, entry") < after and time.monotonic() < deadline:
            if select.select([stream], [], [], 0.05)[0]:
                part = stream.read(65_536)
                said += part or b""
                if not part:
                    break  # it ended by itself
        time.sleep(delay_s)
        os.kill(pid, signal.SIGKILL)
        os.waitpid(pid, 0)
        while part := stream.read(65_536):
            said += part
    return said.decode("utf-8", "replace")


def run(count: int, seed: int, folder: Path) -> None:
    on_little_rulebook()
    loaded = rulebook()
    opened.load_rulebook = lambda *_: loaded  # read before the fork, once
    chance = random.Random(seed)
    case, answers = folder / "van.yaml", folder / "answers.txt"
    for number in range(count):
        if number % 10 == 0:  # in between each goes on with what the one before left
            case.write_text(HEADER, encoding="utf-8")
        first = 1 + ANSWERS * (number % 10)  # no value twice in one case, none that is doubted
        lines = [f"again dp@idle {(first + k) / 10:.1f} mbar" for k in range(ANSWERS)]
        answers.write_text("".join(f"{line}\n" for line in lines), encoding="utf-8")
        after, delay_s = chance.randint(0, MOST_BEFORE), chance.uniform(0.0, LONGEST_DELAY_S)
        said = killed_once(case, answers, after, delay_s)
        told = [[int(entry), value] for value, entry in ACKNOWLEDGED.findall(said)]
        print(json.dumps({"acknowledged": told, "file": case.read_bytes().decode()}), flush=True)
        assert "Traceback" not in said, said


if __name__ == "__main__":
    run(int(sys.argv[1]), int(sys.argv[2]), Path(sys.argv[3]))
