"""Access: opened once, closed once around all that needs it, nested; the nuts of a wheel that came off."""

from collections.abc import Collection
from dataclasses import replace
from fractions import Fraction

from shuntbook.plan.draft import Draft, Obstacle
from shuntbook.plan.job_tasks import JobTasks, in_the_seat
from shuntbook.plan.obstacles import look_access
from shuntbook.plan.problem import Apart, Shorter, Span, Task, units
from shuntbook.plan.wheels import FETCHING, NUT_CHECK, WHEEL_OFF, takes_wheel_off
from shuntbook.plan.window import in_window
from shuntbook.setup.rates import Access, ThreePoint

NUT_CHECK_MINUTES = ThreePoint(Fraction(1, 2), Fraction(1, 2), Fraction(1))
"""Where the rate table names no such check (common practice, no source)."""
TWO = 2
"""One tightens a wheel's nuts, another checks them."""
Place = tuple[str, str]
"""A step and the zone, "" for a step that is opened once for the car."""


def closing(zone: str) -> str:
    """Return the name of the task that puts a corner's wheel on."""
    return f"close {WHEEL_OFF} {zone}"


class Ways:
    """The access steps of one car: what needs each, and what is done meanwhile."""

    def __init__(self, draft: Draft) -> None:
        self.draft = draft
        self.users: dict[Place, list[int]] = {}
        self.within: dict[Place, list[int]] = {}
        self.ground: dict[Place, list[int]] = {}
        self.ends: dict[Place, tuple[int | None, int]] = {}

    def for_inspection(self, tasks: JobTasks, number: int) -> None:
        """Open what an inspection needs open, whatever was repaired before it."""
        for place in self._places(list(look_access(self.draft, tasks.job)), tasks.job.zone):
            self.users.setdefault(place, []).append(number)

    def for_job(self, tasks: JobTasks, look: int | None) -> None:
        """Open the ways of a job: its work and checks need them, its look comes before they close."""
        places = self._places(tasks.job.estimate.access, tasks.job.zone)
        # What is repaired and waits for its check or its look opens nothing again; what is open stays so for it.
        for place in [p for p in places if not tasks.job.over or p in self.draft.progress.open_steps]:
            self.users.setdefault(place, []).extend(tasks.inside)
            self.within.setdefault(place, []).extend([] if look is None else [look])
            self.ground.setdefault(place, []).extend(tasks.ground)

    def for_routine(self, number: int, access: tuple[str, ...], zone: str) -> None:
        """Open the ways of routine work."""
        for place in self._places(list(access), zone):
            self.users.setdefault(place, []).append(number)

    def spans(self, jobs: list[JobTasks]) -> list[Span]:
        """Return all spans, with the tasks of opening and closing added, and those of wheels' nuts."""
        for place in sorted(self.draft.progress.open_steps):
            self.users.setdefault(place, [])
        places = sorted(self.users)
        # The inner ones first: what opens them needs what lies around them.
        for place in sorted(places, key=lambda p: -len(self._around(p))):
            self._open_and_close(place)
        self._wheels(jobs)
        return [self._span(place) for place in places]

    def _places(self, names: list[str], zone: str) -> list[Place]:
        return [(step.step, zone if step.per == "zone" else "") for step in self.draft.steps(names)]

    def _around(self, place: Place) -> list[Place]:
        """Return the steps that have to be open around one, from the map of `needs`."""
        step = self.draft.setup.rates.access[place[0]]
        return [p for p in self._places(list(step.needs), place[1]) if p in self.users]

    def _open_and_close(self, place: Place) -> None:
        step = self.draft.setup.rates.access[place[0]]
        is_open = place in self.draft.progress.open_steps
        because = tuple(dict.fromkeys(self.users[place]))
        opens = None if is_open else self._end("open", step, place, step.minutes_open, because)
        closes = self._end("close", step, place, step.minutes_close, () if is_open else because)
        self.ends[place] = (opens, closes)
        for outer in self._around(place):
            self.users[outer] += [closes] if opens is None else [opens, closes]

    def _end(self, kind: str, step: Access, place: Place, minutes: Fraction, because: tuple[int, ...]) -> int:
        draft = self.draft
        # What takes no time binds nobody: he may be in the middle of something else.
        people = step.mechanics if minutes else 0
        guests = draft.crew() if step.crew else ()
        if place in draft.progress.open_steps:
            people = min(people, self._at_most(place))
        task = Task(
            name=" ".join(filter(None, (kind, *place))),
            kind=kind,  # type: ignore[arg-type]
            units=units(minutes),
            people=people,
            may=(*draft.who(mechanic=True), *guests),
            guests=guests,
            because=because,
            step=step.step,
            zone=place[1],
            moves=step.moves and bool(minutes),
            uses=draft.places(place[1], people, seat=kind == "close" and in_the_seat(step.step)),
            minutes=ThreePoint(minutes, minutes, minutes),
        )
        return draft.add(in_window(draft, task))

    def _at_most(self, place: Place) -> int:
        """What is open has to be closed, by as many as there are and fit; somebody is left to check the nuts."""
        there, room = len(self.draft.who()), self.draft.room(place[1])
        others = there - 1 if place[0] == WHEEL_OFF and there > 1 else there
        return min(len(self.draft.who(mechanic=True)), others, others if room is None else room)

    def _span(self, place: Place) -> Span:
        draft, (opens, closes) = self.draft, self.ends[place]
        stands = draft.setup.rates.access[place[0]].moves
        # What is checked on the ground follows work that is done on stands, so it comes after they are taken away.
        draft.before += [(closes, number) for number in self.ground.get(place, ()) if stands]
        return Span(
            name=" ".join(filter(None, place)),
            opens=opens,
            closes=closes,
            users=tuple(dict.fromkeys(self.users[place])),
            within=tuple(dict.fromkeys(self.within.get(place, ()))),
            stands=stands,
            holds=draft.held_by(place[0]),
            car=draft.car,
        )

    def _stands_around(self, numbers: Collection[int]) -> list[int]:
        """Return what takes the stands away after each of these tasks, whichever of them are in."""
        return [
            self.ends[place][1]
            for place in self.ends
            if self.draft.setup.rates.access[place[0]].moves
            and numbers
            and {*self.users[place], *self.within.get(place, ())}.issuperset(numbers)
        ]

    def _wheels(self, jobs: list[JobTasks]) -> None:
        """Each corner whose wheel came off: a fresh wheel is not counted twice, and its nuts are checked."""
        zones = [place[1] for place in self.ends if place[0] == WHEEL_OFF]
        zones += [tasks.job.zone for tasks in jobs if tasks.nuts]
        zones += [zone for zone in self.draft.setup.car_map.zones if closing(zone) in self.draft.progress.done]
        for zone in dict.fromkeys(zones):
            off = self.ends.get((WHEEL_OFF, zone))
            here = [t for t in jobs if t.job.zone == zone and t.work is not None]
            fitted = [t.work for t in here if t.work is not None and takes_wheel_off(t.job, t.row)]
            reasons = [] if off is None else [off[1]]
            self.within.setdefault((WHEEL_OFF, zone), []).extend(fitted)
            for work in fitted:
                if reasons:
                    self._only_fetched(work, tuple(reasons))
                reasons.append(work)
            causes = reasons + [t.work for t in here if t.nuts and t.work is not None and t.work not in fitted]
            on = [t.job.job for t in jobs if t.job.zone == zone and t.nuts and t.work is None]
            on += [closing(zone)] if closing(zone) in self.draft.progress.done else []
            self._nuts(zone, causes, next((t.job.job for t in here if t.nuts), None), on)

    def _only_fetched(self, number: int, because: tuple[int, ...]) -> None:
        task = self.draft.tasks[number]
        shorter = min(units(FETCHING.expected), task.units)
        self.draft.tasks[number] = replace(task, shorter=Shorter(because, shorter, FETCHING))

    def _nuts(self, zone: str, causes: list[int], job: str | None, on: list[str]) -> None:
        """A wheel that came off has its nuts checked on the ground, by somebody else than who fitted it.

        on: what put one on already, so that its nuts are to be checked whatever else is done.
        """
        draft = self.draft
        name = f"{NUT_CHECK} {zone}"
        check = draft.setup.rates.checks.get(NUT_CHECK)
        minutes = check.minutes if check else NUT_CHECK_MINUTES
        if name in draft.progress.done:
            return
        may, is_open = draft.others(draft.who(), on), (WHEEL_OFF, zone) in draft.progress.open_steps
        if not may or (len(may) < TWO and is_open):
            draft.left_out[draft.named(name)] = Obstacle("people", "nobody else is there to check the wheel's nuts")
            return
        task = Task(
            name=name,
            kind="check",
            units=units(minutes.expected),
            people=1,
            may=may,
            because=() if on else tuple(causes),
            job=job,
            step=WHEEL_OFF,
            zone=zone,
            uses=draft.places(zone, 1),
            ground=True,
            minutes=minutes,
        )
        number = draft.add(in_window(draft, task))
        draft.before += [(cause, number) for cause in causes]
        # Whatever puts it into the plan is done on stands: then it waits for them, too. It follows from the rest of
        # the rules, and a solver that is told proves the end of a plan that it leaves open otherwise.
        draft.before += [(closes, number) for closes in self._stands_around(causes)]
        draft.apart.append(Apart(number, tuple(causes)))
