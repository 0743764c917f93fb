"""`python -m tests.fuzz KIND SEED [COUNT]`: one input again, or so many from there on.

KIND is one of the kinds, or `all`: COUNT is then shared among them. Failing inputs are written into
the folder that SOOTSAYER_FUZZ_KEPT names. With FUZZ_JSON set, the result is JSON on the last line.
"""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path

from tests.fuzz.batch import batch, said
from tests.fuzz.kinds import KINDS, SHARES


def main(kind: str, first: int, count: int = 1) -> int:
    """Run; 1 where anything failed."""
    kept = os.environ.get("SOOTSAYER_FUZZ_KEPT")
    keep = None if not kept else Path(kept).absolute()
    shares = {each.__name__: share for each, share in SHARES.items()}
    wanted = (
        {name: count * shares[name] // 100 for name in KINDS} if kind == "all" else {kind: count}
    )
    failed = 0
    for name, number in wanted.items():
        told = batch(name, first, number, keep)
        failed += len(told.failed)
        print(json.dumps(told.plain()) if os.environ.get("FUZZ_JSON") else said(told), flush=True)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], *map(int, sys.argv[2:4])))
