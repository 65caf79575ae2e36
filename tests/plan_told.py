"""A plan as it is told, with the queue and the set-up that it is judged by: what the rules of `plan_rules` look up.

It reads the set-up's own rows, so that a key counts from the day that a file may say it, whatever the planner makes
of it.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Any

from shuntbook.setup.event import Routine
from shuntbook.setup.folder import Setup
from shuntbook.setup.itinerary import Service
from shuntbook.setup.rates import Operation

Json = dict[str, Any]
Place = tuple[str, str]
"""An access step and its zone; no zone for a step that is opened once for the car."""
GRID_S = 15
NUTS = "wheel-nut-torque"
ON_THE_WHEEL, FITS = ("wheel", "tyre"), ("swap", "replace", "change", "fit", "refit")
LONG_AGO, NEVER = -1_000_000, 1_000_000
OVER = ("finished", "accepted")
ROUND_THE_CAR, AWAY = "car", ""


def clock(seconds: int) -> str:
    """A time of the plan as a chief reads it: 12:30."""
    return f"{seconds // 60}:{seconds % 60:02}"


def named(task: Json) -> str:
    """A task with its time and its people, for a sentence."""
    who = ", ".join(task["people"]) or "nobody"
    return f"{task['task']} ({clock(task['start_s'])}-{clock(task['end_s'])}, {who})"


def overlap(task: Json, start: int, end: int) -> bool:
    """Whether a task goes on at some moment between two times."""
    return bool(task["start_s"] < end and task["end_s"] > start)


def on_grid(minutes: Fraction) -> int:
    """Expected minutes in seconds, rounded up to the grid."""
    return -int(-(minutes * 60 / GRID_S) // 1) * GRID_S


@dataclass(frozen=True)
class Told:
    """A plan with what it is judged by. mechanics: how many were asked for, None for all."""

    plan: Json
    queue: Json
    setup: Setup
    mechanics: int | None = None

    @property
    def tasks(self) -> list[Json]:
        answer: list[Json] = self.plan["tasks"]
        return answer

    @cached_property
    def jobs(self) -> dict[str, Json]:
        return {job["job"]: job for job in self.queue["jobs"]}

    def of(self, *kinds: str, **fields: object) -> list[Json]:
        """The tasks of some kinds whose fields are as said."""
        return [t for t in self.tasks if t["kind"] in kinds and all(t[name] == value for name, value in fields.items())]

    def work_of(self, job: str) -> list[Json]:
        return self.of("work", job=job)

    def inspections_of(self, job: str) -> list[Json]:
        return [task for task in self.of("inspect") if job in jobs_of(task)]

    def inspected(self, task: Json) -> list[Json]:
        return [self.jobs[name] for name in jobs_of(task)]

    def checks_of(self, job: Json, name: str) -> list[Json]:
        """The tasks of a check that a job's row names; a wheel's nuts are checked once for the corner."""
        mine = [t for t in self.of("check", job=job["job"]) if t["task"].split()[0] == name]
        return self.nuts_of(job["zone"]) if name == NUTS else mine

    def nuts_of(self, zone: str) -> list[Json]:
        return [t for t in self.of("check", zone=zone) if t["task"].split()[0] == NUTS]

    @property
    def service(self) -> Service | None:
        return next((s for s in self.setup.event.services if s.service == self.plan["service"]), None)

    def routine_of(self, task: Json) -> Routine:
        return next(r for r in self.setup.event.routine if task["task"] == f"routine {r.task}")

    def routine_row(self, task: Json) -> Mapping[str, Any]:
        rows = self.setup.event.rows["routine"]
        return next(row for row in rows if task["task"] == f"routine {row['task']}")

    def row(self, job: Json) -> Operation | None:
        """The row of the rate table that a job is repaired by; none where it is inspected or assessed."""
        if job["condition"] == "unknown":
            return None
        return self.setup.rates.operation(job["component"], job["condition"], job["zone"])

    def roles(self, person: str) -> tuple[str, ...]:
        return next((p.roles for p in self.setup.event.people if p.person == person), ())

    def has_skill(self, person: str, skill: str) -> bool:
        return any(p.person == person and skill in p.skills for p in self.setup.event.people)

    def is_crew(self, person: str) -> bool:
        """Whether somebody is in the car and works at service only where a row lets the crew."""
        roles = set(self.roles(person))
        return bool(roles & {"driver", "co-driver"}) and not roles & {"mechanic", "inspector"}

    @cached_property
    def hired(self) -> tuple[set[str], set[str]]:
        """The mechanics who are there, the first so many of the event, and the inspectors who are."""
        people = self.setup.event.people
        first = [p.person for p in people if "mechanic" in p.roles][: self.mechanics]
        also = [p for p in people if "inspector" in p.roles and ("mechanic" not in p.roles or p.person in first)]
        return set(first), {p.person for p in also}

    def lets_crew(self, task: Json) -> bool:
        """Whether the row that a task follows says `crew`."""
        return any(row.get("crew") for row in self._rows_of(task))

    def _rows_of(self, task: Json) -> Iterator[Mapping[str, Any]]:
        rows = self.setup.rates.rows
        if task["kind"] in ("open", "close"):
            yield from (row for row in rows["access"] if row["step"] == task["step"])
        if task["kind"] == "check":
            yield from (row for row in rows["checks"] if row["check"] == task["task"].split()[0])
        if task["kind"] == "work" and (found := self.row(self.jobs[task["job"]])) is not None:
            for row in rows["operations"]:
                if (row["component"], row["condition"], row["zone"]) == (found.component, found.condition, found.zone):
                    yield row

    # --- Access ---

    def place(self, step: str, zone: str) -> Place:
        return step, zone if self.setup.rates.access[step].per == "zone" else AWAY

    def around(self, steps: Iterable[str], zone: str) -> set[Place]:
        """The steps with all that has to be open around them."""
        found: set[Place] = set()
        todo = [step for step in steps if step in self.setup.rates.access]
        while todo:
            step = todo.pop()
            if self.place(step, zone) not in found:
                found.add(self.place(step, zone))
                todo += self.setup.rates.access[step].needs
        return found

    def span(self, place: Place) -> tuple[int, int] | None:
        """From when to when a step is open for work; None where it is not in the plan."""
        step, zone = place
        opens, closes = self.of("open", step=step, zone=zone), self.of("close", step=step, zone=zone)
        if not opens and " ".join(filter(None, ("open", *place))) in [
            done["task"] for done in self.plan.get("done", ())
        ]:
            return LONG_AGO, closes[0]["start_s"] if closes else NEVER
        return (opens[0]["end_s"], closes[0]["start_s"]) if opens and closes else None

    def needed_by(self, task: Json) -> set[Place]:
        """The steps that have to be open for a task, by the rate table, the car map and the routine work."""
        if task["kind"] in ("open", "close"):
            return self.around(self.setup.rates.access[task["step"]].needs, task["zone"])
        if task["kind"] == "routine":
            return self.around(self.routine_of(task).access, task["zone"])
        if task["kind"] == "inspect":
            return {
                place for job in self.inspected(task) for place in self.around(self.inspect_access(job), job["zone"])
            }
        return self.way(self.jobs[task["job"]]) if self._before_close(task) else set()

    def way(self, job: Json) -> set[Place]:
        """The steps that the repair of a job needs open; what is repaired needs none again."""
        return self.around(job["estimate"]["access"], job["zone"]) if job["state"] not in OVER else set()

    def _before_close(self, task: Json) -> bool:
        if task["kind"] == "work":
            return True
        check = self.setup.rates.checks.get(task["task"].split()[0])
        return task["job"] is not None and check is not None and check.when == "before-close"

    def inspect_access(self, job: Json) -> tuple[str, ...]:
        """What an inspection of a job's component needs open: its own steps, else those of the zone's kind."""
        own = self.setup.car_map.inspect_access(job["component"])
        zone = self.setup.car_map.zones.get(job["zone"])
        steps = own if own is not None else self.setup.rates.inspect_access.get(zone.kind, ()) if zone else ()
        return tuple(sorted(set(steps)))

    def moves_car(self, step: str) -> bool:
        """Whether the car goes up or down with a step; where no step says so, by its name."""
        rows = self.setup.rates.rows["access"]
        if any(row.get("moves_car") for row in rows):
            return any(row["step"] == step and row["moves_car"] for row in rows)
        return step.endswith("-on-stands")

    @cached_property
    def in_the_air(self) -> list[tuple[int, int]]:
        """When the car is off the ground."""
        lifted = {t["step"] for t in self.of("open", "close") if self.moves_car(t["step"])}
        found = []
        for step in lifted:
            up, down = self.of("open", step=step), self.of("close", step=step)
            found.append((up[0]["start_s"] if up else LONG_AGO, down[0]["end_s"] if down else NEVER))
        return found

    @cached_property
    def moving(self) -> list[Json]:
        """The tasks during which the car goes up or down."""
        return [t for t in self.of("open", "close") if self.moves_car(t["step"]) and t["end_s"] > t["start_s"]]


def jobs_of(task: Json) -> list[str]:
    """The jobs of an inspection."""
    return list(task.get("jobs") or ([task["job"]] if task["job"] is not None else []))
