"""`python -m tests.bench [TURNS]`: how long things take, as ratios to what others take.

Processor time, median of TURNS (default 7) turns taken alternately. The ratio is ours to
theirs: below 1 we take less. Beside it what is aimed at. `python -m tests.bench.archive` and
`tests.bench.asking` measure the rest, for minutes.
"""

from __future__ import annotations

import platform
import sys

from tests.bench import believing, chaining, larger, questions, readings, starting, verdicts


def main() -> None:
    turns = int(sys.argv[1]) if len(sys.argv) > 1 else 7
    print(f"Python {platform.python_version()}, median of {turns} turns, processor time in ms")
    print(f"{'ours : theirs':<62} {'ours':>9} {'theirs':>10} {'ratio':>9}   aim")
    for part in (starting, chaining, larger, believing, verdicts, questions, readings):
        for line in part.rows(turns):
            print(line, flush=True)


if __name__ == "__main__":
    main()
