"""A simulated phone: writes to its own disk first, sends until each entry is acknowledged, hears what is new.

It does what the app's `sync/round.ts` does, with the standard library alone, so that one starts, and is killed, fast.
"""

import hashlib
import http.client
import json
import os
import random
import sys
import threading
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from .outbox import Outbox

MOST_ENTRIES = 500
LONGEST_WAIT_S = 2.0


@dataclass(frozen=True)
class Identity:
    """Who joined on the phone."""

    person: str
    device: str
    token: str


def right_time() -> datetime:
    return datetime.now(UTC)


def uuid7(moment: datetime) -> str:
    """Return a UUIDv7 (RFC 9562, section 5.7) of a moment."""
    ms = int(moment.timestamp() * 1000) & (2**48 - 1)
    value = ms << 80 | 7 << 76 | random.getrandbits(12) << 64 | 2 << 62 | random.getrandbits(62)
    text = f"{value:032x}"
    return "-".join((text[:8], text[8:12], text[12:16], text[16:20], text[20:]))


class Phone:
    """One phone with one person; `port` is where it believes the server to be.

    on_written: called with (id, bytes) once an entry is on the phone's disk; clock: the phone's own.
    """

    def __init__(
        self,
        folder: Path,
        port: int,
        identity: Identity,
        event: str,
        on_written: Callable[[str, bytes], None] = lambda name, raw: None,
        clock: Callable[[], datetime] = right_time,
    ) -> None:
        self.folder, self.port, self.identity, self.event = folder, port, identity, event
        self.outbox = Outbox(folder)
        self.on_written, self.clock = on_written, clock
        self.timeout_s, self.most = 10.0, MOST_ENTRIES
        self.statuses: list[int] = []
        self.headers: dict[str, str] = {}
        self._stop = threading.Event()
        self._thread: threading.Thread | None = None

    def draft(self, kind: str, subject: str | None, data: dict[str, Any], car: str = "41") -> dict[str, Any]:
        """Return an entry without its number; a filed report is its own subject."""
        moment = self.clock()
        name = uuid7(moment)
        head = {"id": name, "v": 1, "kind": kind, "event": self.event, "car": car}
        about = name if kind == "report.filed" else subject
        who = {"device": self.identity.device, "person": self.identity.person}
        return {**head, "subject": about, "at": moment.isoformat(timespec="milliseconds"), **who, "data": data}

    def write(self, *drafts: dict[str, Any]) -> list[dict[str, Any]]:
        """Put entries down, all or none; returns them with their numbers."""
        entries = self.outbox.add_own(list(drafts), self.identity.device)
        own = self.outbox.own()
        for entry in entries:
            self.on_written(entry["id"], own[entry["id"]][0])
        return entries

    def report(
        self, key: str = "front-left/wheel", condition: str = "bent", car: str = "41", **more: object
    ) -> dict[str, Any]:
        """File a report of one finding."""
        zone, component = key.split("/")
        body = {"zone": zone, "findings": [{"component": component, "condition": condition}], **more}
        return self.write(self.draft("report.filed", None, body, car))[0]

    def add_photo(self, data: bytes) -> str:
        """Keep a photo to be sent; returns its name."""
        name = hashlib.sha256(data).hexdigest()
        self.outbox.add_photo(name, data)
        return name

    def call(self, method: str, path: str, body: bytes | None = None, **headers: str) -> tuple[int, bytes]:
        """Make one call below /api/v1. Errors: OSError or HTTPException where no whole answer comes."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=self.timeout_s)
        try:
            own = {"Authorization": f"Bearer {self.identity.token}", "Content-Type": "application/json"}
            connection.request(method, f"/api/v1{path}", body, {**own, **headers})
            response = connection.getresponse()
            data = response.read()
        finally:
            connection.close()
        self.statuses.append(response.status)
        self.headers = {name.lower(): value for name, value in response.getheaders()}
        return response.status, data

    def round(self) -> bool:
        """Send all that waits and hear all that is new; returns whether nothing is left to do."""
        try:
            while self._send_entries():
                pass
            return self._send_photos() and self.outbox.count("waiting") == 0
        except (OSError, http.client.HTTPException, ValueError, KeyError, TypeError):
            return False  # no answer, half an answer, or one that is not ours: nothing was acknowledged

    def _send_entries(self) -> bool:
        """Make one sync call; returns whether another has to follow at once."""
        batch = self.outbox.waiting(self.most)
        before = (self.outbox.meta("log_id"), self.outbox.meta("cursor") or 0)
        head = {"log_id": before[0], "cursor": before[1], "now": self.clock().isoformat(), "heads": True}
        body = json.dumps(head).encode()[:-1] + b', "entries": [' + b",".join(raw for _, raw in batch) + b"]}"
        status, data = self.call("POST", "/sync", body)
        if status != 200:
            raise ValueError(status)
        answer = json.loads(data)
        new_log = before[0] is not None and (answer["log_id"] != before[0] or answer["cursor"] < before[1])
        self.outbox.settle(answer, [name for name, _ in batch], new_log)
        named = {*answer["accepted"], *(one["id"] for one in answer["rejected"])}
        if batch and not new_log and not named & {name for name, _ in batch}:
            raise ValueError("an answer that names nothing that was sent")
        return bool(new_log or answer["more"] or self.outbox.waiting(1))

    def _send_photos(self) -> bool:
        for name, data in self.outbox.waiting_photos():
            status, body = self.call("PUT", f"/photos/{name}", data, **{"Content-Type": "image/jpeg"})
            if status == 422:
                self.outbox.settle_photo(name, "attention")
            elif status in (200, 201) and json.loads(body)["photo"] == name:
                self.outbox.settle_photo(name, "sent")
            else:
                return False
        return True

    def start(self) -> None:
        """Keep sending by itself, as the app does, until `stop`; nobody has to ask."""
        self._stop.clear()
        self._thread = threading.Thread(target=self._run, daemon=True)
        self._thread.start()

    def stop(self) -> None:
        self._stop.set()
        if self._thread is not None:
            self._thread.join(60)
            self._thread = None

    def _run(self) -> None:
        wait_s = 0.1
        while not self._stop.is_set():
            wait_s = 0.25 if self.round() else min(wait_s * 2, LONGEST_WAIT_S)
            self._stop.wait(wait_s * random.uniform(0.75, 1))

    def queue(self, car: str = "41") -> dict[str, Any]:
        """Return the server's queue of a car."""
        status, data = self.call("GET", f"/events/{self.event}/cars/{car}/queue")
        assert status == 200, data
        answer: dict[str, Any] = json.loads(data)
        return answer


def main() -> None:
    """Be a phone process: write a report, say so on standard output, send; again and again until killed.

    Its folder, port and identity come in the environment as JSON.
    """
    given = json.loads(os.environ["PHONE"])
    identity = Identity(*given["identity"])

    def say(name: str, raw: bytes) -> None:
        sys.stdout.write(f"{name} {raw.decode()}\n")  # what the person sees: "kept on this phone"
        sys.stdout.flush()

    phone = Phone(Path(given["folder"]), given["port"], identity, given["event"], say)
    with suppress(KeyboardInterrupt):
        while True:
            phone.report(random.choice(given["keys"]), "bent")
            if random.random() < 0.7:
                phone.round()
            time.sleep(random.random() / 100)


if __name__ == "__main__":
    main()
