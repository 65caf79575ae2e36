"""Makes valid entries for tests: ids are UUIDv7 that ascend, each device counts its own entries."""

import json
from collections.abc import Iterable
from datetime import UTC, datetime, timedelta
from typing import Any

from msgspec import to_builtins

from shuntbook.fold.voids import standing
from shuntbook.kit.ids import uuid7
from shuntbook.queue.answer import Queue, Standing, queue_answer
from shuntbook.queue.car import jobs_of_car
from shuntbook.queue.job import Job
from shuntbook.queue.totals import add_up
from shuntbook.report.entry import Entry, parse_entry
from shuntbook.report.working import CarReleased
from shuntbook.setup.folder import Setup
from shuntbook.setup.looks import usual_looks

Json = dict[str, Any]
CHECKED: list[Json] = [
    {"check": check, "ok": True}
    for check in ("Seen", *sorted({row.check for rows in usual_looks().values() for row in rows if row.must}))
]
"""Rows of an inspection that a pass counts with, whatever the job's group."""
START = datetime(2026, 6, 13, 8, tzinfo=UTC)


class Pen:
    """Writes entries of one event; `start` sets one pen's ids apart from another's."""

    def __init__(self, event: str, car: str = "41", start: int = 0) -> None:
        self.event = event
        self.car = car
        self.count = start
        self.seqs: dict[str, int] = {}

    def entry(
        self,
        kind: str,
        subject: str | None = None,
        *,
        person: str = "p-toma",
        device: str = "d-1",
        car: str | None = None,
        **data: Any,
    ) -> Json:
        """Return a valid entry; a filed report is its own subject."""
        self.count += 1
        self.seqs[device] = self.seqs.get(device, 0) + 1
        time = START + timedelta(seconds=self.count)
        name = uuid7(int(time.timestamp() * 1000), self.count * 0x9E3779B97F4A7C15)
        return {
            "id": name,
            "v": 1,
            "kind": kind,
            "event": self.event,
            "car": car or self.car,
            "subject": name if kind == "report.filed" else subject,
            "at": time.isoformat(),
            "device": device,
            "seq": self.seqs[device],
            "person": person,
            "data": data,
        }

    def filed(self, *keys: str, **body: Any) -> Json:
        """Return a report that names keys such as `front-left/wheel bent`, all in one zone."""
        return self.entry("report.filed", **said(keys), **body)

    def amended(self, replaced: Json | list[Json], *keys: str, **body: Any) -> Json:
        """Return a version that replaces one or several others."""
        older = replaced if isinstance(replaced, list) else [replaced]
        names = [entry["id"] for entry in older]
        return self.entry("report.amended", str(older[0]["subject"]), replaces=names, **said(keys), **body)

    def withdrawn(self, *replaced: Json) -> Json:
        """Return a version that says the report was filed by mistake."""
        return self.entry("report.withdrawn", str(replaced[0]["subject"]), replaces=ids(replaced), reason="mistake")

    def finished(self, job: str, *covers: Json, person: str = "p-bodo", **data: Any) -> Json:
        """Return the repair of a job, by a mechanic who is no inspector."""
        return self.entry("job.finished", job, person=person, covers=ids(covers), **data)

    def passed(self, job: str, *covers: Json, person: str = "p-odil", **data: Any) -> Json:
        """Return an inspector's pass; by itself all that any list demands is ok."""
        data.setdefault("checks", CHECKED)
        return self.entry("inspection.passed", job, person=person, covers=ids(covers), **data)

    def failed(self, job: str, person: str = "p-odil", **data: Any) -> Json:
        """Return a failed inspection."""
        return self.entry("inspection.failed", job, person=person, **data)

    def voided(self, target: Json, person: str) -> Json:
        """Return the undo of an entry."""
        return self.entry("entry.voided", person=person, voids=[target["id"]], reason="mis-tap")


def said(keys: Iterable[str]) -> Json:
    """Return zone and findings of a body from words such as `front-left/wheel bent`."""
    body: Json = {}
    for words in keys:
        key, _, condition = words.partition(" ")
        zone, _, component = key.partition("/")
        assert body.setdefault("zone", zone) == zone, "a report has one zone"
        body.setdefault("findings", []).append({"component": component, "condition": condition or "unknown"})
    return body


def ids(entries: Iterable[Json]) -> list[str]:
    """Return the ids of entries."""
    return [str(entry["id"]) for entry in entries]


def raw(entry: object) -> bytes:
    """Return an entry as a phone sends it."""
    return json.dumps(entry, ensure_ascii=False).encode()


def parsed(entries: Iterable[Json]) -> list[Entry]:
    """Return entries as the fold takes them."""
    return [parse_entry(raw(entry)) for entry in entries]


def jobs(entries: Iterable[Json], setup: Setup) -> dict[str, Job]:
    """Return the jobs of one car by key."""
    return {job.job: job for job in jobs_of_car(parsed(entries), setup)}


def queue(entries: Iterable[Json], setup: Setup, car: str = "41", set_aside: Iterable[str] = (), more: int = 0) -> Json:
    """Return the queue of one car as JSON; parts used by other cars among the entries count."""
    told: Json = to_builtins(queue_of(entries, setup, car, set_aside, more))
    return told


def queue_of(
    entries: Iterable[Json], setup: Setup, car: str = "41", set_aside: Iterable[str] = (), more: int = 0
) -> Queue:
    """Return the same as plans and documents take it."""
    every = parsed(entries)
    mine = [entry for entry in every if entry.car == car]
    used = add_up(
        job.used for name in {e.car for e in every} for job in jobs_of_car([e for e in every if e.car == name], setup)
    )
    releases = [entry for entry in standing(mine, setup.event) if isinstance(entry.data, CarReleased)]
    count = len({entry.id for entry in mine})
    return queue_answer(Standing(car, count, jobs_of_car(mine, setup), used, releases, list(set_aside), more), setup)
