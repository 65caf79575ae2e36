"""The plan that is shown: by the goals, late where what holds the car does not fit, with other plans beside it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from shuntbook.kit.errors import NotPossible
from shuntbook.plan.answer import Buys, Picture, other_answer, plan_answer
from shuntbook.plan.build import PlanModel
from shuntbook.plan.buys import held_groups, least_of
from shuntbook.plan.check import faults
from shuntbook.plan.choose import Chosen, Solve, choose
from shuntbook.plan.context import PlanContext, frame_of
from shuntbook.plan.nearest import Told, last_of
from shuntbook.plan.ontime import RUNS, Chance, chance
from shuntbook.plan.problem import GRID_S, Schedule
from shuntbook.plan.together import together
from shuntbook.plan.told import Other, Plan


@dataclass(frozen=True)
class Made:
    """A plan chosen for a service, so many minutes late; on_hold: the plan in time where that one is late.

    start: the plan of all that could be planned, from which the search for what minutes and hands buy begins.
    """

    built: PlanModel
    chosen: Chosen
    late: int
    buys: Buys
    start: Schedule
    on_hold: "Made | None" = None

    @property
    def schedule(self) -> Schedule:
        """The plan that is shown."""
        return self.chosen.schedule


def make(scene: PlanContext, solver: Solve | None) -> Made:
    """Return the plan of a service: in time where that is enough for what holds the car, else late within the rules.

    Errors: NotPossible where nothing keeps every rule.
    """
    return _together(scene, _decided(scene, solver), solver)


def _decided(scene: PlanContext, solver: Solve | None) -> Made:
    in_time = _made(scene, None, solver)
    least = least_of(scene, in_time.built, in_time.schedule, solver)
    needs = None if least is None else least.needs
    hold = replace(in_time, buys=Buys(needs))
    if least is None or needs is None:
        return hold
    fits = needs.leave_late_min <= in_time.late
    if not fits and needs.penalty_s is None:
        return hold
    # The plan of that alone is where the search begins: what fits, in time or late, is not left out for want of effort.
    made = _made(scene, None if fits else needs.leave_late_min, solver, least.schedule)
    if not held_groups(made.built.problem) <= made.schedule.inside:
        return hold
    return made if fits else replace(made, buys=Buys(needs), on_hold=in_time)


def _made(scene: PlanContext, late: int | None, solver: Solve | None, known: Schedule | None = None) -> Made:
    built, chosen = _chosen(scene, scene.built(late), solver, known)
    return Made(built, chosen, scene.overdue_min if late is None else late, Buys(), chosen.schedule)


def _together(scene: PlanContext, made: Made, solver: Solve | None) -> Made:
    """Return a plan in which inspections are one task that are one by one for a job that is not in it."""

    def choosing(without: frozenset[str]) -> tuple[PlanModel, Chosen]:
        return _chosen(scene, scene.built(made.late, without=without), solver)

    built, chosen = together(made.built, made.chosen, choosing)
    on_hold = None if made.on_hold is None else _together(scene, made.on_hold, solver)
    return replace(made, built=built, chosen=chosen, on_hold=on_hold)


def _chosen(
    scene: PlanContext, built: PlanModel, solver: Solve | None, known: Schedule | None = None
) -> tuple[PlanModel, Chosen]:
    shown = [Told(one.task, one.start_s // GRID_S, one.people, one.jobs) for one in scene.wish.previous]
    last = last_of(built.problem, shown)
    chosen = choose(built.problem, scene.percent, scene.wish.effort, solver, last, known)
    wrong = faults(built.problem, chosen.schedule)
    if wrong:
        raise NotPossible(f"no valid plan was found: {wrong[0]}")
    return built, chosen


def answer_of(scene: PlanContext, made: Made, buys: Buys, runs: int = RUNS) -> Plan:
    """Return a plan as it is told."""
    return plan_answer(
        scene.queue,
        scene.setup,
        frame_of(scene, made.late),
        _picture(scene, made, made.schedule, runs),
        buys,
        scene.story.done,
        _others(scene, made, runs),
    )


def _others(scene: PlanContext, made: Made, runs: int) -> Sequence[Other]:
    """Return the plans that differ in what they do: everything whatever the chance, and in time on hold."""
    found = []
    if made.chosen.everything.inside - made.schedule.inside:
        picture = _picture(scene, made, made.chosen.everything, runs)
        found.append(other_answer("everything", scene.queue, scene.setup, frame_of(scene, made.late), picture))
    if made.on_hold is not None:
        picture = _picture(scene, made.on_hold, made.on_hold.schedule, runs)
        frame = frame_of(scene, made.on_hold.late)
        found.append(other_answer("on-hold", scene.queue, scene.setup, frame, picture))
    return found


def _picture(scene: PlanContext, made: Made, schedule: Schedule, runs: int) -> Picture:
    played = chance(made.built.problem, schedule, runs=runs)
    if scene.overdue_min:
        played = Chance(dict.fromkeys(played.on_time, 0.0), played.critical)
    return Picture(made.built, schedule, played, made.chosen.shares, made.chosen.buffer)
