"""The commands that print what follows from the log: queue and release; and the one that checks a rate table."""

from pathlib import Path

import click

from shuntbook.cli_options import car_option, data_option, event_option, held_store, json_option, show
from shuntbook.flow import answers
from shuntbook.flow.load import rates_files
from shuntbook.setup.faults import Faults
from shuntbook.setup.rates_files import read_rates
from shuntbook.text import queue_text, release_text


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


@click.group("rates")
def rates_commands() -> None:
    """Rate tables."""


@rates_commands.command("check")
@click.argument("folder", type=click.Path(path_type=Path))
@json_option
def rates_check_command(folder: Path, as_json: bool) -> None:
    """Check a rate table's folder and name every fault."""
    faults = Faults()
    rates = read_rates(rates_files(folder), faults)
    faults.raise_if_any()
    fields = {
        "rates": rates.version,
        "operations": len(rates.operations),
        "parts": len(rates.parts),
    }
    words = f"{folder}: good, {len(rates.operations)} operations, {len(rates.parts)} parts. Version {rates.version}"
    show(fields, as_json, words)
