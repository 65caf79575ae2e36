"""Makes small services whose best plan is known by hand: the package's own rates, people as they are asked for."""

from collections.abc import Sequence

from making import Json, Pen, queue_of
from shuntbook.plan.build import PlanModel, Visit, build, units_for_work, workers_of
from shuntbook.plan.check import faults
from shuntbook.plan.draft import Progress
from shuntbook.plan.greedy import greedy
from shuntbook.plan.problem import Schedule, Worker
from shuntbook.plan.solve import Effort, solve
from shuntbook.serving import sample_folder
from shuntbook.setup.folder import Setup, read_setup

EVENT = "planned"
RATES = {f"rates/{file.name}": file.read_bytes() for file in (sample_folder() / "rates").iterdir()}
PEOPLE = (("p-a", "mechanic"), ("p-b", "mechanic"), ("p-i", "inspector"))


def setup_of(people: Sequence[tuple[str, str]] = PEOPLE, minutes: int = 60, more: str = "", van: int = 9) -> Setup:
    """Return a set-up with one service A of so many minutes, all for work, and people of the roles named."""
    lines = [f'event = "{EVENT}"', 'timezone = "Europe/Vienna"']
    lines += [f'[[cars]]\ncar = "{car}"' for car in ("41", "42")]
    for person, roles in people:
        words = ", ".join(f'"{role}"' for role in roles.split("+") if role not in ("welder",))
        skills = '"welder"' if "welder" in roles else ""
        lines.append(f'[[people]]\nperson = "{person}"\nroles = [{words}]\nskills = [{skills}]')
    lines += ['[[stages]]\nstage = "SS1"\nkm = 9', '[[services]]\nservice = "A"\nafter = "SS1"']
    lines += [f"arrive = 2026-06-13T10:20:00+02:00\nminutes = {minutes}\nin_and_out_minutes = 0", more]
    parts = [line.split(",")[0] for line in RATES["rates/parts.csv"].decode().splitlines()[1:] if line]
    loaded = "part,loaded\n" + "".join(f"{part},{van}\n" for part in parts)
    return read_setup({"event.toml": "\n".join(lines).encode(), "van.csv": loaded.encode(), **RATES})


def hit(pen: Pen, zone: str, *findings: tuple[str, str], car: str = "41", symptoms: Sequence[str] = ()) -> Json:
    """Return a report of findings in a zone."""
    found = [{"component": component, "condition": condition} for component, condition in findings]
    return pen.entry(
        "report.filed", car=car, stage="SS1", where="stage", zone=zone, findings=found, symptoms=list(symptoms)
    )


def problem_of(
    setup: Setup, entries: Sequence[Json], *, progress: Progress | None = None, minutes: int | None = None
) -> PlanModel:
    """Return the problem of car 41 at service A."""
    service = setup.event.services[0]
    visit = Visit(queue_of(entries, setup), service, 0, units_for_work(service, minutes), progress or Progress())
    return build(setup, [visit], workers_of(setup, None, {}))


def best(built: PlanModel) -> Schedule:
    """Return the plan, which keeps every rule."""
    found = solve(built.problem, greedy(built.problem), Effort(deterministic_s=2.0))
    assert found is not None
    assert faults(built.problem, found) == []
    return found


def told(built: PlanModel, schedule: Schedule) -> dict[str, tuple[int, int, tuple[str, ...]]]:
    """Return start and end in units, and who, by the task's name."""
    names: list[Worker] = list(built.problem.workers)
    return {
        built.problem.tasks[item.task].name: (item.start, item.end, tuple(names[w].person for w in item.workers))
        for item in schedule.placed
    }
