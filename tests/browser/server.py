"""The server as a process of its own over a data folder, and what a test asks it directly."""

import atexit
import json
import shutil
import time
import urllib.request
from collections.abc import Iterator
from contextlib import suppress
from functools import cache, cached_property
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from making import Pen, raw
from ports import free_port
from shuntbook.flow import joining
from shuntbook.flow.clock import now
from shuntbook.flow.load import load, read_folder
from shuntbook.serving import sample_folder
from shuntbook.store.database import Store
from warmed import Forked, Started, end

EVENT = "thornquell-2026"


class Server:
    """The server as a process of its own over a data folder, at a port that stays the same when it comes back."""

    def __init__(self, data: Path) -> None:
        self.data = data
        self.port = free_port()
        self.process: Started | None = None

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def start(self) -> None:
        self.process = self._begun()
        for _ in range(4800):
            with suppress(OSError):
                urllib.request.urlopen(f"{self.url}/api/v1/health", timeout=5).close()
                return
            status = self.process.poll()
            assert status is None, f"the server ended with status {status} before it answered"
            time.sleep(0.025)
        raise AssertionError("the server did not come up within 120 s")

    def _begun(self) -> Started:
        return Forked("serve", "--port", self.port, "--data", self.data)

    def stop(self) -> None:
        if self.process is not None:
            end(self.process)
            self.process = None

    def link(self, person: str) -> str:
        return joining.join_link(self.url, self._code(person))

    def token(self, person: str) -> str:
        """Join as a person without a phone."""
        body = json.dumps({"code": self._code(person)}).encode()
        headers = {"Content-Type": "application/json"}
        request = urllib.request.Request(f"{self.url}/api/v1/join", body, headers)
        with urllib.request.urlopen(request, timeout=120) as answer:
            token: str = json.load(answer)["token"]
            return token

    def _code(self, person: str) -> str:
        return joining.invite(Store(self.data), person, now())

    @cached_property
    def manager(self) -> str:
        """A token that may ask for everything."""
        return self.token("p-vera")

    def call(self, method: str, path: str, token: str, body: dict[str, Any] | None = None) -> bytes:
        headers = {"Authorization": f"Bearer {token}", "Content-Type": "application/json"}
        data = None if body is None else json.dumps(body).encode()
        request = urllib.request.Request(f"{self.url}/api/v1{path}", data, headers, method=method)
        with urllib.request.urlopen(request, timeout=120) as answer:
            got: bytes = answer.read()
            return got

    def get(self, path: str, token: str) -> Any:
        return json.loads(self.call("GET", path, token))

    def shut_out(self, device: str) -> None:
        self.call("DELETE", f"/devices/{device}", self.manager)

    def queue(self, car: str) -> dict[str, Any]:
        answer: dict[str, Any] = self.get(f"/events/{EVENT}/cars/{car}/queue", self.manager)
        return answer

    def job(self, car: str, key: str) -> dict[str, Any]:
        """Return one job of a car's queue; KeyError where it has none."""
        answer: dict[str, Any] = {job["job"]: job for job in self.queue(car)["jobs"]}[key]
        return answer

    def plan(self, car: str, service: str) -> dict[str, Any]:
        """Ask for the plan of a whole service, with everybody there."""
        path = f"/events/{EVENT}/cars/{car}/plan"
        answer: dict[str, Any] = json.loads(self.call("POST", path, self.manager, {"service": service}))
        return answer

    def costs(self, car: str) -> dict[str, Any]:
        answer: dict[str, Any] = self.get(f"/events/{EVENT}/costs?car={car}", self.manager)
        return answer

    def entries(self, car: str | None = None, kind: str | None = None) -> list[dict[str, Any]]:
        rows = Store(self.data).db.conn.execute("SELECT raw FROM entry ORDER BY cursor")
        held = [json.loads(row[0]) for row in rows]
        return [one for one in held if car in (None, one["car"]) and kind in (None, one["kind"])]


def running(server: Server) -> Iterator[Server]:
    """Run a server for as long as a fixture holds it."""
    server.start()
    try:
        yield server
    finally:
        server.stop()


def with_sample(data: Path) -> Server:
    """Return a server, not started, that holds the whole sample event."""
    shutil.copytree(_loaded_sample(), data)
    return Server(data)


@cache
def _loaded_sample() -> Path:
    """A data folder with the sample event, loaded once for all tests of a process and gone with it."""
    folder = _folder_of_this_process("sample-")
    _load_once(folder, sample_folder())
    return folder


def without_log(folder: Path) -> None:
    """Copy the sample event's folder with nothing in its log."""
    shutil.copytree(sample_folder(), folder)
    (folder / "entries.jsonl").write_bytes(b"")
    shutil.rmtree(folder / "photos")


def with_everything_reported(data: Path, folder: Path) -> Server:
    """Return a server, not started, with one report for each place of car 41, each of all that the place has."""
    without_log(folder)
    pen = Pen(EVENT)
    places = read_folder(folder).setup.car_map.zones.items()
    said = [pen.filed(*[f"{place}/{part}" for part in zone.components]) for place, zone in places]
    (folder / "entries.jsonl").write_bytes(b"".join(raw(one) + b"\n" for one in said))
    _load_once(data, folder)
    return Server(data)


def without_entries(data: Path, folder: Path, cars: list[str], tables: str = "", keys: str = "") -> Server:
    """Return a server, not started, with the sample event's set-up, no entry, and more cars beside its two.

    folder: where the event's folder is put together. tables: more of event.toml; keys: what stands at its top.
    Its days are long past, whatever day it is: what may be said of a stage hangs on the itinerary's clock.
    """
    loaded = _loaded_without_entries(tuple(cars), tables, keys)
    shutil.copytree(loaded / "event", folder)
    shutil.copytree(loaded / "data", data)
    return Server(data)


@cache
def _loaded_without_entries(cars: tuple[str, ...], tables: str, keys: str) -> Path:
    """A folder with the event's folder and a data folder in it, made once for all tests of a process."""
    made = _folder_of_this_process("empty-")
    folder = made / "event"
    without_log(folder)
    event = (folder / "event.toml").read_text().replace("arrive = 2026-", "arrive = 2021-")
    more = "".join(f'[[cars]]\ncar = "{car}"\n\n' for car in cars)
    (folder / "event.toml").write_text(keys + event.replace("[[people]]", more + "[[people]]", 1) + tables)
    _load_once(made / "data", folder)
    return made


def _load_once(data: Path, event: Path) -> None:
    """Load an event's folder into a data folder that is closed again, so that it can be copied."""
    store = Store(data)
    load(store, event, now())
    joining.name_owner(store, "p-vera", now())
    store.db.conn.close()


def _folder_of_this_process(prefix: str) -> Path:
    folder = TemporaryDirectory(prefix=prefix)
    atexit.register(folder.cleanup)
    return Path(folder.name)
