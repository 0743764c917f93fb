"""`python -m sootsayer` does what `sootsayer` does."""

from __future__ import annotations

import sys

from sootsayer.commands.main import main

if __name__ == "__main__":
    sys.exit(main())
