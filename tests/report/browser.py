"""A real browser without a window, and a server that keeps count of what is asked of it."""

from __future__ import annotations

import re
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from urllib.parse import urlsplit

NAMES = ("chromium", "chromium-browser", "google-chrome")
WHERE = next((path for name in NAMES if (path := shutil.which(name))), None)
MISSING = "no chromium on the path; Debian and Ubuntu: apt-get install chromium"

# Loads the page in frames of the widths asked for and writes what it sees into its own title.
HARNESS = """<!DOCTYPE html><html lang="en"><head><link rel="icon" href="data:,">
<title>waiting</title></head><body><script>
const widths = [360, 1280], seen = [];
for (const width of widths) {
  const frame = document.createElement("iframe");
  frame.style.cssText = `width:${width}px;height:1000px;border:0`;
  frame.onload = () => {
    const doc = frame.contentDocument, root = doc.documentElement;
    const wide = [...doc.querySelectorAll("body *")].filter(
      (e) => e.getBoundingClientRect().right > width + 0.5).length;
    const asked = frame.contentWindow.performance.getEntriesByType("resource").length;
    seen.push(`${width}:${root.scrollWidth}:${wide}:${asked}`);
    if (seen.length === widths.length) document.title = "seen " + seen.sort().join(" ");
  };
  frame.src = "/page";
  document.body.append(frame);
}
</script></body></html>"""


@dataclass
class Server:
    """What it serves, by path, and the paths that were asked for."""

    pages: dict[str, str]
    asked: list[str] = field(default_factory=list)
    port: int = 0

    def url(self, path: str) -> str:
        return f"http://127.0.0.1:{self.port}{path}"


@contextmanager
def serving(pages: dict[str, str]) -> Iterator[Server]:
    """A server on a free port of this machine alone."""
    server = Server(pages)

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            path = urlsplit(self.path).path
            server.asked.append(path)
            page = server.pages.get(path)
            self.send_response(404 if page is None else 200)
            self.send_header("Content-Type", "text/html; charset=utf-8")
            self.end_headers()
            self.wfile.write((page or "").encode())

        def log_message(self, *_: object) -> None:
            return

    with ThreadingHTTPServer(("127.0.0.1", 0), Handler) as http:
        server.port = http.server_address[1]
        thread = Thread(target=http.serve_forever, daemon=True)
        thread.start()
        try:
            yield server
        finally:
            http.shutdown()
            thread.join()


def run(*options: str) -> subprocess.CompletedProcess[str]:
    """One run of the browser, with a profile of its own that is thrown away."""
    assert WHERE is not None, MISSING
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as profile:
        return subprocess.run(
            [
                WHERE, "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run",
                "--disable-dev-shm-usage", "--disable-background-networking", "--disable-sync",
                "--disable-component-update", "--disable-extensions",
                "--enable-logging=stderr", f"--user-data-dir={profile}", *options,
            ],
            capture_output=True, text=True, timeout=120, check=False,
        )  # fmt: skip


def console(stderr: str) -> list[str]:
    """The console messages of a run."""
    return [line for line in stderr.splitlines() if "CONSOLE" in line]


def pages_of(pdf: Path) -> int:
    """How many pages a PDF of the browser has."""
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf.read_bytes()))
