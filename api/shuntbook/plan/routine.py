"""Routine work: what is done at a service whatever happened, and when in it."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from shuntbook.plan.access import Ways
from shuntbook.plan.draft import Draft, Level, Obstacle
from shuntbook.plan.problem import Span, Task, units
from shuntbook.plan.window import in_window
from shuntbook.setup.event import Routine
from shuntbook.setup.rates import ThreePoint


class Planned(NamedTuple):
    """A routine task by its number, and when it is to be done."""

    number: int
    when: str


def add_routine(draft: Draft, ways: Ways, routine: Routine) -> list[Planned]:
    """Add the task of routine work; nothing where it is done, or cannot be done, which is then a reason."""
    name = f"routine {routine.task}"
    if name in draft.progress.done:
        return []
    reason = next(filter(None, _reasons(draft, routine)), None)
    group = draft.named(name)
    if reason is not None:
        draft.left_out[group] = reason
        return []
    number = draft.add(in_window(draft, _task(draft, routine, name, group)))
    ways.for_routine(number, routine.access, routine.zone)
    if routine.vital or routine.must_do:
        draft.levels[Level.VITAL if routine.vital else Level.ROUTINE].add(group)
    draft.worth[group] = Fraction(0)
    return [Planned(number, routine.when)]


def _task(draft: Draft, routine: Routine, name: str, group: str) -> Task:
    minutes = ThreePoint(*(Fraction(value) for value in routine.minutes))
    return Task(
        name=name,
        kind="routine",
        units=units(minutes.expected),
        people=routine.mechanics,
        may=draft.who(mechanic=True),
        group=group,
        zone=routine.zone,
        uses=draft.places(routine.zone, routine.mechanics),
        ground=routine.when == "ground",
        minutes=minutes,
    )


def _reasons(draft: Draft, routine: Routine) -> Iterator[Obstacle | None]:
    may = draft.who(mechanic=True)
    yield draft.lacks(routine.mechanics, may, routine.task, routine.zone)
    for step in draft.steps(routine.access):
        yield draft.missing(step.step)
        hands = (*may, *(draft.crew()[:1] if step.crew else ()))
        yield draft.lacks(step.mechanics, hands, step.step, routine.zone if step.per == "zone" else "")
        if routine.when == "ground" and step.moves:
            yield Obstacle("people", f"it is done on the ground, and {step.step} lifts the car: change its access")


def keep_when(draft: Draft, routine: Sequence[Planned], spans: Sequence[Span]) -> None:
    """Put what is first before all else on the car, what is last after everything, the rest of `ground` after lowering.

    What is under way has begun, whatever would have had to be first.
    """
    others = [n for n, task in enumerate(draft.tasks) if task.car == draft.car and task.fixed is None]
    first, last, ground = ([one.number for one in routine if one.when == w] for w in ("first", "last", "ground"))
    for number in first:
        own = _own(number, first, spans, opening=True)
        draft.before += [(number, n) for n in others if n not in first and n not in own and draft.tasks[n].touches]
    for number in [n for n in last if draft.tasks[n].fixed is None]:
        own = _own(number, last, spans, opening=False)
        draft.before += [(n, number) for n in others if n not in last and n not in own]
    for number in [n for n in ground if draft.tasks[n].fixed is None]:
        draft.before += [(span.closes, number) for span in spans if span.stands]


def _own(number: int, alike: Sequence[int], spans: Sequence[Span], *, opening: bool) -> set[int | None]:
    """Return the ends of access that may come on the other side of it: its own, and where it has any those of the like.

    Two that are both first, each with access of its own, would otherwise wait for each other.
    """
    ways = _ways_of([number], spans) and _ways_of(alike, spans)
    return {span.opens if opening else span.closes for span in ways}


def _ways_of(numbers: Sequence[int], spans: Sequence[Span]) -> list[Span]:
    """Return the access around some tasks, and what lies around that."""
    inner, found = set(numbers), []
    for _ in spans:
        more = [span for span in spans if span not in found and inner.intersection(span.users)]
        found += more
        inner |= {end for span in more for end in (span.opens, span.closes) if end is not None}
    return found
