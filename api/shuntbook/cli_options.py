"""What several commands share: their options, and how an answer is printed."""

import json
from pathlib import Path
from typing import Any

import click

data_option = click.option(
    "--data",
    type=click.Path(file_okay=False, path_type=Path),
    help="Folder the data lives in (default: SHUNTBOOK_DATA, else the user data folder).",
)
event_option = click.option("--event", required=True, help="The event's name in event.toml.")
car_option = click.option("--car", required=True, help="The car's number.")
json_option = click.option("--json", "as_json", is_flag=True, help="Print exactly what the API returns.")


def show(fields: Any, as_json: bool, words: str) -> None:
    """Print an answer, as JSON or as words."""
    click.echo(json.dumps(fields, ensure_ascii=False) if as_json else words)
