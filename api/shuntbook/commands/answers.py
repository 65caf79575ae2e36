"""The commands that print what follows from the log: queue, release, and what is due by its life."""

from pathlib import Path

import click

from shuntbook.commands.options import car_option, data_option, event_option, held_store, json_option, show
from shuntbook.commands.text import lives_text, queue_text, release_text
from shuntbook.flow import answers, lives


@click.command("queue")
@event_option
@car_option
@data_option
@json_option
def queue_command(event: str, car: str, data: Path | None, as_json: bool) -> None:
    """Print the repair queue of a car."""
    answer = answers.queue(held_store(data), event, car)
    show(answer, as_json, queue_text(answer))


@click.command("release")
@event_option
@car_option
@data_option
@json_option
def release_command(event: str, car: str, data: Path | None, as_json: bool) -> None:
    """Print whether the log holds a car, and why."""
    answer = answers.release(held_store(data), event, car)
    show(answer, as_json, release_text(answer))


@click.command("lives")
@event_option
@car_option
@data_option
@json_option
def lives_command(event: str, car: str, data: Path | None, as_json: bool) -> None:
    """Print which parts of a car are due by their life."""
    answer = lives.lives(held_store(data), event, car)
    show(answer, as_json, lives_text(answer))
