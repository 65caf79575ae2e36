"""The commands that plan: a car's service, and several cars' together."""

import json
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any, TypeVar

import click

from shuntbook.commands.options import car_option, data_option, event_option, held_store, json_option, show
from shuntbook.commands.text_plan import plan_text, team_plan_text
from shuntbook.flow.planning import plan, plan_at_once
from shuntbook.flow.team import TeamPlanRequest, team_plan, team_plan_at_once
from shuntbook.plan.context import PlanRequest, shown_of
from shuntbook.plan.team_context import shown_team
from shuntbook.setup.folder import Setup
from shuntbook.store import setups

Shape = TypeVar("Shape")


class Instant(click.ParamType[datetime]):
    """A time with its offset, as RFC 3339 writes it."""

    name = "time"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> datetime:
        """Return the time; wrong usage where it is none or has no offset."""
        try:
            time = datetime.fromisoformat(str(value))
        except ValueError:
            self.fail(f"{value!r} is no time; write one such as 2026-05-16T13:02:00+02:00", param, ctx)
        if time.tzinfo is None:
            self.fail(f"{value!r} has no offset; write one such as 2026-05-16T13:02:00+02:00", param, ctx)
        return time


class Pair(click.ParamType[tuple[str, str]]):
    """Two names with = between them."""

    name = "name=name"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> tuple[str, str]:
        """Return both; wrong usage where there is no =."""
        first, equals, second = str(value).partition("=")
        if not (first and equals and second):
            self.fail(f"{value!r} should read like {self.name.replace('name', 'X', 1)}", param, ctx)
        return first, second


def away_from(pairs: tuple[tuple[str, str], ...], setup: Setup) -> tuple[tuple[str, int], ...]:
    """Return who is there only from which minute on.

    Errors: wrong usage for a minute that is no number, and for somebody whom the event does not have.
    """
    people = [one.person for one in setup.event.people]
    for person, minute in pairs:
        if not minute.isdecimal():
            raise click.BadParameter(f"{person}={minute}: the minute is a whole number", param_hint="--away")
        if person not in people:
            what = f"{person} is nobody in {setup.event.event}; its people are {', '.join(people)}"
            raise click.BadParameter(what, param_hint="--away")
    return tuple(sorted((person, int(minute)) for person, minute in pairs))


def shown_in(file: Path | None, read: Callable[[Any], Shape]) -> Shape:
    """Return the plan last shown from a file of --json, as `read` has it. Errors: wrong usage for what is no plan."""
    try:
        return read(None if file is None else json.loads(file.read_bytes()))
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        raise click.BadParameter(f"{file} is no plan; save one with --json", param_hint="--previous") from error


mechanics_option = click.option(
    "--mechanics", type=click.IntRange(1, 50), help="Only the first so many mechanics of event.toml."
)
away_option = click.option(
    "--away", multiple=True, type=Pair(), metavar="PERSON=MINUTE", help="Who is there only from a minute on."
)
at_option = click.option("--at", type=Instant(), help="Plan the rest from this moment on, around what is under way.")
on_time_option = click.option(
    "--on-time-percent", type=click.FloatRange(0, 100), help="The chance to end in time that is kept; 0 for everything."
)
previous_option = click.option(
    "--previous",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    help="The plan last shown, a file of --json: as much of it is kept as can be.",
)
at_once_option = click.option("--at-once", is_flag=True, help="The plan that is there at once, without the solver.")


@click.command("plan")
@event_option
@car_option
@click.option("--service", default="", help="The service's name in event.toml; none for a car that restarts.")
@mechanics_option
@click.option(
    "--minutes", type=click.IntRange(1, 24 * 60), help="Minutes from control to control, instead of the service's."
)
@away_option
@at_option
@click.option("--ready-by", type=Instant(), help="For a car that restarts: by when, in place of a service.")
@on_time_option
@previous_option
@at_once_option
@data_option
@json_option
def plan_command(
    event: str,
    car: str,
    service: str,
    mechanics: int | None,
    minutes: int | None,
    away: tuple[tuple[str, str], ...],
    at: datetime | None,
    ready_by: datetime | None,
    on_time_percent: float | None,
    previous: Path | None,
    at_once: bool,
    data: Path | None,
    as_json: bool,
) -> None:
    """Plan a service: what fits, by whom, in what order, what is left out and why."""
    if not service and ready_by is None:
        raise click.UsageError("Missing option '--service' (or '--ready-by' for a car that restarts).")
    shown = shown_in(previous, shown_of)
    store = held_store(data)
    setup = setups.get(store.db, event)
    wish = PlanRequest(service, mechanics, minutes, away_from(away, setup), at, ready_by, on_time_percent, shown)
    answer = (plan_at_once if at_once else plan)(store, event, car, wish)
    show(answer, as_json, plan_text(answer, setup))


@click.command("team-plan")
@event_option
@click.option(
    "--visit", "visits", multiple=True, required=True, type=Pair(), metavar="CAR=SERVICE",
    help="A car and the service that it comes to; several for several cars.",
)  # fmt: skip
@mechanics_option
@away_option
@at_option
@on_time_option
@previous_option
@at_once_option
@data_option
@json_option
def team_plan_command(
    event: str,
    visits: tuple[tuple[str, str], ...],
    mechanics: int | None,
    away: tuple[tuple[str, str], ...],
    at: datetime | None,
    on_time_percent: float | None,
    previous: Path | None,
    at_once: bool,
    data: Path | None,
    as_json: bool,
) -> None:
    """Plan several cars whose services overlap, with the same people, stands and tools."""
    shown = shown_in(previous, shown_team)
    store = held_store(data)
    setup = setups.get(store.db, event)
    wish = TeamPlanRequest(visits, mechanics, away_from(away, setup), at, on_time_percent, shown)
    answer = (team_plan_at_once if at_once else team_plan)(store, event, wish)
    show(answer, as_json, team_plan_text(answer, setup))
