"""Properties are tried on the same examples in every run, so that what is green stays green.

To search for new ones: SOOTSAYER_SEARCH=1 python -m pytest.

No test leaves a kept rulebook in the cache folder of whoever runs it, or leans on one there.
"""

from __future__ import annotations

import os

from hypothesis import settings

settings.register_profile("repeatable", derandomize=True, database=None, deadline=None)
settings.register_profile("search", deadline=None, print_blob=True)
settings.load_profile("search" if os.environ.get("SOOTSAYER_SEARCH") else "repeatable")
os.environ["SOOTSAYER_CACHE"] = "off"
