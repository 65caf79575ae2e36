"""The plan of several cars with the people, stands and tools that they share: by the goals, late where it has to be."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace

from msgspec.structs import asdict

from shuntbook.kit.errors import NotPossible
from shuntbook.plan.answer import Buys, Frame, Picture, other_answer, plan_answer
from shuntbook.plan.build import PlanModel
from shuntbook.plan.buys import HANDS, held_groups
from shuntbook.plan.check import faults
from shuntbook.plan.choose import Chosen, Solve, best_of, choose
from shuntbook.plan.context import ANY_TIME, PlanContext, frame_of
from shuntbook.plan.greedy import greedy
from shuntbook.plan.nearest import last_of
from shuntbook.plan.ontime import Chance, chance
from shuntbook.plan.problem import GRID_S, PER_MINUTE, Problem, Schedule, Task
from shuntbook.plan.team_context import Team
from shuntbook.plan.together import together
from shuntbook.plan.told import CarPlan, Needs, Other, Resource, TeamPlan

ANY_MINUTES = ANY_TIME // PER_MINUTE


@dataclass(frozen=True)
class _Made:
    """A plan chosen for all cars, these so many minutes late; on_hold: the plan in time where that one is late."""

    built: PlanModel
    chosen: Chosen
    late: Mapping[str, int]
    needs: Mapping[str, Needs] = field(default_factory=dict)
    on_hold: "_Made | None" = None


@dataclass(frozen=True)
class _Least:
    """How late each car leaves for what holds it, in minutes, and a plan of that alone."""

    late: Mapping[str, int]
    schedule: Schedule


def team_answer(team: Team, solver: Solve | None) -> TeamPlan:
    """Return the plan of all cars: in time where that is enough for what holds them, else late within the rules.

    Without a solver it is the one that is there at once. Errors: NotPossible where nothing keeps every rule.
    """
    made = _together(team, _make(team, solver), solver)
    pictures = {"": _picture(made.built, made.chosen.schedule, made.chosen)}
    if made.chosen.everything.inside - made.chosen.schedule.inside:
        pictures["everything"] = _picture(made.built, made.chosen.everything, made.chosen)
    if made.on_hold is not None:
        pictures["on-hold"] = _picture(made.on_hold.built, made.on_hold.chosen.schedule, made.on_hold.chosen)
    schedule = made.chosen.schedule
    return TeamPlan(
        event=team.cars[0].setup.event.event,
        starts_at=team.zero.isoformat(),
        proven=schedule.proven,
        by=schedule.by,
        finish_s=schedule.finish * GRID_S,
        cars=[_car(one, offset, made, pictures) for _, one, offset in team.each()],
        resources=[Resource(r.resource, r.count) for r in team.cars[0].setup.event.resources],
    )


def _make(team: Team, solver: Solve | None) -> _Made:
    in_time = _made(team, {}, solver)
    held = held_groups(in_time.built.problem)
    missing = held - in_time.chosen.schedule.inside
    least = _least_late(team, held, missing, solver) if missing else None
    if least is None:
        return in_time
    needs = {car: _needs(one, least.late[car]) for car, one, _ in team.each() if least.late[car] > one.overdue_min}
    in_time = replace(in_time, needs=needs)
    beyond = frozenset(
        group for car, need in needs.items() if need.penalty_s is None for group in _of(team, car, missing)
    )
    if beyond:
        # What cannot be done within the limits stays on hold; for the rest the cars may still leave late.
        held, missing = held - beyond, missing - beyond
        least = _least_late(team, held, missing, solver, past_limit=False) if missing else None
    return _late(team, in_time, held, least, solver) if least is not None and any(least.late.values()) else in_time


def _late(team: Team, in_time: _Made, held: frozenset[str], least: _Least, solver: Solve | None) -> _Made:
    """Return the plan that is so late, the one in time where that has not all of what holds the cars."""
    late = _made(team, least.late, solver, least.schedule)
    is_whole = held <= late.chosen.schedule.inside
    return replace(late, needs=in_time.needs, on_hold=in_time) if is_whole else in_time


def _of(team: Team, car: str, groups: Collection[str]) -> list[str]:
    """Return which of the groups are a car's."""
    return [group for group in groups if len(team.cars) == 1 or group.startswith(f"{car}/")]


def _made(team: Team, late: Mapping[str, int], solver: Solve | None, known: Schedule | None = None) -> _Made:
    return _Made(*_chosen(team, team.built(late), solver, known), late)


