"""The phones' side as a process of its own, kept alive over many histories; lines of JSON over pipes."""

import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "tools"), str(ROOT / "tests")]

from node import find_node  # noqa: E402

from .chance import Told, in_place_of_the_machine  # noqa: E402
from .server import Server  # noqa: E402

Json = dict[str, Any]
MEMORY = Path("/dev/shm")
"""Where a disk of memory is: the server writes to its folder again and again."""

ROOM = "--max-semi-space-size=64"
"""MiB of what is young on the phones' side: a history makes much that is soon gone, and looking for it is dear."""


@dataclass(frozen=True)
class Outcome:
    """What came of a seed: what was wrong, the hash of its trace, how much happened.

    statements: the hash of all that the server's database was told to do. What it does in another order lies otherwise
    on its disk, though nobody is shown anything else until that disk is full.
    """

    seed: int
    wrong: list[str]
    hash: str
    virtual_ms: int
    entries: int
    calls: int
    steps: int
    lines: list[str]
    statements: str


class Simulator:
    """Phones in a process of their own, and the server in this one."""

    def __init__(self, reading: IO[bytes], writing: IO[bytes], server: Server) -> None:
        self._reading, self._writing, self._server = reading, writing, server

    def run(
        self, seed: int, minutes: int | None = None, phones: int = 5, pace: float = 1, trace: bool = False
    ) -> Outcome:
        """Run one history; `pace` times as much virtual time lies between deeds and troubles as in a short one.

        Errors: RuntimeError where the phones' process ended.
        """
        self._write({"seed": seed, "minutes": minutes, "phones": phones, "pace": pace, "trace": trace})
        while True:
            ask = self._read()
            if ask["op"] != "done":
                self._write(self._server.answer(ask))
            elif "broken" in ask:
                raise RuntimeError(f"seed {seed}: {ask['broken']}")
            else:
                del ask["op"]
                return Outcome(**ask, statements=self._server.power.statements.hexdigest())

    def _write(self, value: Json) -> None:
        self._writing.write(json.dumps(value).encode() + b"\n")
        self._writing.flush()

    def _read(self) -> Json:
        line = self._reading.readline()
        if not line:
            raise RuntimeError("the phones' process has ended")
        read: Json = json.loads(line)
        return read


@contextmanager
def simulator() -> Iterator[Simulator]:
    """Give a simulator; its processes and folders are gone at the end."""
    told = Told()
    with (
        tempfile.TemporaryDirectory(dir=MEMORY if MEMORY.is_dir() else None) as root,
        in_place_of_the_machine(told),
        _phones() as (reading, writing),
    ):
        server = Server(Path(root), told)
        try:
            yield Simulator(reading, writing, server)
        finally:
            server.close()


@contextmanager
def _phones() -> Iterator[tuple[IO[bytes], IO[bytes]]]:
    """Start the phones' process and give the ends of its pipes."""
    (theirs_in, ours_out), (ours_in, theirs_out) = os.pipe(), os.pipe()
    command = [str(find_node()), ROOM, str(ROOT / "pwa" / "scripts" / "simulate.mjs"), str(theirs_in), str(theirs_out)]
    # The phones' clocks are in a zone of their own.
    process = subprocess.Popen(
        command, cwd=ROOT / "pwa", env={**os.environ, "TZ": "Europe/Vienna"}, pass_fds=(theirs_in, theirs_out)
    )
    os.close(theirs_in)
    os.close(theirs_out)
    with os.fdopen(ours_in, "rb") as reading, os.fdopen(ours_out, "wb") as writing:
        try:
            yield reading, writing
        finally:
            # It ends by itself where nobody asks for more; in the midst of a history it does not.
            with suppress(BrokenPipeError):
                writing.close()
            with suppress(subprocess.TimeoutExpired):
                process.wait(5)
            process.kill()
            process.wait()
