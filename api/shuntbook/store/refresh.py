"""Brings what follows from the log up to date: new entries touch some reports and jobs, and only those are redone.

Taking entries in only appends them. Whoever reads what follows brings it forward first, once for all that came since:
a phone that sends is answered as soon as its entries are on disk, and of a burst each job is worked out once.
"""

from collections.abc import Iterable

from shuntbook.fold.report import findings_of
from shuntbook.fold.voids import standing, undone_work
from shuntbook.kit.errors import BadSetup
from shuntbook.queue.acts import acts_on
from shuntbook.queue.car import entered
from shuntbook.queue.job import work_out
from shuntbook.queue.passing import Context
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import JOB_KINDS, REPORT_KINDS, EntryVoided
from shuntbook.setup.folder import Setup
from shuntbook.store import log, projections, setups
from shuntbook.store.connection import Database


def bring_forward(db: Database) -> None:
    """Bring reports and jobs up to date with the entries that were added since this was last done."""
    new = log.after(db, projections.upto(db))
    by_car: dict[tuple[str, str], list[Entry]] = {}
    for entry in new:
        by_car.setdefault((entry.event, entry.car), []).append(entry)
    for (event, car), entries in by_car.items():
        setup = _setup(db, event)
        # Entries of an event that has no set-up yet wait in the log; `rebuild` follows when it comes.
        if setup is not None:
            _refresh_car(db, event, car, entries, setup)
    projections.reach(db, log.last_cursor(db))


def rebuild(db: Database, event: str) -> None:
    """Make everything that follows from an event's log again, with the set-up in force."""
    projections.forget(db, event)
    setup = setups.get(db, event)
    for car in log.cars(db, event):
        _refresh_car(db, event, car, log.of_car(db, event, car), setup)
    if log.events_after(db, projections.upto(db)) <= {event}:
        projections.reach(db, log.last_cursor(db))


def rebuild_all(db: Database) -> None:
    """Rebuild every event; one whose set-up can't be read has nothing that follows until a set-up comes."""
    for event in setups.events(db):
        try:
            rebuild(db, event)
        except BadSetup:
            projections.forget(db, event)


def _setup(db: Database, event: str) -> Setup | None:
    try:
        return setups.find(db, event)
    except BadSetup:
        return None


def _refresh_car(db: Database, event: str, car: str, new: list[Entry], setup: Setup) -> None:
    touched = {entry.subject for entry in new if entry.kind in JOB_KINDS}
    touched |= _touched_by_voids(db, new)
    # By name, not as a set gives them: how much room a table takes depends on the order in which its rows come.
    for report in sorted({entry.subject for entry in new if entry.kind in REPORT_KINDS}):
        touched |= _refresh_report(db, event, car, report, setup)
    if _runs_passes_out(db, new):
        touched |= {job.job for job in projections.jobs(db, event, car)}
    context = _context(db, event, car, setup)
    for key in sorted(touched):
        _refresh_job(db, event, car, key, context)


def _refresh_report(db: Database, event: str, car: str, report: str, setup: Setup) -> set[str]:
    versions = [entry for entry in log.about(db, event, car, report) if entry.kind in REPORT_KINDS]
    return projections.put_report(db, event, car, report, findings_of(versions, setup.car_map, setup.event))


def _refresh_job(db: Database, event: str, car: str, key: str, context: Context) -> None:
    about = log.about(db, event, car, key)
    acts, undone = standing(about, context.event), undone_work(about, context.event)
    job = work_out(
        key,
        projections.findings_on(db, event, car, key),
        acts_on(key, _on_jobs(acts), undone),
        context,
    )
    projections.put_job(db, event, car, key, job)


def _on_jobs(entries: Iterable[Entry]) -> list[Entry]:
    return [entry for entry in entries if entry.kind in JOB_KINDS]


def _context(db: Database, event: str, car: str, setup: Setup) -> Context:
    came_in = standing(log.of_kinds(db, event, car, ["service.entered"]), setup.event)
    return Context(setup.event, setup.car_map, entered(came_in))


def _touched_by_voids(db: Database, new: list[Entry]) -> set[str]:
    targets = _named_by_voids(new)
    return {entry.subject for entry in log.named(db, targets) if entry.kind in JOB_KINDS} if targets else set()


def _runs_passes_out(db: Database, new: list[Entry]) -> bool:
    """Return whether the services that the car came into may have changed: passes `until` one may run out."""
    if any(entry.kind == "service.entered" for entry in new):
        return True
    targets = _named_by_voids(new)
    return any(entry.kind == "service.entered" for entry in log.named(db, targets)) if targets else False


def _named_by_voids(new: list[Entry]) -> list[str]:
    return sorted({target for entry in new if isinstance(entry.data, EntryVoided) for target in entry.data.voids})
