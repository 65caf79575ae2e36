"""Who sees what: one table of roles, answers and their fields. What has no line here is shown to nobody but a manager.

What somebody sees is of each event by itself, since a role counts in its own event only. Roles decide what is shown,
never whether an entry is kept.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from enum import IntEnum
from typing import Any, TypeVar

from msgspec import to_builtins

from shuntbook.kit.canonical import plain, sha256
from shuntbook.queue.answer import Queue, Release
from shuntbook.setup.event import Person
from shuntbook.setup.words import ROLES


class Sight(IntEnum):
    """How much of an event somebody sees; each sees what those before it see.

    `CAR`: driver or co-driver for whom the set-up names cars: those cars, no prices, no stock, no queue of the phone's
    own. `CREW`: driver or co-driver: all cars, with what a phone calculates the queue from. `WORK`: who works on the
    cars. `MANAGER`: what is agreed and charged, too.
    """

    CAR = 1
    CREW = 2
    WORK = 3
    MANAGER = 4


ROLE_SIGHTS: Mapping[str, Sight] = {
    "driver": Sight.CREW,
    "co-driver": Sight.CREW,
    "mechanic": Sight.WORK,
    "inspector": Sight.WORK,
    "manager": Sight.MANAGER,
}

Table = Mapping[Sight, str]


def _by_name(table: Table) -> Mapping[str, Sight]:
    return {name: sight for sight, names in table.items() for name in names.split()}


ANSWERS = _by_name({
    Sight.CAR: "queue release",
    Sight.WORK: "lives passes plan",
    Sight.MANAGER: "costs statements files rates.observed spares",
})  # fmt: skip
"""Answer of an event → who may ask for it. Photos are named by their content: who is not sent the name has none."""

ENTRIES = _by_name({
    Sight.CAR: """
        report.filed report.amended report.withdrawn stage.nothing_seen service.entered service.left driver.changed
        control.entered control.left driver.asked car.retired car.restarts reading.taken incident.grouped photo.linked
        voice.linked job.started job.stopped job.finished job.deferred inspection.passed inspection.failed car.released
        task.started task.finished briefing.acknowledged handover.signed part.fitted part.retained entry.voided
    """,
    Sight.MANAGER: """
        cost.adjusted charge.decided charge.added statement.issued statement.line_settled
    """,
})  # fmt: skip
"""Kind of entry → who is sent it. Nothing that a phone calculates follows from what managers alone are sent."""

SETUP = _by_name({
    Sight.CAR: """
        event name timezone kind emergency languages currency cars people stages places services regulations routine
        looks check_lists car_map rates trust parts dated lives
    """,
    Sight.CREW: "rate_table van",
    Sight.MANAGER: "agreements",
})  # fmt: skip
"""Field of an event's set-up → who is told it. Within a table each key says by itself whether phones are told it."""

QUEUE = _by_name({
    Sight.CAR: """
        event car entries rates hash release
        hold_reasons hold_reasons.job hold_reasons.needs hold_reasons.entries hold_reasons.more
        released_unseen released_unseen.released released_unseen.service released_unseen.job released_unseen.entries
        jobs jobs.job jobs.zone jobs.component jobs.group jobs.safety_critical jobs.must_do jobs.condition jobs.action
        jobs.no_rate jobs.knock_on jobs.retracted jobs.state jobs.inspection jobs.findings jobs.uncovered jobs.reports
        jobs.photos jobs.two_versions
        jobs.estimate jobs.estimate.minutes_best jobs.estimate.minutes_likely jobs.estimate.minutes_worst
        jobs.estimate.minutes_expected jobs.estimate.mechanics jobs.estimate.access jobs.estimate.currency
        jobs.estimate.parts jobs.estimate.parts.part jobs.estimate.parts.qty
        totals totals.mechanic_minutes totals.access_minutes
    """,
    Sight.CREW: """
        jobs.estimate.labour jobs.estimate.parts_cost jobs.estimate.total
        jobs.estimate.parts.unit_cost jobs.estimate.parts.short
        totals.labour totals.parts_cost totals.total
    """,
})  # fmt: skip
"""Field of a queue, and of a release → who is told it; the others have null in its place."""


@dataclass(frozen=True)
class Paper:
    """Who may have a document, and who may where the event allows advice on the road."""

    always: Sight
    with_advice: Sight


PAPERS: Mapping[str, Paper] = {
    "statement": Paper(Sight.MANAGER, Sight.MANAGER),
    "job-sheet": Paper(Sight.WORK, Sight.CREW),
    "restart-sheet": Paper(Sight.WORK, Sight.CAR),
    "hand-over": Paper(Sight.CAR, Sight.CAR),
    "declaration": Paper(Sight.CAR, Sight.CAR),
    "record": Paper(Sight.WORK, Sight.CAR),
    "parts-order": Paper(Sight.WORK, Sight.CREW),
}
"""Document → who may have it. What it costs stands in it for a manager alone."""

COSTS_IN_PAPERS = Sight.MANAGER


@dataclass(frozen=True)
class Sees:
    """What a person sees of an event. cars: the only ones, for who is limited to some."""

    sight: Sight
    cars: Collection[str] = ()

    @property
    def tag(self) -> str:
        """Return a name that two people share who see the same; "" for a manager, who sees all."""
        return "" if self.sight is Sight.MANAGER else f"{self.sight.name} {' '.join(sorted(self.cars))}"

    def may(self, least: Sight) -> bool:
        """Return whether that is enough."""
        return self.sight >= least

    def sees_car(self, car: str) -> bool:
        """Return whether a car is one that is seen."""
        return self.sight is not Sight.CAR or car in self.cars

    def sees_entry(self, kind: str, car: str) -> bool:
        """Return whether an entry of a car is sent."""
        return self.sees_car(car) and self.may(ENTRIES.get(kind, Sight.MANAGER))


def sight_of(person: Person) -> Sees:
    """Return what somebody sees of an event, by its set-up."""
    sight = max((ROLE_SIGHTS[role] for role in person.roles if role in ROLES), default=Sight.CREW)
    limited = sight is Sight.CREW and bool(person.cars)
    return Sees(Sight.CAR, person.cars) if limited else Sees(sight)


Value = TypeVar("Value")
Json = dict[str, Any]


def setup_seen(setup: Mapping[str, Value], sees: Sees) -> dict[str, Value]:
    """Return what somebody is told of an event's set-up."""
    return {name: value for name, value in setup.items() if sees.may(SETUP.get(name, Sight.MANAGER))}


def queue_seen(answer: Queue | Release, sees: Sees) -> Json:
    """Return what somebody is told of a queue or a release as JSON: null stands for what is withheld.

    Its hash is of what is told: from that of the whole, prices could be guessed.
    """
    told: Json = _seen(to_builtins(answer), sees, "")
    return told | {"hash": sha256(plain({name: value for name, value in told.items() if name != "hash"}))}


def _seen(value: Any, sees: Sees, path: str) -> Any:
    if path and not sees.may(QUEUE.get(path, Sight.MANAGER)):
        return None
    if isinstance(value, list):
        return [_seen(one, sees, path) for one in value]
    if isinstance(value, dict):
        return {name: _seen(one, sees, f"{path}.{name}".lstrip(".")) for name, one in value.items()}
    return value
