"""Properties are tried on the same examples in every run, so that what is green stays green.

To search for new ones: SOOTSAYER_SEARCH=1 python -m pytest.

No test leaves a kept rulebook in the cache folder of whoever runs it, or leans on one there: a
run has a folder of its own, so that each command reads the packs once a run and not once a call.
"""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile

from hypothesis import settings

settings.register_profile("repeatable", derandomize=True, database=None, deadline=None)
settings.register_profile("search", deadline=None, print_blob=True)
settings.load_profile("search" if os.environ.get("SOOTSAYER_SEARCH") else "repeatable")
if "PYTEST_XDIST_WORKER" not in os.environ:  # the workers have it from whoever started them
    os.environ["SOOTSAYER_CACHE"] = tempfile.mkdtemp(prefix="sootsayer-kept-")
    atexit.register(shutil.rmtree, os.environ["SOOTSAYER_CACHE"], ignore_errors=True)
# English, whatever the machine speaks: tests of other languages choose them themselves. LC_ALL is
# taken apart, since it would decide the language of messages too.
os.environ.pop("SOOTSAYER_LANGUAGE", None)
_everything = os.environ.pop("LC_ALL", None)
if _everything:
    os.environ["LC_CTYPE"] = _everything
os.environ["LC_MESSAGES"] = "C"
