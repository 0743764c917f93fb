"""The same work on many machines: a Dask cluster, and cases from any path that fsspec opens.

Needs the extra `fleet`. Each worker replays handfuls of files with the same code as one machine
does, and the rows come back in the shelf's order, so that what is added up is the same to the last
bit. A worker that dies has its handfuls done by another.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import TYPE_CHECKING, Any, TypeVar

from sootsayer import __version__
from sootsayer.catalogue import language, say, speak
from sootsayer.documents.nodes import Place
from sootsayer.documents.problems import Problem, Refused
from sootsayer.documents.reading import LARGEST, check_size
from sootsayer.learning.archive.rows import Row, Task
from sootsayer.learning.archive.running import Died, rows_here
from sootsayer.learning.archive.shelf import Listed, Shelf
from sootsayer.learning.archive.walk import Item

if TYPE_CHECKING:
    from distributed import Client, Future

P = TypeVar("P")
AT_ONCE = 64  # files a worker takes at a time
_AHEAD = 3  # handfuls waiting for each thread of the cluster
_MARKS = ("mtime", "LastModified", "last_modified", "updated", "ETag", "etag")

_made: dict[str, Any] = {}  # of a worker's process: what was made ready, by the task's key


class NoCluster(Exception):  # noqa: N818 (reads as it is said)
    """No scheduler answers at `address`."""

    def __init__(self, address: str, why: str) -> None:
        self.address, self.why = address, why
        super().__init__(f"{address}: {why}")


@dataclass(frozen=True, slots=True)
class RemoteShelf:
    """A folder that fsspec opens, such as `s3://bucket/cases`. Links are not told there."""

    url: str

    def listed(self, folder: str) -> Sequence[Listed]:
        files, root = self._opened()
        path = f"{root}/{folder}".rstrip("/")
        found = []
        for each in files.ls(path, detail=True):
            name = each["name"].rstrip("/").rpartition("/")[2]
            if each["name"].rstrip("/") != path:
                found.append(Listed(name, each["type"] == "directory", _mark(each)))
        return [each for each in found if each.name]

    def mark(self, folder: str) -> str:  # noqa: ARG002 (of the shelf's shape)
        return ""

    def read(self, name: str) -> bytes:
        files, root = self._opened()
        try:
            with files.open(f"{root}/{name}", "rb") as stream:
                data = bytes(stream.read(LARGEST + 1))
        except Exception as error:  # every store has errors of its own
            why = f"{type(error).__name__}: {error}"[:180]
            what = say("the file cannot be read ({why})", why=why)
            problem = Problem(Place(name, 1, 1), what, say("check the path and the rights"))
            raise Refused([problem]) from None
        check_size(data, name)
        return data

    def _opened(self) -> tuple[Any, str]:
        import fsspec

        files, root = fsspec.core.url_to_fs(self.url)
        return files, str(root).rstrip("/")


def connected(address: str, timeout: float = 10.0) -> Client:
    """A client of the scheduler at `address`. Raises NoCluster."""
    from distributed import Client

    try:
        return Client(address, timeout=timeout, set_as_default=False)
    except (OSError, ValueError, TimeoutError) as error:
        raise NoCluster(address, str(error) or type(error).__name__) from None


def rows_on(client: Client, task: Task[P], shelf: Shelf, found: Iterable[Item]) -> Iterator[Row[P]]:
    """As `running.rows_of`, on the workers of the cluster. Raises Died, and Refused for a worker
    with another version of this program."""
    # A computed value, not a scattered one: should every copy be lost, it is made again.
    held = client.submit(_itself, task, pure=False)
    key, ahead = task.key, max(1, sum(client.nthreads().values())) * _AHEAD
    items = iter(found)
    waiting: deque[tuple[tuple[Item, ...], Future]] = deque()
    try:
        while True:
            while len(waiting) < ahead and (handful := tuple(islice(items, AT_ONCE))):
                future = client.submit(
                    _there,
                    held,
                    key,
                    shelf,
                    handful,
                    __version__,
                    language(),
                    pure=False,
                    retries=2,
                )
                waiting.append((handful, future))
            if not waiting:
                return
            handful, future = waiting.popleft()
            yield from _rows(handful, future)
    finally:
        client.cancel([future for _, future in waiting])


def _rows(handful: Sequence[Item], future: Future) -> list[Row[Any]]:
    from distributed.scheduler import KilledWorker

    try:
        rows: list[Row[Any]] = future.result()
    except KilledWorker:
        raise Died([item.name for item in handful]) from None
    return rows


def _itself(task: Task[P]) -> Task[P]:
    return task


def _there(
    task: Task[P], key: str, shelf: Shelf, handful: Sequence[Item], version: str, speaks: str
) -> list[Row[P]]:
    """On a worker: the rows of a handful, in the language of whoever asked."""
    speak(speaks)
    if version != __version__:
        what = say(
            "this worker has sootsayer {own}, and {wanted} was asked for",
            own=__version__,
            wanted=version,
        )
        instead = say("install the same version on every worker")
        raise Refused([Problem(Place("worker", 1, 1), what, instead)])
    if key not in _made:
        _made.clear()  # one task at a time; what an earlier one kept is not needed any more
        _made[key] = task.worker()
    return rows_here(_made[key], shelf, handful)


def _mark(listed: dict[str, Any]) -> str:
    parts = [listed.get("size"), *(listed.get(key) for key in _MARKS)]
    return ".".join(str(part) for part in parts if part is not None)
