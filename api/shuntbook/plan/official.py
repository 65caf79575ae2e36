"""What waits for an official: a cage, looked at where there is a night before the car goes on."""

from fractions import Fraction

from shuntbook.plan.draft import Draft, Level
from shuntbook.plan.problem import Task, units
from shuntbook.plan.window import in_window
from shuntbook.queue.answer import Job
from shuntbook.setup.rates import ThreePoint

CAGE, OFFICIAL = "cage", "wait for the official"


def add_officials_look(draft: Draft, job: Job) -> None:
    """With a night before it a car waits for the official, who is called at once; neither binds anybody of the team."""
    lead = ThreePoint(*[Fraction(draft.setup.event.regulations.official_lead_minutes)] * 3)
    called = next((n for n, task in enumerate(draft.tasks) if task.name == OFFICIAL and task.car == draft.car), None)
    if called is None:
        called = draft.add(in_window(draft, Task(OFFICIAL, "check", units(lead.expected), minutes=lead)))
    minutes = draft.setup.rates.inspect(CAGE)
    look = Task(
        name=f"official looks at {job.job}",
        kind="inspect",
        units=units(minutes.expected),
        group=draft.named(job.job),
        job=job.job,
        zone=job.zone,
        minutes=minutes,
    )
    number = draft.add(in_window(draft, look))
    draft.before.append((called, number))
    draft.levels[Level.KNOWN].add(draft.named(job.job))
    draft.worth[draft.named(job.job)] = Fraction(0)
