"""What of a service is behind it: when the car came in, what is under way, what is done, which access is open."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from msgspec import Struct

from shuntbook.kit.times import instant, minutes_after, within_reach
from shuntbook.plan.draft import Progress
from shuntbook.plan.problem import GRID_S
from shuntbook.queue.answer import Queue
from shuntbook.queue.car import CarLog, entered
from shuntbook.queue.passing import Context, PassRules
from shuntbook.report.entry import Entry
from shuntbook.report.kinds import DriverChanged, ServiceEntered, ServiceLeft
from shuntbook.report.working import JobFinished, JobStopped, TaskFinished, TaskStarted
from shuntbook.setup.event import Event, Regulations
from shuntbook.setup.folder import Setup
from shuntbook.setup.itinerary import Service
from shuntbook.setup.regulation_time import late_minutes

_CREW = frozenset({"driver", "co-driver"})


class PlanDone(Struct, frozen=True):
    """A task of this service that is done, a job or a task of the plan that is no job: who said so, and when."""

    task: str
    job: str | None
    at: str
    person: str


@dataclass(frozen=True)
class Under:
    """Something begun and not ended: since when, by whom."""

    at: datetime
    people: tuple[str, ...]


@dataclass(frozen=True)
class Timeline:
    """A service as the log has it; `entered` None: the car has not come in. driving_in: until work can start."""

    entered: datetime | None = None
    done: Sequence[PlanDone] = ()
    under_way: Mapping[str, Under] = field(default_factory=dict)
    driving_in: timedelta = timedelta(0)


def timeline_of(entries: Sequence[Entry], service: str, zone: ZoneInfo) -> Timeline:
    """Return what the entries of a car, those that stand, say of a service."""
    entered = entered_at(entries, service, zone)
    if entered is None:
        return Timeline()
    done = [_done(entry) for entry in entries if _finishes(entry, service) and instant(entry.at) >= entered]
    ended = {name for entry in entries if isinstance(entry.data, JobStopped | JobFinished) for name in entry.data.ends}
    over = {item.task for item in done}
    under: dict[str, Under] = {}
    for entry in entries:
        begun = entry.kind == "job.started" and entry.id not in ended
        begun = begun or (isinstance(entry.data, TaskStarted) and entry.data.service == service)
        if begun and entry.subject not in over and instant(entry.at) >= entered - timedelta(hours=1):
            before = under.get(entry.subject)
            at = min(instant(entry.at), before.at) if before else instant(entry.at)
            under[entry.subject] = Under(at, (*(before.people if before else ()), entry.person))
    return Timeline(entered, done, under)


def entered_at(entries: Sequence[Entry], service: str, zone: ZoneInfo) -> datetime | None:
    """Return when the car came into a service, by the officials' clock where somebody put it down."""
    found = [entry for entry in entries if isinstance(entry.data, ServiceEntered) and entry.data.service == service]
    return _official(found[-1], zone) if found else None


def left_at(entries: Sequence[Entry], service: str, zone: ZoneInfo) -> datetime | None:
    """Return when the car left a service."""
    found = [entry for entry in entries if isinstance(entry.data, ServiceLeft) and entry.data.service == service]
    return _official(found[-1], zone) if found else None


def used_minutes(entries: Sequence[Entry], event: Event, before: Service) -> int:
    """Return how many minutes late the car left the services before this one, as far as the log tells.

    Later than the limit of one control it was out: it restarted, and that hour is no lateness.
    """
    zone, used = ZoneInfo(event.timezone), 0
    for service in event.services[: event.service_index(before.service)]:
        entered, left = entered_at(entries, service.service, zone), left_at(entries, service.service, zone)
        if entered is not None and left is not None:
            late = late_minutes(minutes_after(entered, service.minutes), left)
            used += late if 0 < late <= event.regulations.late_limit_minutes else 0
    return used


def allowed_minutes(used: int, rules: Regulations) -> int:
    """Return how many minutes late the car may still leave: the limit of one control, and what is left of all."""
    return max(0, min(rules.late_limit_minutes, rules.total_late_limit_minutes - used))


