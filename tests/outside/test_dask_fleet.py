"""The same backtest and rates on a real scheduler with two workers, one killed midway."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import Any

import fsspec
import pytest
from distributed import Client, LocalCluster

from sootsayer.commands.main import main
from sootsayer.commands.over_archive import options
from sootsayer.learning import fleet
from sootsayer.learning.archive.counted import Counted, once_each
from sootsayer.learning.archive.rows import Row, Task, as_line
from sootsayer.learning.archive.running import replayed
from sootsayer.learning.archive.shelf import LocalShelf, Shelf
from sootsayer.learning.archive.walk import items
from sootsayer.learning.backtest.tally import tallied
from sootsayer.learning.fleet import NoCluster, RemoteShelf, connected, rows_on
from sootsayer.learning.rates.task import RatesTask
from tests.learning.archive.support import HEALTHY, case_text, put, small_texts, some_archive, tried

pytestmark = [
    pytest.mark.skipif(os.name == "nt", reason="no SIGKILL there"),
    pytest.mark.filterwarnings("default"),  # what a scheduler warns of is not ours
    pytest.mark.xdist_group("dask"),
]
BACKTEST = tried(("default: 22 g", "default: 44 g"))
RATES = RatesTask(small_texts())
COPIES = 24  # of the seven cases, so that there is something to kill in the middle of


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Many closed cases, a broken one and a copy."""
    folder = tmp_path_factory.mktemp("archive")
    for i in range(COPIES):
        for path in some_archive(folder / f"{i:02}").rglob("*.yaml"):
            text = path.read_text(encoding="utf-8").replace("case: case-", f"case: shop-{i}-")
            path.write_text(text, encoding="utf-8")
    put(folder, "broken.yaml", "case: [")
    put(folder, "copy.yaml", case_text("shop-3-1", HEALTHY, []))
    return folder


@pytest.fixture(scope="module")
def cluster() -> Iterator[LocalCluster]:
    with LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, silence_logs=50
    ) as made:
        yield made


@pytest.fixture
def client(cluster: LocalCluster) -> Iterator[Client]:
    made = connected(cluster.scheduler_address)
    made.wait_for_workers(2, timeout=60)
    yield made
    made.close()


def lines(task: Task[Any], rows: Iterator[Row[Any]]) -> list[str]:
    return [as_line(task, row, "") for row in rows]


def there(task: Task[Any], shelf: Shelf, client: Client) -> Iterator[Row[Any]]:
    return replayed(task, shelf, run=partial(rows_on, client))


@pytest.mark.parametrize("task", [BACKTEST, RATES], ids=["backtest", "rates"])
def test_one_of_two_workers_killed(
    task: Task[Any], folder: Path, client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Row for row what one machine gives, bit for bit, though a worker is killed midway."""
    monkeypatch.setattr(fleet, "AT_ONCE", 4)
    plain = lines(task, replayed(task, LocalShelf(folder)))
    workers = list(client.run(os.getpid).values())
    assert len(workers) == 2
    found = []
    for number, row in enumerate(there(task, LocalShelf(folder), client)):
        found.append(as_line(task, row, ""))
        if number == 12:
            os.kill(workers[0], signal.SIGKILL)
    assert found == plain
    assert len(found) == 7 * COPIES + 2


def test_sums_to_the_last_bit(folder: Path, client: Client) -> None:
    """What is added up from the cluster is what is added up here."""
    here = tallied(replayed(BACKTEST, LocalShelf(folder)))
    fleets = tallied(there(BACKTEST, LocalShelf(folder), client))
    assert fleets == here
    assert fleets.squared_after.hex() == here.squared_after.hex()


def test_any_path_that_fsspec_opens(folder: Path) -> None:
    """The same walk and the same rows from a store that is no disk."""
    store = fsspec.filesystem("memory")
    for path in folder.rglob("*.yaml"):
        store.pipe(f"/shops/{path.relative_to(folder).as_posix()}", path.read_bytes())
    shelf, local = RemoteShelf("memory://shops"), LocalShelf(folder)
    assert [i.name for i in items(shelf)] == [i.name for i in items(local)]
    assert lines(RATES, replayed(RATES, shelf)) == lines(RATES, replayed(RATES, local))
    marks = [item.mark for item in items(shelf)]
    assert all(marks)


def test_a_store_that_does_not_answer() -> None:
    """A path that is not there is trouble to be told of, not a traceback."""
    counted = Counted()
    assert dict(once_each(replayed(RATES, RemoteShelf("memory://nothing-here")), counted)) == {}
    assert counted.named[0].why.value == "folder"


def test_no_scheduler() -> None:
    """Nobody there: said, with the address."""
    with pytest.raises(NoCluster) as raised:
        connected("tcp://127.0.0.1:9", timeout=0.5)
    assert raised.value.address == "tcp://127.0.0.1:9"


def test_by_the_command(
    folder: Path,
    cluster: LocalCluster,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """`--fleet` prints what the command prints without it."""
    monkeypatch.setattr(options, "pack_texts_in_force", lambda _: small_texts())
    monkeypatch.delenv("SOOTSAYER_SHOP", raising=False)
    argv = ["rules", "rates", "--cases", str(folder), "--processes", "1"]
    assert main(argv) == 0
    here = capsys.readouterr().out
    assert main([*argv, "--fleet", cluster.scheduler_address]) == 0
    assert capsys.readouterr().out == here
