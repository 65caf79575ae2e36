"""The server's side: the real app over a real store, called without a socket, as the simulator's history has it."""

import shutil
import sqlite3
from collections.abc import Callable
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from random import Random
from typing import Any

import msgspec
from flask import Flask

from shuntbook.app import create_app, put_over
from shuntbook.flow import answers, backups, clock, diagnostics, ingest, joining, members, review, uploads
from shuntbook.flow.changes import versions
from shuntbook.kit.canonical import canonical
from shuntbook.kit.errors import NotFound, ShuntbookError, StoreUnavailable
from shuntbook.store import quarantine, quarantine_review, setups
from shuntbook.store.database import FILE
from small_event import small_files

from .chance import Told
from .power import Power, PoweredStore
from .variants import variant

Json = dict[str, Any]
EVENT = "small-2026"
CARS = ("41", "42")


class Server:
    """One server at a time, over folders below `root`; each history begins with a new one."""

    def __init__(self, root: Path, told: Told) -> None:
        self.root, self.told, self.power = root, told, Power()
        self.folder, self.copy = root / "data", root / "copy.sqlite"
        self.demanded = True
        self.loads = 0
        self.store = PoweredStore(root / "nobodys", self.power)
        self.app: Flask = create_app(self.store, root)
        self.changed = False
        self.page = ingest.PAGE
        self._witness: sqlite3.Connection | None = None

    def answer(self, ask: Json) -> Json:
        """Do what the history asks for. Errors: whatever the server's own code lets through."""
        self.told.now_ms = ask["now_ms"]
        act: Callable[[Json], Json] = getattr(self, f"on_{ask['op']}")
        return act(ask)

    def close(self) -> None:
        """Let go of all files and threads."""
        ingest.PAGE = self.page
        self.app.extensions["shuntbook.planner"].stop()
        self._forget_witness()
        self.store.close()

    def on_begin(self, ask: Json) -> Json:
        """Begin a history: a new folder with the small event in it."""
        self.told.random = Random(ask["seed"])
        self.power.statements = sha256()
        # Set-ups are read once in a process, and each statement counts: the power goes between two of them.
        setups._read.cache_clear()
        self.demanded = ask["demanded"]
        ingest.PAGE = ask["page"]
        self.copy.unlink(missing_ok=True)
        self._empty()
        return self.on_load({"variant": 0})

    def on_call(self, ask: Json) -> Json:
        """Take a call; where the power goes in it, there is no answer."""
        self.power.goes_at(ask["dies_at"], self.folder)
        said = self._call(ask["call"])
        if ask["dies_at"] is not None:
            self._die()
            return {"died": True}
        return {**said, "died": False, "changed": self.changed, "missing": self._missing(ask["call"], said)}

    def on_open(self, _ask: Json) -> Json:
        """Start the server again over its folder."""
        self.store.close()
        self._open()
        return {}

    def on_news(self, _ask: Json) -> Json:
        """Say what a stream of news says."""
        return {"news": versions(self.store)._asdict()}

    def on_events(self, _ask: Json) -> Json:
        """Say how many events the server holds."""
        return {"count": len(setups.events(self.store.db))}

    def on_invite(self, ask: Json) -> Json:
        """Make a join code as the command does."""
        try:
            return {"code": joining.invite(self.store, ask["person"], clock.now())}
        except (NotFound, StoreUnavailable):
            return {"code": None}

    def on_load(self, ask: Json) -> Json:
        """Put a set-up in force, as the command does."""
        try:
            files = variant(small_files(), ask["variant"], self.demanded)
            uploads.put_setup(self.store, EVENT, files, clock.now())
        except StoreUnavailable:
            return {"loaded": False}
        return {"loaded": True}

    def on_shut_out(self, ask: Json) -> Json:
        """Shut a device out, as a manager does; say the last of its numbers believed, and the last in the log."""
        try:
            joining.shut_out(self.store, ask["device"], clock.now())
        except (NotFound, StoreUnavailable):
            return {"believed": 0, "held": 0}
        sql = (
            "SELECT last_seq, (SELECT coalesce(max(seq), 0) FROM entry WHERE entry.device = device_key.device)"
            " FROM device_key WHERE device = ?"
        )
        believed, held = self.store.db.conn.execute(sql, [ask["device"]]).fetchone()
        return {"believed": believed, "held": held}

    def on_review(self, ask: Json) -> Json:
        """Decide on the oldest entry that was set aside and waits, as a manager does."""
        waiting = [one for one in quarantine_review.listing(self.store.db) if one.reviewed_at is None]
        try:
            for one in waiting[:1]:
                vera = members.member(self.store.db, "p-vera")
                review.review(self.store, one.sha256, ask["verdict"], "asked", clock.now(), vera)
        except ShuntbookError:
            return {"reviewed": False}
        return {"reviewed": bool(waiting)}

    def on_backup(self, _ask: Json) -> Json:
        """Make a copy of the store, as the command does; the one before goes."""
        self.copy.unlink(missing_ok=True)
        backups.backup(self.store, self.copy)
        return {}

    def on_lose(self, _ask: Json) -> Json:
        """Lose the folder; a new server begins on an empty disk."""
        self._empty()
        return {}

    def on_restore(self, _ask: Json) -> Json:
        """Lose the folder, and bring the last copy back, as the command does."""
        self.store.close()
        shutil.rmtree(self.folder)
        self.power.full = False
        backups.restore(self.copy, self.folder)
        self._open()
        return {}

    def on_fill(self, ask: Json) -> Json:
        """Fill the disk, or make room on it."""
        self.store.fill(ask["full"])
        return {}

    def on_look(self, _ask: Json) -> Json:
        """Say what the server holds, and what is wrong with it, past the product's own queries where it can be."""
        rows = self.store.db.conn.execute("SELECT id, raw FROM entry").fetchall()
        aside = self.store.db.conn.execute("SELECT raw, code, verdict FROM set_aside").fetchall()
        return {
            "problems": [f"(c) {one}" for one in diagnostics.check(self.store)] + self._twice(),
            "log_id": self.store.log_id,
            "rows": [[name, bytes(raw).decode()] for name, raw in rows],
            "set_aside": [
                {"raw": bytes(raw).decode(errors="replace"), "code": code, "left_out": verdict == "discarded"}
                for raw, code, verdict in aside
            ],
            "queues": {car: self._queue(car) for car in CARS},
        }

    def _queue(self, car: str) -> Json:
        queue = answers.queue(self.store, EVENT, car)
        with self.store.read() as db:
            held = quarantine.holding(db, EVENT, car).named
        return {"queue": canonical(msgspec.to_builtins(queue)).decode(), "set_aside": held}

    def _twice(self) -> list[str]:
        sql = "SELECT device, seq, count(*) FROM entry GROUP BY device, seq HAVING count(*) > 1"
        twice = self.store.db.conn.execute(sql).fetchall()
        return [f"(a) number {seq} of {device} is there {times} times" for device, seq, times in twice]

    def _call(self, call: Json) -> Json:
        body = (call["body"] or "").encode()
        path, _, query = call["path"].partition("?")
        environ = {
            "REQUEST_METHOD": call["method"],
            "SCRIPT_NAME": "",
            "PATH_INFO": path,
            "QUERY_STRING": query,
            "SERVER_NAME": "van",
            "SERVER_PORT": "80",
            "SERVER_PROTOCOL": "HTTP/1.1",
            "REMOTE_ADDR": "10.0.0.2",
            "CONTENT_LENGTH": str(len(body)),
            "CONTENT_TYPE": call["headers"].get("Content-Type", ""),
            **{f"HTTP_{name.upper().replace('-', '_')}": text for name, text in call["headers"].items()},
            "wsgi.input": BytesIO(body),
            "wsgi.errors": BytesIO(),
            "wsgi.url_scheme": "http",
            "wsgi.version": (1, 0),
            "wsgi.multithread": False,
            "wsgi.multiprocess": False,
            "wsgi.run_once": False,
        }
        said: Json = {}

        def start(status: str, headers: list[tuple[str, str]], *_: object) -> Callable[[bytes], object]:
            said.update(status=int(status.split()[0]), headers=dict(headers))
            return lambda _data: None

        self.changed = False
        parts = self.app.wsgi_app(environ, start)
        said["text"] = b"".join(parts).decode()
        getattr(parts, "close", lambda: None)()
        del said["headers"]["X-Request-Id"]
        return said

    def _missing(self, call: Json, said: Json) -> list[str]:
        """Return what was acknowledged and is not on the disk, as somebody else sees it who opens the file."""
        if not call["path"].endswith("/sync") or said["status"] != 200:
            return []
        accepted = msgspec.json.decode(said["text"])["accepted"]
        if not accepted:
            return []
        if self._witness is None:
            self._witness = sqlite3.connect(self.folder / FILE, isolation_level=None)
        marks = ", ".join("?" * len(accepted))
        held = {row[0] for row in self._witness.execute(f"SELECT id FROM entry WHERE id IN ({marks})", accepted)}
        return [name for name in accepted if name not in held]

    def _die(self) -> None:
        kept = self.power.lost()
        self.power.goes_at(None, self.folder)
        self.store.close()
        shutil.rmtree(self.folder)
        kept.rename(self.folder)
        self._open()

    def _empty(self) -> None:
        self.store.close()
        shutil.rmtree(self.folder, ignore_errors=True)
        self.power.full = False
        self._open()

    def _open(self) -> None:
        self._forget_witness()
        self.store = PoweredStore(self.folder, self.power)
        put_over(self.app, self.store)
        self.app.extensions["shuntbook.news"].notify = self._notice

    def _forget_witness(self) -> None:
        if self._witness is not None:
            self._witness.close()
            self._witness = None

    def _notice(self) -> None:
        self.changed = True
