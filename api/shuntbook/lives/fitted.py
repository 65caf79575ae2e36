"""When a part went in: by `part.fitted`, by a repair that put another one in, by the routine that renews it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from shuntbook.kit.times import day_in
from shuntbook.lives.answer import How
from shuntbook.lives.calendar import CarRun, Logged, midnight
from shuntbook.report.entry import Entry
from shuntbook.report.working import JobFinished, PartFitted, TaskFinished
from shuntbook.setup.folder import Setup
from shuntbook.setup.rates import Operation
from shuntbook.setup.words import split_key

REPLACES = frozenset({"replace", "swap", "fit", "renew"})
"""Actions that put another part in. Common practice, no source: a rate table that says it in another word is not read
so, and what is straightened, tightened or refitted goes on with the life it had."""
ASKED_FOR_BY = ("worn", "broken", "missing", "bent", "cracked")
"""The conditions whose row of the rate table says how a part is renewed, the fittest first."""
RENEW = "renew "
"""A plan's routine task for what is due is `routine renew zone/component`."""


@dataclass(frozen=True)
class Fitted:
    """A part that went in: `event` is a place in the calendar, `stages` how many of its stages lay behind the car.

    serial: "" where nobody said. rebuilt: its life began again. day: None where nothing says one.
    """

    car: str
    key: str
    event: int
    stages: int
    when: datetime
    day: date | None
    serial: str
    rebuilt: bool
    how: How
    entry: Entry

    @property
    def place(self) -> tuple[int, datetime, bool, str]:
        """Where it stands among the others; what names a serial comes after the repair that it was saved with."""
        return (self.event, self.when, self.how == "fitted", self.entry.id)


def fitted_in(run: CarRun, place: int, events: Sequence[Logged], keys: frozenset[str]) -> list[Fitted]:
    """Return what one car's log of one event says was fitted, of these keys, in no order."""
    found = []
    for entry in run.log.entries:
        how = _how(entry, run)
        key = entry.subject.removeprefix(f"routine {RENEW}")
        if how is not None and key in keys:
            data = entry.data if isinstance(entry.data, PartFitted) else PartFitted()
            event, stages, when, day = _place(entry, data.since, run, place, events)
            found.append(Fitted(run.car, key, event, stages, when, day, data.serial, data.rebuilt, how, entry))
    return found


def renewing(setup: Setup, key: str) -> Operation | None:
    """Return the row of the rate table by which a part is renewed; None where no row puts another one in."""
    zone, component = split_key(key)
    rows = (setup.rates.operation(component, condition, zone) for condition in ASKED_FOR_BY)
    return next((row for row in rows if row is not None and row.action in REPLACES), None)


def _how(entry: Entry, run: CarRun) -> How | None:
    if isinstance(entry.data, PartFitted):
        return "fitted"
    if isinstance(entry.data, JobFinished):
        return "replaced" if not entry.data.temporary and _action(entry, entry.data, run) in REPLACES else None
    if isinstance(entry.data, TaskFinished) and entry.subject.startswith(f"routine {RENEW}"):
        # On a brake, cage or steering a tick in the plan is no record of a repair, which alone asks for an inspection.
        zone, component = split_key(entry.subject.removeprefix(f"routine {RENEW}"))
        return None if run.logged.setup.car_map.safety_critical(zone, component) else "renewed"
    return None


def _action(entry: Entry, data: JobFinished, run: CarRun) -> str:
    """Return what was done: the repair's own word, else that of the row for the worst that it covers."""
    if data.action:
        return data.action
    zone, component = split_key(entry.subject)
    setup = run.logged.setup
    covered = [f for f in run.log.findings.get(entry.subject, ()) if f.entry in data.covers]
    worst = max(covered, key=lambda f: setup.car_map.severity(component, f.condition), default=None)
    row = setup.rates.operation(component, worst.condition, zone) if worst else None
    return row.action if row else ""


def _place(
    entry: Entry, since: str | None, run: CarRun, place: int, events: Sequence[Logged]
) -> tuple[int, int, datetime, date | None]:
    """Return the event, the stages behind the car, the time and the day that a life counts from."""
    if since is None:
        return (place, _stages(entry, run), entry.when, day_in(entry.when, run.logged.event.timezone))
    day = date.fromisoformat(since)
    begun = next((n for n, logged in enumerate(events) if logged.days and logged.days[1] >= day), len(events))
    # Fitted on a day of its own event: what was run by then is known. Of an earlier one, all of it is counted.
    begins = midnight(day, run.logged.event)
    return (begun, run.done_by(begins) if begun == place else 0, begins, day)


def _stages(entry: Entry, run: CarRun) -> int:
    """Return the stages behind the car: those before the service that a repair names, else those told of by then."""
    event = run.logged.event
    at = entry.data.service if isinstance(entry.data, JobFinished | TaskFinished) else None
    service = event.service_index(at)
    after = None if service is None else event.stage_index(event.services[service].after)
    return run.done_by(entry.when) if service is None else 0 if after is None else after + 1


def latest(fitted: Iterable[Fitted]) -> list[Fitted]:
    """Return them in order of time."""
    return sorted(fitted, key=lambda one: one.place)