def _together(team: Team, made: _Made, solver: Solve | None) -> _Made:
    """Return the plans in which inspections are one task that are one by one for a job that is not in them."""

    def choosing(without: frozenset[str]) -> tuple[PlanModel, Chosen]:
        return _chosen(team, team.built(made.late, without), solver)

    built, chosen = together(made.built, made.chosen, choosing)
    on_hold = None if made.on_hold is None else _together(team, made.on_hold, solver)
    return replace(made, built=built, chosen=chosen, on_hold=on_hold)


def _chosen(
    team: Team, built: PlanModel, solver: Solve | None, known: Schedule | None = None
) -> tuple[PlanModel, Chosen]:
    problem, percent = built.problem, team.cars[0].percent
    chosen = choose(problem, percent, team.effort, solver, last_of(problem, team.told()), known)
    wrong = faults(problem, chosen.schedule)
    if wrong:
        raise NotPossible(f"no valid plan was found: {wrong[0]}")
    return built, chosen


def _least_late(
    team: Team, held: frozenset[str], missing: Collection[str], solver: Solve | None, *, past_limit: bool = True
) -> _Least | None:
    """Return the fewest minutes late, in all, in which what holds the cars fits; None where nothing was found.

    First only those cars leave late that something is missing of, then any; last past the event's limit.
    """
    limits = {car: one.left_min for car, one, _ in team.each()}
    theirs = {car: limit if _of(team, car, missing) else 0 for car, limit in limits.items()}
    for late in (theirs, limits, dict.fromkeys(limits, ANY_MINUTES))[: 3 if past_limit else 2]:
        problem = _only_what_holds(team, held, late)
        found = greedy(problem)
        if solver is not None:
            found = best_of(problem, HANDS, solver, found)
        if problem.musts <= found.inside:
            number = len(team.built({}).problem.tasks)
            of_work = tuple(item for item in found.placed if item.task < number)
            return _Least(_late_by(team, problem, found), replace(found, placed=of_work))
    return None


def _only_what_holds(team: Team, held: frozenset[str], late: Mapping[str, int]) -> Problem:
    """Return the problem of what holds the cars alone; a car that is done before it is due gains nothing by it."""
    problem = team.built(late).problem
    due = [Task("due", "check", 0, car=car, earliest=end) for car, end in team.due({}).items()]
    return replace(problem, tasks=(*problem.tasks, *due), values={}, levels=(held,))


def _late_by(team: Team, problem: Problem, found: Schedule) -> dict[str, int]:
    due = team.due({})
    ends = dict.fromkeys(due, 0)
    for item in found.placed:
        car = problem.tasks[item.task].car
        ends[car] = max(ends[car], item.end)
    over = {car: one.overdue_min for car, one, _ in team.each()}
    return {car: over[car] + max(0, -((due[car] - end) // PER_MINUTE)) for car, end in ends.items()}


def _needs(one: PlanContext, late: int) -> Needs:
    """Return the least time of a car beside the others, with what leaving so late costs."""
    return Needs(one.minutes + late, late, one.penalty_s(late) if late <= one.left_min else None)


def _picture(built: PlanModel, schedule: Schedule, chosen: Chosen) -> Picture:
    return Picture(built, schedule, chance(built.problem, schedule), chosen.shares, chosen.buffer)


def _car(one: PlanContext, offset: int, made: _Made, pictures: Mapping[str, Picture]) -> CarPlan:
    """Return one car's part; the other plans at hand are each of all cars at once."""
    car = one.queue.car

    def frame(late: Mapping[str, int]) -> Frame:
        return replace(frame_of(one, max(one.overdue_min, late.get(car, 0))), offset=offset)

    others: list[Other] = []
    if "everything" in pictures:
        mine = _of_overdue(one, pictures["everything"])
        others.append(other_answer("everything", one.queue, one.setup, frame(made.late), mine))
    if "on-hold" in pictures:
        others.append(other_answer("on-hold", one.queue, one.setup, frame({}), _of_overdue(one, pictures["on-hold"])))
    buys = Buys(made.needs.get(car), settled=True)
    mine = _of_overdue(one, pictures[""])
    answer = plan_answer(one.queue, one.setup, frame(made.late), mine, buys, one.story.done, others)
    return CarPlan(**asdict(answer), offset_s=offset * GRID_S)


def _of_overdue(one: PlanContext, picture: Picture) -> Picture:
    """A car whose time is over is in time in no run."""
    if not one.overdue_min:
        return picture
    played = Chance({**picture.chance.on_time, one.queue.car: 0.0}, picture.chance.critical)
    return replace(picture, chance=played)