def progress_of(story: Timeline, queue: Queue, setup: Setup, at: datetime | None) -> Progress:
    """Return a service's progress in units since work could start; `at` None: nothing of it is planned around."""
    if story.entered is None or at is None:
        return Progress()
    zero = within_reach(story.entered + story.driving_in)
    under = {name: (units_since(zero, item.at), _named(name, item, story)) for name, item in story.under_way.items()}
    done = frozenset(item.task for item in story.done if item.job is None)
    finished = frozenset(item.job for item in story.done if item.job is not None)
    return Progress(units_since(zero, at), under, done, _open_steps(story, queue, setup, done), finished)


def repaired_by(log: CarLog, queue: Queue, setup: Setup) -> dict[str, frozenset[str]]:
    """Return by job who does not inspect it, nor check what they did; by task of the plan who did it.

    Of what is to be passed: whoever's pass would not count for having worked there. Else who repaired it.
    """
    context = Context(setup.event, setup.car_map, entered(log.entries))
    found: dict[str, frozenset[str]] = {}
    for job in queue.jobs:
        acts = log.acts_on(job.job)
        if job.uncovered:
            rules = PassRules(job.group, job.safety_critical, acts, context)
            found[job.job] = rules.barred(log.findings.get(job.job, []), job.uncovered)
        else:
            found[job.job] = frozenset[str]().union(*(one.repairers for one in acts.repairs))
    for entry in log.entries:
        if isinstance(entry.data, TaskFinished):
            found[entry.subject] = found.get(entry.subject, frozenset()) | {entry.person}
    return found


def aboard_of(entries: Sequence[Entry], setup: Setup) -> frozenset[str]:
    """Return who sits in a car by its log: drivers and co-drivers who wrote of it, and who was said last to drive it.

    Once that was said, no other driver.
    """
    roles = {person.person: person.roles for person in setup.event.people}
    said = [entry.data.driver for entry in entries if isinstance(entry.data, DriverChanged)]
    wrote = {entry.person for entry in entries if _CREW.intersection(roles.get(entry.person, ()))}
    drivers = {person for person in wrote if "co-driver" not in roles[person]} if said else set()
    return frozenset((wrote - drivers).union(said[-1:]))


def units_since(zero: datetime, at: datetime) -> int:
    """Return whole units of the grid from one time to another, 0 where it is earlier."""
    return max(0, int((at - zero).total_seconds() // GRID_S))


def _named(name: str, item: Under, story: Timeline) -> tuple[str, ...]:
    """Return who is on it; who began several at once is a scribe, and does not do them all himself."""
    several = [p for p in item.people if sum(p in other.people for other in story.under_way.values()) > 1]
    return () if several else item.people


def _open_steps(story: Timeline, queue: Queue, setup: Setup, done: frozenset[str]) -> frozenset[tuple[str, str]]:
    """Access that was ticked as open, or that work begun or done here needs, and that nobody ticked as closed."""
    steps = setup.rates.access
    places = {(step, zone) for step in steps for zone in ("", *setup.car_map.zones)}
    opened = {place for place in places if f"open {_name(place)}" in done}
    touched = {item.job for item in story.done} | set(story.under_way)
    for job in queue.jobs:
        todo = list(job.estimate.access) if job.job in touched else []
        while todo:
            step = steps.get(todo.pop())
            if step is not None:
                opened.add((step.step, job.zone if step.per == "zone" else ""))
                todo += step.needs
    # A job's zone may be one that the car map does not list.
    return frozenset(place for place in opened if f"close {_name(place)}" not in done)


def _name(place: tuple[str, str]) -> str:
    return " ".join(filter(None, place))


def _finishes(entry: Entry, service: str) -> bool:
    return entry.kind == "job.finished" or (isinstance(entry.data, TaskFinished) and entry.data.service == service)


def _done(entry: Entry) -> PlanDone:
    action = entry.data.action if isinstance(entry.data, JobFinished) else ""
    job = entry.subject if entry.kind == "job.finished" else None
    return PlanDone(f"{action} {entry.subject}".strip(), job, entry.at, entry.person)


def _official(entry: Entry, zone: ZoneInfo) -> datetime:
    """Return the officials' time of an entry, as a whole instant or as a clock time of the day it was put down."""
    put_down = instant(entry.at).astimezone(zone)
    try:
        said = entry.data.official_time if isinstance(entry.data, ServiceEntered | ServiceLeft) else None
        said = said or ""
        time = datetime.fromisoformat(said if "T" in said else f"{put_down.date()}T{said}")
    except ValueError:
        return put_down
    return within_reach(time if time.tzinfo else time.replace(tzinfo=zone))
