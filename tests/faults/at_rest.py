"""What a server holds while nobody asks it for anything, reading by reading, and whether that grows.

A reading is taken only once no thread of the server or its solver runs, however long a slow machine takes for that; and
readings are held against others of the same processes, under the same load: how quick the machine is plays no part.
"""

import statistics
import time
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

import psutil

from shuntbook.store.database import FILE
from shuntbook.web.edge import LANES

from .siege import DATABASE, handles_of
from .yard import PATIENCE_S

MIB = 2**20
LEAST = 6
"""Readings of one life of a server that say whether it grows; of fewer, nothing is concluded."""
LOOKS, LOOKS_EACH_S = 10, 0.1
"""So many looks in a row have to find every thread asleep."""


@dataclass(frozen=True)
class Held:
    """What a process holds: memory in MiB, threads, handles; of these the database's files, and files that are gone."""

    rss_mib: float
    threads: int
    handles: int
    database: int = 0
    deleted: int = 0

    @classmethod
    def of(cls, process: psutil.Process, apart: int = 0) -> "Held":
        """Read it. apart: handles that are there for another reason, and not counted."""
        leads = handles_of(process)
        database = sum(DATABASE in where for where in leads)
        deleted = sum(where.endswith(" (deleted)") for where in leads)
        handles = len(leads) - database - apart
        return cls(process.memory_info().rss / MIB, process.num_threads(), handles, database, deleted)


@dataclass(frozen=True)
class Reading:
    """A server at rest: seconds since the beginning, which life it is, entries in the log, MiB of the write-ahead log.

    solver: None before the first plan of a life, and where it was not waited for.
    """

    at_s: float
    life: int
    entries: int
    wal_mib: float
    server: Held
    solver: Held | None


def wal_mib(data: Path) -> float:
    """Return the size of a store's write-ahead log."""
    with suppress(FileNotFoundError):
        return (data / f"{FILE}-wal").stat().st_size / MIB
    return 0.0


def await_sleep(processes: Sequence[psutil.Process]) -> None:
    """Wait until every thread of some processes sleeps, in many looks one after the other."""
    began, asleep = time.monotonic(), 0
    while asleep < LOOKS:
        asleep = asleep + 1 if all(map(_sleeps, processes)) else 0
        assert time.monotonic() - began < 4 * PATIENCE_S, "the server goes on working though nobody asks"
        time.sleep(LOOKS_EACH_S)


def _sleeps(process: psutil.Process) -> bool:
    # proc_pid_stat(5): the state follows the name, which is in brackets and may hold anything.
    tasks = Path(f"/proc/{process.pid}/task").iterdir()
    return all((task / "stat").read_text().rpartition(")")[2].split()[0] == "S" for task in tasks)


def await_hung_up(process: psutil.Process) -> None:
    """Wait until a process has no connection any more; no longer than any timeout of the server's is.

    What stays then is read with all else, and counts as what grows.
    """
    began = time.monotonic()
    while time.monotonic() - began < PATIENCE_S:
        if all(one.status == psutil.CONN_LISTEN for one in process.net_connections("tcp")):
            return
        time.sleep(LOOKS_EACH_S)


@dataclass(frozen=True)
class Bound:
    """How much more of something may be held later in a life than earlier, and never more than so much."""

    what: str
    of: Callable[[Reading], float | None]
    more: float
    most: float = float("inf")


LANE_THREADS = sum(LANES.values())
WAL_MOST_MIB = 16.0
"""SQLite writes the log back once it has 1000 pages, of 4 KiB each, and begins it anew when no reader is in the way
(sqlite.org/wal.html, "Avoiding excessively large WAL files"): four times that is for those that were in the way."""


def _solver(of: Callable[[Held], float]) -> Callable[[Reading], float | None]:
    return lambda reading: None if reading.solver is None else of(reading.solver)


def bounds(server_mib: float, solver_mib: float) -> list[Bound]:
    """Return what is held down; the memory that may be more is by how long and large the run is."""
    return [
        Bound("MiB of the server's memory", lambda one: one.server.rss_mib, server_mib),
        Bound("MiB of the solver's memory", _solver(lambda held: held.rss_mib), solver_mib),
        Bound("handles of the server", lambda one: one.server.handles, 0),
        Bound("handles of the solver", _solver(lambda held: held.handles), 0),
        Bound("threads of the server", lambda one: one.server.threads, LANE_THREADS),
        Bound("threads of the solver", _solver(lambda held: held.threads), 0),
        # Each thread that works opens the database's three files once, and keeps them.
        Bound("handles of the database per thread", lambda one: one.server.database / one.server.threads, 3, 3),
        Bound("handles of files that are gone", lambda one: one.server.deleted, 0, 0),
        Bound("MiB of the write-ahead log", lambda one: one.wal_mib, WAL_MOST_MIB, WAL_MOST_MIB),
    ]


def what_grows(readings: Sequence[Reading], held_down: Sequence[Bound]) -> list[str]:
    """Return a sentence for each thing that a long enough life held too much of, or more and more."""
    lives = {reading.life: [one for one in readings if one.life == reading.life] for reading in readings}
    long_ones = [life for life in lives.values() if len(life) >= LEAST]
    return [said for life in long_ones for bound in held_down if (said := _too_much(life, bound))]


def _too_much(life: Sequence[Reading], bound: Bound) -> str:
    found = [(one.at_s, value) for one in life if (value := bound.of(one)) is not None]
    if len(found) < LEAST:
        return ""
    earlier, later, minutes = halves(found)
    most = max(value for _, value in found)
    if most > bound.most:
        return f"life {life[0].life}: {most:.1f} {bound.what}, where {bound.most:.1f} are the most"
    if later - earlier > bound.more:
        each = (later - earlier) / minutes
        grown = f"from {earlier:.1f} to {later:.1f} {bound.what}, {each:.2f} a minute"
        return f"life {life[0].life} grew {grown}, where {bound.more:.1f} more are allowed"
    return ""


def halves(found: Sequence[tuple[float, float]]) -> tuple[float, float, float]:
    """Return the medians of the earlier and the later half, and the minutes between them, of (seconds, value).

    The first third is left out: caches fill, and threads come as they are needed and stay.
    """
    warm = found[len(found) // 3 :]
    earlier, later = warm[: len(warm) // 2], warm[(len(warm) + 1) // 2 :]
    minutes = (statistics.median(at for at, _ in later) - statistics.median(at for at, _ in earlier)) / 60
    return statistics.median(v for _, v in earlier), statistics.median(v for _, v in later), minutes


HEAD = (
    "| minute | life | entries | server MiB | threads | handles | of the database | solver MiB | threads | handles | "
    "WAL MiB |"
)


def table(readings: Sequence[Reading]) -> str:
    """Return the readings as Markdown."""
    return "\n".join([HEAD, "|---" * HEAD.count("| ") + "|", *map(row, readings)])


def row(one: Reading) -> str:
    """Return a reading as a row of the table."""
    solver = one.solver
    theirs = [f"{solver.rss_mib:.1f}", solver.threads, solver.handles] if solver else ["", "", ""]
    ours = [f"{one.server.rss_mib:.1f}", one.server.threads, one.server.handles, one.server.database]
    cells = [f"{one.at_s / 60:.1f}", one.life, one.entries, *ours, *theirs, f"{one.wal_mib:.1f}"]
    return f"| {' | '.join(map(str, cells))} |"
