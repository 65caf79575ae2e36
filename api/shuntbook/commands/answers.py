"""The commands that print what follows from the log: queue and release."""

from pathlib import Path

import click

from shuntbook.commands.options import car_option, data_option, event_option, held_store, json_option, show
from shuntbook.commands.text import queue_text, release_text
from shuntbook.flow import answers


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
